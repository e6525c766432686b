// A fault as a change of the circuit.
#include "solve/change.hpp"
#include "solve/network.hpp"

namespace towloom {
namespace {

constexpr double never_v = 1e9;

struct Apply {
  Circuit& c;
  const Catalogue& catalogue;
  void operator()(const WireInSeries& x) const {
    Wire& wire = c.wires[static_cast<std::size_t>(x.wire.v)];
    wire.fixed_ohm = ohm_of(wire, c, catalogue) + x.ohm;
  }
  template <OfElement What>
  void operator()(const What& x) const {
    Element& e = c.parts[static_cast<std::size_t>(x.part.v)].elements[static_cast<std::size_t>(x.element)];
    e = after(x, e);
  }
  void operator()(const LeadsExchanged& x) const {
    for (Wire& w : c.wires)
      for (TerminalRef* end : {&w.from, &w.to}) *end = after(x, *end);
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

}  // namespace

Circuit with_fault(Circuit circuit, const Fault& fault, const Catalogue& catalogue) {
  for (const Change& change : fault.changes) std::visit(Apply{circuit, catalogue}, change);
  return circuit;
}

}  // namespace towloom
