#include "solve/watch.hpp"

#include <algorithm>
#include <cmath>

namespace towloom {
namespace {

constexpr double rounding = 2e-6;   // of the volts and amps that are compared

void settle(std::vector<double>& limits) {
  std::sort(limits.begin(), limits.end());
  limits.erase(std::unique(limits.begin(), limits.end()), limits.end());
}

// The amps at which a lamp gives so much light.
double amps_of(const Element& lamp, double light, const LightRules& rules) {
  if (lamp.law == Law::filament) return respond(make_curve(lamp), lamp.volts * std::pow(light, 1 / rules.flux_exponent)).amps;
  return light * lamp.amps;
}

AmpsWatch watch_lamp(const Solver& solver, const WatchedLamp& lamp, const std::vector<double>& lights, const LightRules& rules, double dimmer_share) {
  AmpsWatch out;
  out.branch = solver.branch(lamp.part, lamp.element);
  const Element& element = solver.element(out.branch);
  out.limits.both_ways = true;
  std::vector<double>& at = out.limits.at;
  at.push_back(amps_of(element, rules.lit, rules));
  at.push_back(element.law == Law::filament ? amps_of(element, rules.dark, rules) : rules.led_leak_a);
  for (const double light : lights)
    for (const double seen : {dimmer_share * light, light / dimmer_share}) at.push_back(amps_of(element, seen, rules));
  settle(at);
  return out;
}

// The resistor that lies between two terminals whatever happens; -1: none does.
int resistor_between(const Solver& solver, PartId id, int plus, int minus) {
  const Part& part = solver.circuit().part(id);
  for (std::size_t e = 0; e < part.elements.size(); ++e) {
    const Element& x = part.elements[e];
    if (x.law == Law::resistor && x.gate == Gate::always && x.a == plus && x.b == minus) return solver.branch(id, static_cast<int>(e));
  }
  return -1;
}

void add_device(const Solver& solver, PartId id, int device, int plus, int minus, bool both_ways, double first, double second, Watches& out) {
  std::vector<double> volts = {first, second};
  settle(volts);
  const int beside = resistor_between(solver, id, plus, minus);
  if (beside < 0) {
    out.supplies.push_back({solver.node({id, plus}), solver.node({id, minus}), {both_ways, volts}, id.v, device});
    return;
  }
  for (double& v : volts) v /= solver.element(beside).ohm;
  out.devices.push_back({beside, {both_ways, volts}, id.v, device});
}

void add_devices(const Solver& solver, Watches& out) {
  const Circuit& c = solver.circuit();
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    const Part& part = c.parts[p];
    const PartId id{static_cast<int>(p)};
    for (std::size_t d = 0; d < part.devices.size(); ++d)
      if (const Device& x = part.devices[d]; x.output < 0)
        add_device(solver, id, static_cast<int>(d), x.plus, x.minus, !x.polarised, x.drop_out_v, x.pull_in_v, out);
    if (!part.logic) continue;
    for (std::size_t i = 0; i < part.logic->inputs.size(); ++i)   // terminals: supply, ground, inputs, outputs
      add_device(solver, id, -1, static_cast<int>(2 + i), 1, false, part.logic->low_v, part.logic->high_v, out);
  }
}

}  // namespace

int Thresholds::position(double value, double known_within) const {
  const double v = both_ways ? std::fabs(value) : value, within = known_within + rounding;
  const auto next = std::lower_bound(at.begin(), at.end(), v - within);
  if (next != at.end() && *next <= v + within) return -1;
  return static_cast<int>(next - at.begin());
}

Watches make_watches(const Solver& solver, const std::vector<WatchedLamp>& lamps, const std::vector<std::vector<double>>& lights,
                     const std::vector<Protector>& protectors, const LightRules& rules, double dimmer_share) {
  Watches out;
  for (std::size_t l = 0; l < lamps.size(); ++l) out.lamps.push_back(watch_lamp(solver, lamps[l], lights[l], rules, dimmer_share));
  add_devices(solver, out);
  for (const Protector& p : protectors) out.protectors.push_back({solver.branch(p.part, p.element), {true, {p.opens_a}}});
  for (const auto* of : {&out.lamps, &out.devices, &out.protectors})
    for (const AmpsWatch& w : *of) out.branches.push_back(w.branch);
  std::sort(out.branches.begin(), out.branches.end());
  out.branches.erase(std::unique(out.branches.begin(), out.branches.end()), out.branches.end());
  return out;
}

}  // namespace towloom
