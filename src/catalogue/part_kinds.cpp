#include "catalogue/part_kinds.hpp"

namespace towloom {

// Relay terminals by DIN 72552: 86 and 85 coil, 30 common, 87a rest contact, 87 working contact.
const std::vector<PartKind>& part_kinds() {
  static const std::vector<PartKind> kinds = {
      {"diode-pair", "D", {"A1", "A2", "K"}, "diodes", {}},
      {"diode", "D", {"A", "K"}, "diodes", {}},
      {"ideal-pair", "D", {"A1", "A2", "K", "G"}, "parts",
       {{"on", Unit::ohm}, {"works from", Unit::volt}, {"leak", Unit::ampere}, {"draw", Unit::ampere}}},
      {"ideal-diode", "D", {"A", "K", "G"}, "parts",
       {{"on", Unit::ohm}, {"works from", Unit::volt}, {"leak", Unit::ampere}, {"draw", Unit::ampere}}},
      {"switch", "S", {"1", "2"}, "", {}},
      {"turn-switch", "S", {"supply", "stop", "left", "right"}, "", {}},
      {"turn-lever", "S", {"supply", "left", "right"}, "", {}},
      {"controller-output", "A", {"supply", "out"}, "parts", {{"on", Unit::ohm}, {"check", Unit::ohm}, {"limit", Unit::ampere}}},
      {"pulsed-output", "A", {"supply", "out"}, "parts", {{"on", Unit::ohm}, {"check", Unit::ohm}, {"limit", Unit::ampere}, {"duty", Unit::percent}}},
      {"relay", "K", {"86", "85", "30", "87a", "87"}, "parts",
       {{"coil", Unit::ohm}, {"pull in", Unit::volt}, {"drop out", Unit::volt}, {"contact", Unit::ohm}}},
      {"sensing-relay", "K", {"in", "out", "ground"}, "parts",
       {{"draw", Unit::ohm}, {"pull in", Unit::volt}, {"drop out", Unit::volt}, {"contact", Unit::ohm}}},
      {"charger", "U", {"in", "out", "ground"}, "parts",
       {{"works from", Unit::volt}, {"stops at", Unit::volt}, {"volts", Unit::volt}, {"limit", Unit::ampere}, {"draw", Unit::ampere}}},
      {"fuse", "FU", {"1", "2"}, "", {}},
      {"breaker", "FU", {"1", "2"}, "parts", {{"rating", Unit::ampere}, {"on", Unit::ohm}}},
      {"resistor", "R", {"1", "2"}, "", {}},
      {"load", "B", {"supply", "ground"}, "parts", {{"draw", Unit::ampere}}},
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
