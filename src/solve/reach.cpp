#include "solve/reach.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solve/laws.hpp"

namespace towloom {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double rounding = 1e-6;   // of the volts and amps of a Phase

// One change after the other: where the changes before reach, volts and amps are known less well.
struct OneChange {
  const Circuit& c;
  const Points& points;
  const Phase& phase;
  const Reach before;          // with the rounding

  double between(TerminalRef a, TerminalRef b) const {
    return phase.volts[static_cast<std::size_t>(points.at(a))] - phase.volts[static_cast<std::size_t>(points.at(b))];
  }
  const Element& element(PartId part, int e) const { return c.part(part).elements[static_cast<std::size_t>(e)]; }
  double volts(PartId part, int e) const { return between({part, element(part, e).a}, {part, element(part, e).b}); }
  double amps(PartId part, int e) const { return phase.element_a[static_cast<std::size_t>(part.v)][static_cast<std::size_t>(e)]; }
  // Amps that the wires bring to a terminal.
  double brought(TerminalRef t) const {
    double sum = 0;
    for (std::size_t w = 0; w < c.wires.size(); ++w) {
      if (c.wires[w].to == t) sum += phase.wire_a[w];
      if (c.wires[w].from == t) sum -= phase.wire_a[w];
    }
    return sum;
  }
  Reach in_series(double a, double ohm) const {
    const double most = std::fabs(a) + before.amps;
    return {most * ohm, most};
  }
  Reach operator()(const WireInSeries& x) const { return in_series(phase.wire_a[static_cast<std::size_t>(x.wire.v)], x.ohm); }
  Reach operator()(const ElementInSeries& x) const { return in_series(amps(x.part, x.element), x.ohm); }
  Reach operator()(const ElementBecomes& x) const {
    const double v = volts(x.part, x.element), a = amps(x.part, x.element);
    return {std::fabs(v - a * x.ohm) + before.volts + before.amps * x.ohm, std::fabs(a - v / x.ohm) + before.amps + before.volts / x.ohm};
  }
  Reach operator()(const ElementReversed& x) const {
    const Response other = respond(make_curve(element(x.part, x.element)), -volts(x.part, x.element) + before.volts);
    const Response least = respond(make_curve(element(x.part, x.element)), -volts(x.part, x.element) - before.volts);
    const double a = amps(x.part, x.element);
    return {endless, std::max(std::fabs(other.amps + a), std::fabs(least.amps + a)) + before.amps};
  }
  // Two branches at once: only where neither volts nor amps stand in the way.
  Reach operator()(const LeadsExchanged& x) const {
    const Reach r{std::fabs(between(x.a, x.b)) + before.volts, std::fabs(brought(x.a) - brought(x.b)) + before.amps};
    return r.volts <= quiet_v && r.amps <= quiet_a ? r : Reach{endless, endless};
  }
  Reach operator()(const Bridge& x) const {
    const double v = std::fabs(between(x.a, x.b)) + before.volts;
    return {v, v / x.ohm};
  }
  Reach operator()(const ModeForced& x) const {
    const bool in = phase.pulled[static_cast<std::size_t>(x.part.v)][static_cast<std::size_t>(x.device)] != 0;
    return in == x.in ? Reach{} : Reach{endless, endless};
  }
};

// Up to both limits from where an element stands.
Slack slack_between(const Curve& curve, double low, double at, double high) {
  Slack out{std::min(high - at, at - low), endless};
  const double now = respond(curve, at).amps;
  if (high < endless) out.amps = respond(curve, high).amps - now;
  if (low > -endless) out.amps = std::min(out.amps, now - respond(curve, low).amps);
  return out;
}

// The amps that flow when the watched volts stand so: through what lies beside the device.
double amps_beside(const Part& part, int plus, int minus, double volts) {
  for (const Element& e : part.elements)
    if (e.a == plus && e.b == minus && e.gate == Gate::always) return std::fabs(respond(make_curve(e), volts).amps);
  return 0;
}

}  // namespace

Slack endless_slack() { return {endless, endless}; }

void Slack::narrow(const Slack& other) {
  volts = std::min(volts, other.volts);
  amps = std::min(amps, other.amps);
}

Reach reach_of(const Circuit& sound, const Points& points, const Fault& fault, const Phase& phase) {
  Reach out;
  for (const Change& change : fault.changes) {
    const Reach more = std::visit(OneChange{sound, points, phase, {out.volts + rounding, out.amps + rounding}}, change);
    out.volts += more.volts;
    out.amps += more.amps;
  }
  return out;
}

Slack slack_of_devices(const Circuit& circuit, const Points& points, const Phase& phase) {
  Slack out = endless_slack();
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const Part& part = circuit.parts[p];
    const auto volts = [&](int point) { return phase.volts[static_cast<std::size_t>(points.first[p] + point)]; };
    const auto watch = [&](int plus, int minus, double at, double limit) {
      out.narrow({std::fabs(at - limit), std::fabs(amps_beside(part, plus, minus, at) - amps_beside(part, plus, minus, limit))});
    };
    for (std::size_t d = 0; d < part.devices.size(); ++d) {
      const Device& device = part.devices[d];
      if (device.output >= 0) continue;
      const double v = volts(device.plus) - volts(device.minus);
      watch(device.plus, device.minus, device.polarised ? v : std::fabs(v), phase.pulled[p][d] != 0 ? device.drop_out_v : device.pull_in_v);
    }
    if (!part.logic) continue;
    for (std::size_t i = 0; i < part.logic->inputs.size(); ++i) {
      const int in = static_cast<int>(2 + i);   // terminals: supply, ground, inputs, outputs
      watch(in, 1, volts(in) - volts(1), part.logic->high_v);
      watch(in, 1, volts(in) - volts(1), part.logic->low_v);
    }
  }
  return out;
}

double slack_of_protectors(const std::vector<Protector>& protectors, const Phase& phase) {
  double out = endless;
  for (const Protector& p : protectors)
    out = std::min(out, p.opens_a - std::fabs(phase.element_a[static_cast<std::size_t>(p.part.v)][static_cast<std::size_t>(p.element)]));
  return out;
}

Slack slack_of_lamp(const Element& lamp, const LampLook& look, double light, const LightRules& rules) {
  const Curve curve = make_curve(lamp);
  const double low = look.light - light, high = look.light + light;
  if (lamp.law == Law::filament) {   // alike both ways
    const auto volts_of = [&](double of) { return lamp.volts * std::pow(of, 1 / rules.flux_exponent); };
    return slack_between(curve, low > 0 ? volts_of(low) : -endless, std::fabs(look.volts), volts_of(high));
  }
  if (lamp.law != Law::led) return {};
  const auto volts_of = [&](double of) { return curve.volts + of * lamp.amps / curve.siemens; };
  return slack_between(curve, low > 0 ? volts_of(low) : -endless, look.volts, volts_of(high));
}

double slack_of_light(const Element& lamp, double light, const LampState& sound, double dimmer_share, const LightRules& rules) {
  const double dark = lamp.law == Law::filament ? rules.dark : rules.led_leak_a / lamp.amps;
  double out = endless;
  for (const double limit : {rules.lit, dark, dimmer_share * sound.light, sound.light / dimmer_share})
    if (limit != 0) out = std::min(out, std::fabs(light - limit));
  return out;
}

}  // namespace towloom
