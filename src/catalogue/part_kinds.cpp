#include "catalogue/part_kinds.hpp"

namespace towloom {

// Relay terminals by DIN 72552: 86 and 85 coil, 30 common, 87a rest contact, 87 working contact.
const std::vector<PartKind>& part_kinds() {
  static const std::vector<PartKind> kinds = {
      {"diode-pair", "D", {"A1", "A2", "K"}, "diodes", {}},
      {"diode", "D", {"A", "K"}, "diodes", {}},
      {"ideal-pair", "D", {"A1", "A2", "K", "G"}, "parts",
       {{"on", Unit::ohm, -1}, {"works from", Unit::volt, -1}, {"leak", Unit::ampere, 0}, {"draw", Unit::ampere, -1}}},
      {"ideal-diode", "D", {"A", "K", "G"}, "parts",
       {{"on", Unit::ohm, -1}, {"works from", Unit::volt, -1}, {"leak", Unit::ampere, 0}, {"draw", Unit::ampere, -1}}},
      {"switch", "S", {"1", "2"}, "", {}},
      {"turn-switch", "S", {"supply", "stop", "left", "right"}, "", {}},
      {"turn-lever", "S", {"supply", "left", "right"}, "", {}},
      {"controller-output", "A", {"supply", "out"}, "parts", {{"on", Unit::ohm, -1}}},
      {"pulsed-output", "A", {"supply", "out"}, "parts", {{"on", Unit::ohm, -1}, {"duty", Unit::plain, -1}}},
      {"relay", "K", {"86", "85", "30", "87a", "87"}, "parts",
       {{"coil", Unit::ohm, -1}, {"pull in", Unit::volt, -1}, {"drop out", Unit::volt, -1}, {"contact", Unit::ohm, -1}}},
      {"sensing-relay", "K", {"in", "out", "ground"}, "parts",
       {{"draw", Unit::ohm, -1}, {"pull in", Unit::volt, -1}, {"drop out", Unit::volt, -1}, {"contact", Unit::ohm, -1}}},
      {"charger", "U", {"in", "out", "ground"}, "parts",
       {{"works from", Unit::volt, -1}, {"stops at", Unit::volt, -1}, {"volts", Unit::volt, -1}, {"limit", Unit::ampere, -1}, {"draw", Unit::ampere, -1}}},
      {"fuse", "FU", {"1", "2"}, "", {}},
      {"resistor", "R", {"1", "2"}, "", {}},
      {"load", "B", {"supply", "ground"}, "parts", {{"draw", Unit::ampere, -1}}},
      {"module", "U", {}, "modules", {}},
  };
  return kinds;
}

const PartKind* find_kind(const std::string& kind) {
  for (const PartKind& k : part_kinds())
    if (k.kind == kind) return &k;
  return nullptr;
}

}  // namespace towloom
