#include "solve/kirchhoff.hpp"

#include <cmath>
#include <limits>

namespace towloom {
using std::size_t;

namespace {

constexpr double past_bend = 1e-4;         // V
constexpr double residual_limit = 1e-10;   // A, beside what rounding of the volts allows

bool is_straight(const Curve& c) { return c.law == Law::resistor || c.law == Law::source; }

}  // namespace

void Kirchhoff::set(const Network& net, const Mesh& mesh) {
  network_ = &net;
  mesh_ = &mesh;
  points_ = static_cast<size_t>(net.points);
  straight_.clear();
  bent_.clear();
  siemens_.assign(static_cast<size_t>(mesh.slots()), 0);
  to_reference_.assign(points_, point_leak);
  own_.assign(points_, point_leak);
  forced_ = net.forced_a;
  forced_.resize(points_, 0);
  const auto place = [&](int point) { return point < 0 ? points_ : static_cast<size_t>(point); };
  size_t pair = 0;
  for (const Branch& b : net.branches) {
    const bool within = b.a >= 0 && b.b >= 0;
    const int slot = within ? mesh.slot(pair++) : -1;
    const Curve& c = b.curve;
    if (!is_straight(c)) {
      bent_.push_back({place(b.a), place(b.b), slot, &c});
      continue;
    }
    if (c.siemens == 0) continue;
    straight_.push_back({place(b.a), place(b.b), c.siemens, c.law == Law::source ? c.volts : 0});
    if (slot >= 0) siemens_[static_cast<size_t>(slot)] += c.siemens;
    else if (!within && b.a >= 0) to_reference_[static_cast<size_t>(b.a)] += c.siemens;
    else if (!within && b.b >= 0) to_reference_[static_cast<size_t>(b.b)] += c.siemens;
  }
}

void Kirchhoff::set(const Left& left, const std::vector<Line>& pairs, const std::vector<Line>& bent, const std::vector<const Curve*>& curves,
                    const Mesh& mesh) {
  network_ = nullptr;
  mesh_ = &mesh;
  points_ = left.to_reference.size();
  siemens_.assign(static_cast<size_t>(mesh.slots()), 0);
  own_ = to_reference_ = left.to_reference;
  forced_ = left.forced_a;
  straight_.clear();
  bent_.clear();
  for (size_t i = 0; i < pairs.size(); ++i) {
    if (left.siemens[i] == 0) continue;
    straight_.push_back({static_cast<size_t>(pairs[i].a), static_cast<size_t>(pairs[i].b), left.siemens[i], 0});
    siemens_[static_cast<size_t>(pairs[i].slot)] += left.siemens[i];
  }
  const auto place = [&](int point) { return point < 0 ? points_ : static_cast<size_t>(point); };
  for (size_t i = 0; i < bent.size(); ++i)
    if (curves[i] != nullptr) bent_.push_back({place(bent[i].a), place(bent[i].b), bent[i].slot, curves[i]});
}

template <class Sum>
void Kirchhoff::look(const std::vector<double>& volts, Picture<Sum>& out) const {
  out.amps.resize(bent_.size());
  out.siemens.resize(bent_.size());
  out.into.resize(points_ + 1);
  out.content = 0;
  for (size_t p = 0; p < points_; ++p) {
    out.into[p] = forced_[p] - static_cast<Sum>(own_[p]) * volts[p];
    out.content += (own_[p] * volts[p] / 2 - forced_[p]) * volts[p];
  }
  out.into[points_] = 0;
  for (const Straight& s : straight_) {
    const double v = volts[s.a] - volts[s.b] - s.emf, amps = s.siemens * v;
    out.content += amps * v / 2;
    out.into[s.a] -= amps;
    out.into[s.b] += amps;
  }
  for (size_t i = 0; i < bent_.size(); ++i) {
    const Bent& b = bent_[i];
    const Response r = respond(*b.curve, volts[b.a] - volts[b.b]);
    out.amps[i] = r.amps;
    out.siemens[i] = r.siemens;
    out.content += r.content;
    out.into[b.a] -= r.amps;
    out.into[b.b] += r.amps;
  }
}

template <class Sum>
void Kirchhoff::newton_step(const Picture<Sum>& at, std::vector<double>& step) {
  work_.siemens = siemens_;
  work_.to_reference = to_reference_;
  work_.amps.assign(at.into.begin(), at.into.end());
  for (size_t i = 0; i < bent_.size(); ++i) {
    const Bent& b = bent_[i];
    if (b.slot >= 0) work_.siemens[static_cast<size_t>(b.slot)] += at.siemens[i];
    else if (b.b == points_ && b.a < points_) work_.to_reference[b.a] += at.siemens[i];
    else if (b.a == points_ && b.b < points_) work_.to_reference[b.b] += at.siemens[i];
  }
  step.resize(points_ + 1);
  mesh_->solve(work_, step);
  step[points_] = 0;
}

template <class Sum>
bool Kirchhoff::balanced(const std::vector<double>& volts, const Picture<Sum>& at) const {
  std::vector<double> rounding(points_ + 1, 0);   // by point: the error that the last digit makes
  const auto add = [&](size_t a, size_t b, double siemens, double amps, double emf) {
    const double error =
        4 * std::numeric_limits<double>::epsilon() * (siemens * (std::abs(volts[a]) + std::abs(volts[b]) + std::abs(emf)) + std::abs(amps));
    rounding[a] += error;
    rounding[b] += error;
  };
  for (const Straight& s : straight_) add(s.a, s.b, s.siemens, s.siemens * (volts[s.a] - volts[s.b] - s.emf), s.emf);
  for (size_t i = 0; i < bent_.size(); ++i) add(bent_[i].a, bent_[i].b, at.siemens[i], at.amps[i], bent_[i].curve->volts);
  for (size_t p = 0; p < points_; ++p)
    if (!(std::abs(at.into[p]) <= residual_limit + rounding[p])) return false;
  return std::isfinite(at.content);
}

double Kirchhoff::first_bend(const std::vector<double>& volts, const std::vector<double>& step) const {
  double first = 1;
  for (const Bent& b : bent_) {
    const Curve& c = *b.curve;
    if (c.law != Law::led && c.law != Law::limited) continue;
    const double v = volts[b.a] - volts[b.b], dv = step[b.a] - step[b.b];
    const double low = c.law == Law::led ? c.volts : c.volts - c.least_a / c.siemens;
    const double high = c.law == Law::led ? c.volts : c.volts + c.amps / c.siemens;
    for (const double bend : {low, high}) {
      const double to = bend + (dv > 0 ? past_bend : -past_bend) - v;
      if (to * dv > 0 && to / dv < first) first = to / dv;
    }
  }
  return first;
}

std::vector<double> Kirchhoff::amps(const std::vector<double>& volts) const {
  std::vector<double> out;
  out.reserve(network_->branches.size());
  const auto at = [&](int point) { return point < 0 ? 0.0 : volts[static_cast<size_t>(point)]; };
  for (const Branch& b : network_->branches) out.push_back(respond(b.curve, at(b.a) - at(b.b)).amps);
  return out;
}

template void Kirchhoff::look(const std::vector<double>&, Picture<double>&) const;
template void Kirchhoff::look(const std::vector<double>&, Picture<long double>&) const;
template void Kirchhoff::newton_step(const Picture<double>&, std::vector<double>&);
template void Kirchhoff::newton_step(const Picture<long double>&, std::vector<double>&);
template bool Kirchhoff::balanced(const std::vector<double>&, const Picture<double>&) const;
template bool Kirchhoff::balanced(const std::vector<double>&, const Picture<long double>&) const;

}  // namespace towloom
