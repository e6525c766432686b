// Where back-feed is looked for.
#include "circuit/builder.hpp"

namespace towloom {

// The other vehicle's volts must not arrive at a contact of the inlet, nor behind a cut.
void add_probes(Builder& b) {
  for (const Part& part : b.circuit.parts) {
    if (part.kind != "contact" || part.zone != Zone::inlet) continue;
    const std::string& kind = b.catalogue.tow_signals.at(part.function).kind;
    if (kind == "ground" || kind == "report" || kind == "presence") continue;   // what the car is meant to feed or to join
    b.circuit.probes.push_back({b.circuit.terminal(part.id + ".car"), part.group + " contact " + part.contact, BackfeedProbe::Towards::coach});
  }
  for (const CutPoint& cut : b.circuit.cuts)
    if (cut.lamp_side)
      b.circuit.probes.push_back({b.circuit.wires[static_cast<std::size_t>(cut.car_side.v)].to,
                                  (cut.plug ? "car side of the plug in " : "car side of cut ") + cut.label, BackfeedProbe::Towards::car});
}

}  // namespace towloom
