// Factory wires that a fragment parts: a lamp's leg, a node's trunk, the battery's negative cable.
#include "circuit/builder.hpp"

namespace towloom {
namespace {

void part_leg(Builder& b, const Site& site, const Parted& ends) {
  const Leg& leg = b.legs[static_cast<std::size_t>(site.leg)];
  const Origin origin{leg.job, site.fragment.place};
  CutPoint cut;
  cut.label = leg.feed.colour.value;
  cut.origin = origin;
  if (ends.car.part) cut.car_side = b.factory_wire(b.leg_from(leg), ends.car, leg.feed, b.leg_length(leg), origin);
  if (ends.lamp.part) cut.lamp_side = b.factory_wire(ends.lamp, leg.to, leg.feed, b.rule("lamp_loop_m"), origin);
  cut.plug = site.fragment.cut == "plug";
  if ((site.fragment.cut == "leg" || cut.plug) && cut.car_side) b.circuit.cuts.push_back(cut);
  if (site.fragment.cut == "none")   // tapped: whatever hangs on the factory wire is within the coach's reach
    b.circuit.probes.push_back({b.leg_from(leg), "the factory wire " + cut.label, BackfeedProbe::Towards::car});
}

void part_trunk(Builder& b, const Site& site, const Parted& ends) {
  Trunk& trunk = b.trunks[static_cast<std::size_t>(site.trunk)];
  const Origin origin{site.recipe.place, site.fragment.place};
  if (trunk.cut) {
    b.diagnostics.error("cut-twice", site.recipe.place, "the trunk of node '" + trunk.node + "' would be cut twice");
    return;
  }
  trunk.cut = true;
  CutPoint cut;
  cut.label = trunk.colour.colour.value;
  cut.origin = origin;
  cut.car_side = b.factory_wire(trunk.driver, ends.car, trunk.colour, b.rule("factory_front_m"), origin);
  if (trunk.joint == trunk.driver)
    trunk.joint = ends.lamp;
  else
    cut.lamp_side = b.factory_wire(ends.lamp, trunk.joint, trunk.colour, b.rule("factory_front_m"), origin);
  b.circuit.cuts.push_back(cut);
}

// The battery's negative cable: the wire between its post and the body.
void part_negative(Builder& b, const Parted& ends) {
  const TerminalRef post = b.circuit.terminal("BAT.-");
  for (Wire& w : b.circuit.wires) {
    if (w.from != post) continue;
    Wire second = w;
    w.to = ends.car;
    second.from = ends.lamp;
    second.id.clear();
    b.add_wire(std::move(second));
    return;
  }
}

}  // namespace

void part_factory_wires(Builder& b, const Site& site, const Parted& ends) {
  if (site.leg >= 0 && (ends.car.part || ends.lamp.part))
    part_leg(b, site, ends);
  else if (site.leg >= 0)   // this method leaves the lamp's feed alone
    b.factory_wire(b.leg_from(b.legs[static_cast<std::size_t>(site.leg)]), b.legs[static_cast<std::size_t>(site.leg)].to,
                   b.legs[static_cast<std::size_t>(site.leg)].feed, b.leg_length(b.legs[static_cast<std::size_t>(site.leg)]),
                   {b.legs[static_cast<std::size_t>(site.leg)].job, {}});
  if (site.trunk >= 0) part_trunk(b, site, ends);
  if (site.fragment.cut == "negative") part_negative(b, ends);
}

}  // namespace towloom
