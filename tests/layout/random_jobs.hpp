// Job texts of many kinds, by fixed seeds: what a survey may hold, read by the real reader and built by the
// real builder. No expected value is made here.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace towloom::fixture {

// A fixed sequence of numbers (Numerical Recipes' 32-bit congruential step).
struct Numbers {
  std::uint32_t state;
  int below(int n) {
    state = state * 1664525u + 1013904223u;
    return static_cast<int>((state >> 8) % static_cast<std::uint32_t>(n));
  }
  bool chance(int percent) { return below(100) < percent; }
};

inline std::string lamp(const std::string& name, const std::string& in, const std::string& function, const std::string& amps,
                        const std::string& node, const std::string& colour, const std::string& more) {
  return "    " + name + ": {" + (in.empty() ? "" : "in: " + in + ", ") + function + ": " + amps + ", feed: " + colour + " 0.75 mm2, node: " + node + more + "}\n";
}

inline std::string random_job(int seed) {
  Numbers n{static_cast<std::uint32_t>(seed) * 7919u + 17u};
  const bool blade = n.chance(60), combined = n.chance(50);
  const std::vector<std::string> methods = {"two-way-diodes", "two-way-diodes", "relay-change-over", "powered-module", "field-effect", "single-diode"};
  const std::string method = methods[static_cast<std::size_t>(n.below(static_cast<int>(methods.size())))];
  std::string out = "job: {title: \"Made by number " + std::to_string(seed) + "\", number: R" + std::to_string(seed) + ", date: 2026-11-25, by: test}\n";
  out += std::string("coach:\n  outlet: ") + (blade ? "blade-7" : "flat-4") + "\n  signals: combined\n";
  out += "cord: {length: 2.4 m, wire: 14 AWG}\n";
  out += std::string("car:\n  inlet: ") + (blade ? "blade-7" : "flat-4") + "\n  battery: engine bay left\n  drive: left-hand\n  towing: {ignition: accessory, stop lamps: live}\n";
  out += std::string("  monitoring: none\n  stop switch: {kind: switch, feeds: ") + (combined ? "[turn switch, STOP_SW]" : "[STOP]") + "}\n  lamps:\n";
  for (const std::string side : {"left", "right"}) {
    const std::string end = side == "left" ? "L" : "R", unit = side + " rear";
    const std::string stud = ", return: BK/WH 0.75 mm2 to G-R" + end;
    if (combined) out += lamp(unit, "", "stop-turn", "1.9 A", "ST_" + end, "GY/VT", stud);
    else out += lamp(unit, "", "stop", "1.86 A", "STOP", "OG/GY", stud);
    out += lamp(side + " tail", unit, "tail", "0.44 A", n.chance(50) ? "TAIL" : "TAIL_" + end, "PK/BK", "");
    if (!combined) out += lamp(side + " turn", n.chance(50) ? unit : "", "turn", "1.75 A", "TURN_" + end, "WH/TQ", ", in tow: dark");
  }
  if (n.chance(70)) out += lamp("plate", "", "plate", "0.4 A", "PLATE", "VT/GN", ", in tow: dark");
  if (n.chance(70)) out += lamp("high stop", "", "chmsl", "0.25 A", combined ? "STOP_SW" : "STOP", "WH/VT", "");
  if (n.chance(60)) out += lamp("reverse", n.chance(50) ? "right rear" : "", "reverse", "1.75 A", "REV", "TQ/BK", ", in tow: dark");
  if (n.chance(30)) out += lamp("left fog", n.chance(50) ? "left rear" : "", "fog", "1.75 A", "FOG", "GN/BN", ", in tow: dark");
  out += "isolation: {method: " + method + (method == "relay-change-over" && !blade ? ", tow-mode: tail" : "") + "}\n";
  if (blade && n.chance(60)) {
    out += "extras:\n  charge line: {fuse: 15 A, limiter: " + std::vector<std::string>{"diode", "charger", "sensing-relay", "none"}[static_cast<std::size_t>(n.below(4))] + "}\n";
    if (n.chance(50)) out += "  stop-lamp cut-off: {rests: closed, coil: charge, fuse: 2 A}\n";
    if (n.chance(50)) out += "  brake signal: {from: brake}\n";
  }
  out += "runs:\n  front: {from: inlet, to: left grommet, length: 1.4 m}\n  sill: {from: left grommet, to: left rear, length: 4.1 m}\n"
         "  cross: {from: left rear, to: right rear, length: 1.5 m}\n  charge: {from: inlet, to: battery, length: 1.1 m}\n"
         "  pedal: {from: left grommet, to: stop switch, length: 0.7 m}\n";
  out += "grounds:\n  G-F: {at: front rail stud, takes: coach white}\n  G-RL: factory stud left pocket\n  G-RR: factory stud right pocket\n";
  out += "wire: {standard: AWG, lamps: auto ribbon of 4}\nlimits: {drop: 0.7 V}\n";
  return out;
}

}  // namespace towloom::fixture
