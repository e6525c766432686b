#include "solve/newton.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "solve/mesh.hpp"

namespace towloom {
namespace {

constexpr int most_iterations = 300, most_halvings = 60;
constexpr double overshot_share = 0.1;     // of the slope before the step
constexpr double least_secant = 0.3;       // a junction bends the secant too far back
constexpr int most_doublings = 8;
constexpr double slow_step = 1e-3, slow_share = 0.5;   // V; of the step before
constexpr int most_bends = 16;             // then the content alone decides
constexpr double past_bend = 1e-4;         // V
constexpr double step_limit = 1e-10;       // V
constexpr double noise_limit = 1e-7;       // V, where steps stop shrinking: a tenth of what is printed
constexpr double residual_limit = 1e-10;   // A, beside what rounding of the volts allows

// Currents, slopes and Kirchhoff's sums at one set of volts.
template <class Sum>
struct Picture {
  std::vector<double> amps, siemens;   // by branch
  // By point: what is missing into it. A branch's current is the same number at both its ends; summed
  // with more digits it cancels in a floating piece, which its leak of 1 nS alone must hold.
  std::vector<Sum> into;
  double content = 0;
};

double volts_at(const std::vector<double>& volts, int point) { return point < 0 ? 0 : volts[static_cast<size_t>(point)]; }

// Most branches are plain resistances: worked out in place, an open one not at all.
Response respond_at(const Branch& b, double v) {
  if (b.curve.law != Law::resistor) return respond(b.curve, v);
  const double amps = b.curve.siemens * v;
  return {amps, b.curve.siemens, amps * v / 2};
}

// `out` is filled anew: its memory serves again.
template <class Sum>
void look(const Network& net, const std::vector<double>& volts, Picture<Sum>& out) {
  const auto n = static_cast<size_t>(net.points);
  out.amps.assign(net.branches.size(), 0);
  out.siemens.assign(net.branches.size(), 0);
  out.content = 0;
  out.into.resize(n);
  for (size_t p = 0; p < n; ++p) {
    out.into[p] = -static_cast<Sum>(point_leak) * volts[p];
    out.content += point_leak * volts[p] * volts[p] / 2;
  }
  for (size_t p = 0; p < net.forced_a.size(); ++p) {
    out.into[p] += net.forced_a[p];
    out.content -= net.forced_a[p] * volts[p];
  }
  for (size_t i = 0; i < net.branches.size(); ++i) {
    const Branch& b = net.branches[i];
    if (b.curve.law == Law::resistor && b.curve.siemens == 0) continue;
    const Response r = respond_at(b, volts_at(volts, b.a) - volts_at(volts, b.b));
    out.amps[i] = r.amps;
    out.siemens[i] = r.siemens;
    out.content += r.content;
    if (b.a >= 0) out.into[static_cast<size_t>(b.a)] -= r.amps;
    if (b.b >= 0) out.into[static_cast<size_t>(b.b)] += r.amps;
  }
}

template <class Sum>
std::vector<double> newton_step(const Network& net, const Mesh& mesh, const Picture<Sum>& at) {
  std::vector<double> to_reference(static_cast<size_t>(net.points), point_leak), between;
  for (size_t i = 0; i < net.branches.size(); ++i) {
    const Branch& b = net.branches[i];
    if (b.a >= 0 && b.b >= 0) between.push_back(at.siemens[i]);
    else if (b.a >= 0) to_reference[static_cast<size_t>(b.a)] += at.siemens[i];
    else if (b.b >= 0) to_reference[static_cast<size_t>(b.b)] += at.siemens[i];
  }
  return mesh.solve(between, to_reference, {at.into.begin(), at.into.end()});
}

void move(const std::vector<double>& from, const std::vector<double>& step, double share, std::vector<double>& to) {
  for (size_t i = 0; i < from.size(); ++i) to[i] = from[i] + share * step[i];
}

// Of the co-content.
template <class Sum>
double slope_along(const std::vector<double>& step, const Picture<Sum>& at) {
  double slope = 0;
  for (size_t p = 0; p < step.size(); ++p) slope -= static_cast<double>(at.into[p]) * step[p];
  return slope;
}

// Kirchhoff's law holds as far as the volts' last digit lets it be seen.
template <class Sum>
bool balanced(const Network& net, const std::vector<double>& volts, const Picture<Sum>& at) {
  std::vector<double> rounding(static_cast<size_t>(net.points), 0);   // by point: the error that the last digit makes
  for (size_t i = 0; i < net.branches.size(); ++i) {
    const Branch& b = net.branches[i];
    const double error = 4 * std::numeric_limits<double>::epsilon() *
                         (at.siemens[i] * (std::abs(volts_at(volts, b.a)) + std::abs(volts_at(volts, b.b)) + std::abs(b.curve.volts)) + std::abs(at.amps[i]));
    if (b.a >= 0) rounding[static_cast<size_t>(b.a)] += error;
    if (b.b >= 0) rounding[static_cast<size_t>(b.b)] += error;
  }
  for (size_t p = 0; p < at.into.size(); ++p)
    if (!(std::abs(at.into[p]) <= residual_limit + rounding[p])) return false;
  return std::isfinite(at.content);
}

double largest(const std::vector<double>& values) {
  double out = 0;
  for (const double v : values)
    if (std::abs(v) > out) out = std::abs(v);
  return out;
}

// The first share of a step at which an LED or a limit comes to its next straight piece, and a little beyond: there
// the slope jumps, and a search that halves creeps up to the bend for ever. 1 = none does.
double first_bend(const Network& net, const std::vector<double>& volts, const std::vector<double>& step) {
  double first = 1;
  for (const Branch& b : net.branches) {
    const Curve& c = b.curve;
    if (c.law != Law::led && c.law != Law::limited) continue;
    const double v = volts_at(volts, b.a) - volts_at(volts, b.b), dv = volts_at(step, b.a) - volts_at(step, b.b);
    const double low = c.law == Law::led ? c.volts : c.volts - c.least_a / c.siemens;
    const double high = c.law == Law::led ? c.volts : c.volts + c.amps / c.siemens;
    for (const double bend : {low, high}) {
      const double to = bend + (dv > 0 ? past_bend : -past_bend) - v;
      if (to * dv > 0 && to / dv < first) first = to / dv;
    }
  }
  return first;
}

// A point held by its leak alone moves a little for ever: rounding of its firm neighbours.
bool settled(double step, double before) {
  return step <= step_limit || (step <= noise_limit && step >= before / 4);
}

template <class Sum>
Operating search(const Network& net, const Mesh& mesh, const std::vector<double>& start, double near_enough) {
  Operating out;
  out.volts = start;
  out.volts.resize(static_cast<size_t>(net.points), 0);
  Picture<Sum> at, next, beyond;
  look(net, out.volts, at);
  std::vector<double> volts(out.volts.size()), farther(out.volts.size());
  int bends = 0;
  double moved_before = std::numeric_limits<double>::infinity();
  for (out.iterations = 1; out.iterations <= most_iterations; ++out.iterations) {
    const std::vector<double> step = newton_step(net, mesh, at);
    const double slope = slope_along(step, at);   // downhill
    if (!std::isfinite(slope)) break;
    double share = 1;
    move(out.volts, step, share, volts);
    look(net, volts, next);
    const double rounding = 1e-13 * (1 + std::abs(at.content));
    bool bent = false;
    if (bends < most_bends && !(next.content <= at.content + 1e-4 * slope + rounding)) {
      if (const double bend = first_bend(net, out.volts, step); bend < 1) {
        move(out.volts, step, bend, volts);
        look(net, volts, next);
        bent = next.content <= at.content + rounding;
        if (bent) share = bend;
        ++bends;
      }
    }
    for (int i = 0; i < most_halvings && !bent && !(next.content <= at.content + 1e-4 * share * slope + rounding); ++i) {
      share /= 2;
      move(out.volts, step, share, volts);
      look(net, volts, next);
    }
    if (!std::isfinite(next.content)) break;
    const double moved_by = largest(step);
    // A filament near 0 V throws the step over to the other side, again and again: the secant finds the floor.
    if (const double beyond_slope = slope_along(step, next); !bent && moved_by > slow_step && beyond_slope > -overshot_share * slope) {
      const double floor = share * std::max(least_secant, slope / (slope - beyond_slope));
      move(out.volts, step, floor, farther);
      look(net, farther, beyond);
      if (beyond.content < next.content) {
        share = floor;
        std::swap(volts, farther);
        std::swap(next, beyond);
      }
    }
    // A junction that must stop conducting goes down by one thermal voltage a step: steps that hardly shrink are
    // doubled as long as the content falls.
    if (share == 1 && moved_by > slow_step && moved_by > slow_share * moved_before)
      for (int i = 0; i < most_doublings; ++i) {
        move(out.volts, step, 2 * share, farther);
        look(net, farther, beyond);
        if (!(beyond.content < next.content)) break;
        share *= 2;
        std::swap(volts, farther);
        std::swap(next, beyond);
      }
    std::swap(out.volts, volts);
    std::swap(at, next);
    if (share == 1 && (moved_by <= near_enough || (settled(moved_by, moved_before) && balanced(net, out.volts, at)))) {
      out.converged = true;
      break;
    }
    moved_before = moved_by;
  }
  out.amps = at.amps;
  return out;
}

}  // namespace

// The order of elimination depends on which points are joined only: it is kept for the next network of that shape.
// Faults and scenes of one circuit have few shapes. A memory, not a state: no answer depends on it.
std::shared_ptr<const Mesh> mesh_of(const Network& net) {
  using Shape = std::pair<int, std::vector<std::pair<int, int>>>;
  constexpr size_t most_shapes = 256;
  thread_local std::map<Shape, std::shared_ptr<const Mesh>> known;
  Shape shape{net.points, {}};
  for (const Branch& b : net.branches)
    if (b.a >= 0 && b.b >= 0) shape.second.push_back({b.a, b.b});
  const auto found = known.find(shape);
  if (found != known.end()) return found->second;
  if (known.size() >= most_shapes) known.clear();
  auto mesh = std::make_shared<const Mesh>(shape.first, shape.second);
  return known.emplace(std::move(shape), std::move(mesh)).first->second;
}

Operating find_operating_point(const Network& net, const std::vector<double>& start) { return find_operating_point(net, *mesh_of(net), start); }

Operating find_operating_point(const Network& net, const Mesh& mesh, const std::vector<double>& start, double near_enough) {
  return near_enough > 0 ? search<double>(net, mesh, start, near_enough) : search<long double>(net, mesh, start, 0);
}

}  // namespace towloom
