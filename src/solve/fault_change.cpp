// A fault as a change of the circuit, and when it cannot change a solution.
#include <algorithm>
#include <cmath>

#include "solve/faults.hpp"
#include "solve/network.hpp"

namespace towloom {
namespace {

constexpr double quiet_v = 2e-6, quiet_a = 2e-6;   // above the rounding of printed figures
constexpr double never_v = 1e9;

Element& element_of(Circuit& c, PartId part, int element) {
  return c.parts[static_cast<std::size_t>(part.v)].elements[static_cast<std::size_t>(element)];
}

struct Apply {
  Circuit& c;
  const Catalogue& catalogue;
  void operator()(const WireInSeries& x) const {
    Wire& wire = c.wires[static_cast<std::size_t>(x.wire.v)];
    wire.fixed_ohm = ohm_of(wire, c, catalogue) + x.ohm;
  }
  void operator()(const ElementInSeries& x) const { element_of(c, x.part, x.element).ohm += x.ohm; }
  void operator()(const ElementBecomes& x) const {
    Element& e = element_of(c, x.part, x.element);
    const int a = e.a, b = e.b;
    e = Element{};
    e.a = a;
    e.b = b;
    e.ohm = x.ohm;
  }
  void operator()(const ElementReversed& x) const {
    Element& e = element_of(c, x.part, x.element);
    std::swap(e.a, e.b);
  }
  void operator()(const LeadsExchanged& x) const {
    for (Wire& w : c.wires)
      for (TerminalRef* end : {&w.from, &w.to}) {
        if (*end == x.a) *end = x.b;
        else if (*end == x.b) *end = x.a;
      }
  }
  void operator()(const Bridge& x) const {
    Wire bridge;
    bridge.id = "bridge";
    bridge.from = x.a;
    bridge.to = x.b;
    bridge.fixed_ohm = x.ohm;
    c.wires.push_back(std::move(bridge));
  }
  void operator()(const ModeForced& x) const {
    Device& d = c.parts[static_cast<std::size_t>(x.part.v)].devices[static_cast<std::size_t>(x.device)];
    d.pull_in_v = d.drop_out_v = x.in ? -never_v : never_v;
  }
};

struct LeavesAlone {
  const Circuit& c;
  const Points& points;
  const Phase& phase;
  double volts(TerminalRef t) const { return phase.volts[static_cast<std::size_t>(points.at(t))]; }
  double amps(PartId part, int element) const { return phase.element_a[static_cast<std::size_t>(part.v)][static_cast<std::size_t>(element)]; }
  bool no_volts(PartId part, int element) const {
    const Element& e = c.part(part).elements[static_cast<std::size_t>(element)];
    return std::fabs(volts({part, e.a}) - volts({part, e.b})) <= quiet_v;
  }
  // Amps that the wires bring to a terminal.
  double brought(TerminalRef t) const {
    double sum = 0;
    for (std::size_t w = 0; w < c.wires.size(); ++w) {
      if (c.wires[w].to == t) sum += phase.wire_a[w];
      if (c.wires[w].from == t) sum -= phase.wire_a[w];
    }
    return sum;
  }
  bool operator()(const WireInSeries& x) const { return std::fabs(phase.wire_a[static_cast<std::size_t>(x.wire.v)]) <= quiet_a; }
  bool operator()(const ElementInSeries& x) const { return std::fabs(amps(x.part, x.element)) <= quiet_a; }
  bool operator()(const ElementBecomes& x) const {
    return std::fabs(amps(x.part, x.element)) <= quiet_a && (x.ohm >= open_ohm || no_volts(x.part, x.element));
  }
  bool operator()(const ElementReversed& x) const { return no_volts(x.part, x.element); }
  bool operator()(const LeadsExchanged& x) const {
    return std::fabs(volts(x.a) - volts(x.b)) <= quiet_v && std::fabs(brought(x.a) - brought(x.b)) <= quiet_a;
  }
  bool operator()(const Bridge& x) const { return std::fabs(volts(x.a) - volts(x.b)) <= quiet_v; }
  bool operator()(const ModeForced& x) const {
    return (phase.pulled[static_cast<std::size_t>(x.part.v)][static_cast<std::size_t>(x.device)] != 0) == x.in;
  }
};

bool any_pulled(const Phase& phase) {
  return std::any_of(phase.pulled.begin(), phase.pulled.end(),
                     [](const auto& devices) { return std::any_of(devices.begin(), devices.end(), [](char in) { return in != 0; }); });
}

}  // namespace

Circuit with_fault(Circuit circuit, const Fault& fault, const Catalogue& catalogue) {
  for (const Change& change : fault.changes) std::visit(Apply{circuit, catalogue}, change);
  return circuit;
}

bool leaves_alone(const Circuit& sound, const Points& points, const Fault& fault, const Phase& phase) {
  if (any_pulled(phase)) return false;
  const LeavesAlone alone{sound, points, phase};
  return std::all_of(fault.changes.begin(), fault.changes.end(), [&](const Change& c) { return std::visit(alone, c); });
}

}  // namespace towloom
