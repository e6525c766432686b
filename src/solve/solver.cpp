#include "solve/solver.hpp"

#include <algorithm>
#include <cmath>

#include "solve/mesh.hpp"

namespace towloom {
namespace {

// Figures are compared and printed after rounding, so that every compiler prints the same.
double rounded(double v) { return std::round(v * 1e6) / 1e6 + 0.0; }

// Constant-power drivers: solved with the current of the volts found before, until both agree. Where the supply is
// too weak for the watts that never ends, and the phase counts as not converged.
constexpr int most_power_rounds = 60;
constexpr double power_amps_limit = 1e-9;

Operating as_operating(const Network& network, std::vector<double> volts) {
  Operating out;
  const auto at = [&](int point) { return point < 0 ? 0.0 : volts[static_cast<size_t>(point)]; };
  for (const Branch& b : network.branches) out.amps.push_back(respond(b.curve, at(b.a) - at(b.b)).amps);
  out.volts = std::move(volts);
  out.converged = true;
  return out;
}

}  // namespace

Solver::Solver(const Circuit& circuit, const Catalogue& catalogue) : circuit_(circuit), points_(number_points(circuit)) {
  node_ = number_nodes(circuit, points_, nodes_);
  all_.points = nodes_;
  const auto node = [&](int point) { return node_[static_cast<size_t>(point)]; };
  for (size_t p = 0; p < circuit.parts.size(); ++p) {
    first_slot_.push_back(static_cast<int>(slots_.size()));
    for (size_t e = 0; e < circuit.parts[p].elements.size(); ++e) {
      const Element& element = circuit.parts[p].elements[e];
      Slot slot{static_cast<int>(p), static_cast<int>(e), node(points_.first[p] + element.a), node(points_.first[p] + element.b), element.gate,
                -1, element.device, element.duty < 1, element.law == Law::power, make_curve(element)};
      if (!element.signal.empty()) {
        const auto known = std::find(signals_.begin(), signals_.end(), element.signal);
        slot.signal = static_cast<int>(known - signals_.begin());
        if (known == signals_.end()) signals_.push_back(element.signal);
      }
      powers_ = powers_ || slot.power;
      all_.branches.push_back({slot.a, slot.b, {}});
      slots_.push_back(std::move(slot));
    }
  }
  for (const Wire& w : circuit.wires)
    all_.branches.push_back({node(points_.at(w.from)), node(points_.at(w.to)), make_resistor(ohm_of(w, circuit, catalogue))});
  devices_ = towloom::has_devices(circuit);
}

std::vector<Wave> Solver::read(const Scene& scene) const {
  std::vector<Wave> out;
  for (const std::string& signal : signals_) out.push_back(scene.signal(signal));
  return out;
}

std::vector<char> Solver::conducting(const std::vector<Wave>& waves, int flash, const Pulled& pulled, bool pulse) const {
  std::vector<char> out;
  out.reserve(slots_.size());
  for (const Slot& s : slots_) {
    const Wave wave = s.signal < 0 ? Wave::off : waves[static_cast<size_t>(s.signal)];
    const bool in = s.device >= 0 && !pulled.empty() && pulled[static_cast<size_t>(s.part)][static_cast<size_t>(s.device)] != 0;
    out.push_back(gate_open(s.gate, wave, flash, in) && !(s.pulsed && !pulse) ? 1 : 0);
  }
  return out;
}

const Reduction& Solver::reduction() const {
  if (reduction_) return *reduction_;
  std::vector<char> bent(all_.branches.size(), 0);
  for (size_t s = 0; s < slots_.size(); ++s) bent[s] = slots_[s].curve.law != Law::resistor && slots_[s].curve.law != Law::source;
  reduction_ = std::make_shared<const Reduction>(all_, std::move(bent));
  return *reduction_;
}

Network Solver::network(const std::vector<char>& conducting) const {
  Network out = all_;
  for (size_t s = 0; s < slots_.size(); ++s)
    if (conducts(slots_[s], conducting[s])) out.branches[s].curve = slots_[s].curve;
  return out;
}

Operating Solver::operate(Network network, const std::vector<double>& start) const {
  const auto find = [&](const std::vector<double>& from) {
    if (network.branches.size() != all_.branches.size()) return find_operating_point(network, from);   // a load is attached
    std::vector<const Curve*> curves;
    for (const Branch& b : network.branches) curves.push_back(&b.curve);
    Nearly near = reduction().find_start(curves, from);
    if (nearly_ && near.converged) return as_operating(network, std::move(near.volts));
    if (!mesh_) mesh_ = mesh_of(all_);
    return find_operating_point(network, *mesh_, near.volts);
  };
  Operating found = find(start);
  for (int round = 0; powers_ && found.converged; ++round) {
    bool agree = true;
    for (size_t s = 0; s < slots_.size(); ++s) {
      Branch& branch = network.branches[s];
      if (!slots_[s].power || branch.curve.law != Law::limited) continue;   // or open
      const auto volts = [&](int point) { return point < 0 ? 0.0 : found.volts[static_cast<size_t>(point)]; };
      const double amps = power_amps(element(static_cast<int>(s)), volts(branch.a) - volts(branch.b));
      agree = agree && std::fabs(amps - branch.curve.amps) <= power_amps_limit;
      branch.curve.amps = amps;
    }
    if (agree) break;
    if (round == most_power_rounds) {
      found.converged = false;
      break;
    }
    found = find(found.volts);
  }
  return found;
}

double Solver::missing_amps(const std::vector<char>& conducting, const std::vector<double>& volts, std::vector<double>& amps) const {
  std::vector<double> into(static_cast<size_t>(nodes_) + 1, 0);   // the last: 0 V
  amps.assign(all_.branches.size(), 0);
  const auto place = [&](int point) { return point < 0 ? static_cast<size_t>(nodes_) : static_cast<size_t>(point); };
  const auto at = [&](int point) { return point < 0 ? 0.0 : volts[static_cast<size_t>(point)]; };
  for (size_t b = 0; b < all_.branches.size(); ++b) {
    const Branch& branch = all_.branches[b];
    if (b < slots_.size() && !conducts(slots_[b], conducting[b])) continue;
    const Curve& curve = b < slots_.size() ? slots_[b].curve : branch.curve;
    const double v = at(branch.a) - at(branch.b);
    amps[b] = curve.law == Law::resistor ? curve.siemens * v : respond(curve, v).amps;
    into[place(branch.a)] -= amps[b];
    into[place(branch.b)] += amps[b];
  }
  double out = 0;
  for (size_t p = 0; p < static_cast<size_t>(nodes_); ++p) out += std::fabs(into[p] - point_leak * volts[p]);
  return out;
}

double Solver::amps_at(int number, const std::vector<char>& conducting, const std::vector<double>& volts) const {
  const auto b = static_cast<size_t>(number);
  const Branch& branch = all_.branches[b];
  if (b < slots_.size() && !conducts(slots_[b], conducting[b])) return 0;
  const auto at = [&](int point) { return point < 0 ? 0.0 : volts[static_cast<size_t>(point)]; };
  return respond(b < slots_.size() ? slots_[b].curve : branch.curve, at(branch.a) - at(branch.b)).amps;
}

bool Solver::is_resistor(int branch) const {
  if (static_cast<size_t>(branch) >= slots_.size()) return true;
  const Slot& s = slots_[static_cast<size_t>(branch)];
  return s.curve.law == Law::resistor && !s.pulsed;
}

std::int64_t Solver::gate_number(int branch) const {
  if (static_cast<size_t>(branch) >= slots_.size()) return 0;
  const Slot& s = slots_[static_cast<size_t>(branch)];
  if (s.gate == Gate::always) return 0;
  const bool device = s.gate == Gate::pulled || s.gate == Gate::rest;
  const std::int64_t of = device ? static_cast<std::int64_t>(s.part) * 1000 + s.device : s.signal;
  return of * 16 + static_cast<std::int64_t>(s.gate);
}

Nearly Solver::operate_nearly(const std::vector<char>& conducting, const std::vector<double>& start, const Enough& enough) const {
  thread_local std::vector<const Curve*> curves;   // its memory serves again
  curves.clear();
  for (size_t s = 0; s < slots_.size(); ++s) curves.push_back(conducts(slots_[s], conducting[s]) ? &slots_[s].curve : nullptr);
  for (size_t b = slots_.size(); b < all_.branches.size(); ++b) curves.push_back(&all_.branches[b].curve);
  return reduction().find_start(curves, start, enough);
}

std::vector<double> Solver::by_point(const std::vector<double>& volts) const {
  std::vector<double> out;
  out.reserve(node_.size());
  for (const int n : node_) out.push_back(n < 0 ? 0.0 : rounded(volts[static_cast<size_t>(n)]));
  return out;
}

std::vector<double> Solver::by_node(const std::vector<double>& volts) const {
  std::vector<double> out(static_cast<size_t>(nodes_), 0);
  for (size_t p = 0; p < node_.size(); ++p)
    if (node_[p] >= 0) out[static_cast<size_t>(node_[p])] = volts[p];
  return out;
}

Phase Solver::solve_phase(const std::vector<char>& conducting, const std::vector<Attached>& attached, const Phase* near) const {
  Network net = network(conducting);
  const auto at = [&](TerminalRef t) { return t.part ? node(t) : -1; };
  for (const Attached& load : attached) net.branches.push_back({at(load.from), at(load.to), curve_of(load)});
  std::vector<double> start;
  if (near != nullptr) {
    start.assign(static_cast<size_t>(nodes_), 0);   // points that it does not know start at 0 V
    for (size_t p = 0; p < node_.size() && p < near->volts.size(); ++p)
      if (node_[p] >= 0) start[static_cast<size_t>(node_[p])] = near->volts[p];
  }
  const Operating found = operate(std::move(net), start);
  Phase out;
  out.iterations = found.iterations;
  out.converged = found.converged;
  out.volts = by_point(found.volts);
  out.element_a.resize(circuit_.parts.size());
  for (size_t s = 0; s < slots_.size(); ++s)
    out.element_a[static_cast<size_t>(slots_[s].part)].push_back(conducting[s] != 0 ? rounded(found.amps[s]) : 0.0);
  for (size_t w = 0; w < circuit_.wires.size(); ++w) out.wire_a.push_back(rounded(found.amps[slots_.size() + w]));
  return out;
}

}  // namespace towloom
