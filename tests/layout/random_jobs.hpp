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

struct Outlet {
  std::string form;
  bool separate;
  std::string found, carries;    // carries: what can be asked of it beyond the lamps of every car
};
inline const std::vector<Outlet>& outlets() {
  static const std::vector<Outlet> all = {
      {"flat-4", false, "{\"2\": {does: tail}, \"3\": {does: left}, \"4\": {does: right}}", ""},
      {"blade-7", false, "{TAIL: {does: tail}, LT: {does: left}, RT: {does: right}, BAT: {does: charge}, EBR: {does: brake}}", "charge brake"},
      {"round-4", false, "{\"2\": {does: tail}, \"3\": {does: left}, \"4\": {does: right}}", ""},
      {"round-6", false, "{TM: {does: tail}, LT: {does: left}, RT: {does: right}, A: {does: charge}, S: {does: brake}}", "charge brake"},
      {"j560", true, "{\"1\": {does: ground}, \"3\": {does: left}, \"4\": {does: stop}, \"5\": {does: right}, \"6\": {does: tail}}", ""},
      {"iso-12n", true, "{\"1\": {does: left}, \"2\": {does: fog}, \"3\": {does: ground}, \"4\": {does: right}, \"5\": {does: right-tail}, \"6\": {does: stop}, \"7\": {does: left-tail}}", "fog"},
      {"iso-13", true, "{\"1\": {does: left}, \"2\": {does: fog}, \"3\": {does: ground}, \"4\": {does: right}, \"5\": {does: right-tail}, \"6\": {does: stop}, \"7\": {does: left-tail}, \"8\": {does: reverse}, \"9\": {does: charge}, \"13\": {does: charge-return}}", "charge fog reverse"},
      {"au-flat-7", true, "{\"1\": {does: left}, \"2\": {does: reverse}, \"3\": {does: ground}, \"4\": {does: right}, \"5\": {does: brake}, \"6\": {does: stop}, \"7\": {does: tail}}", "brake reverse"},
  };
  return all;
}

// Every family of connectors, method and extra; filaments and LED; combined and separate signals on either vehicle;
// from two lamps to some twenty.
class VariedJob {
 public:
  explicit VariedJob(int seed) : n_{static_cast<std::uint32_t>(seed) * 7919u + 17u}, seed_(seed), outlet_(outlets()[pick(outlets().size())]) {}
  std::string text();

 private:
  std::size_t pick(std::size_t count) { return static_cast<std::size_t>(n_.below(static_cast<int>(count))); }
  bool has(const char* signal) const { return outlet_.carries.find(signal) != std::string::npos; }
  bool metric() const { return outlet_.form.rfind("iso", 0) == 0 || outlet_.form.rfind("au", 0) == 0; }
  std::string node(const std::string& by_switch, const std::string& by_controller) const {
    return one_ ? "BUS" : controller_ ? "BCM_" + by_controller : by_switch;
  }
  std::string row(const std::string& name, const std::string& in, const std::string& function, const std::string& source, const std::string& node_name,
                  const std::string& colour, const std::string& more) {
    if (in.empty() && name != "left rear" && name != "right rear") housings_.push_back(name);
    return lamp(name, in, function, source, node_name, colour, drive_ + more);
  }
  std::string lamps();
  std::string isolation();
  std::string extras();

  Numbers n_;
  int seed_;
  const Outlet& outlet_;
  bool added_ = false, combined_ = false, small_ = false, controller_ = false, one_ = false;
  std::string drive_, bright_, dim_;
  std::vector<std::string> housings_;   // beside the two rear ones: each needs a run
};

inline std::string VariedJob::lamps() {
  std::string out;
  const int more = small_ || n_.chance(70) ? 0 : n_.below(8);
  const bool studs = n_.chance(60), shared = seed_ % 2 != 0;
  for (const std::string side : {"left", "right"}) {
    const std::string e = side == "left" ? "L" : "R", unit = side + " rear", stud = studs ? ", return: BK/WH 0.75 mm2 to G-R" + e : "";
    const std::string tail = node(shared ? "TAIL" : "TAIL_" + e, e + "2");
    if (combined_) out += row(unit, "", "stop-turn", bright_, node("ST_" + e, e + "1"), "GY/VT", stud);
    else out += row(unit, "", "stop", bright_, node("STOP", "S"), "OG/GY", stud);
    if (!small_) out += row(side + " tail", unit, "tail", dim_, tail, "PK/BK", "");
    const std::string dark = outlet_.separate || added_ || n_.chance(50) ? "" : ", in tow: dark";
    if (!combined_ && !small_) out += row(side + " turn", seed_ % 3 != 0 ? unit : "", "turn", bright_, node("TURN_" + e, e + "3"), "WH/TQ", dark);
    for (int k = 0; k < more; ++k) out += row(side + " tail " + std::to_string(k + 2), "", "tail", dim_, tail, "PK/BK", "");
  }
  if (small_) return out;
  const auto unless = [&](bool lit) { return lit ? std::string() : std::string(", in tow: dark"); };
  if (n_.chance(70)) out += row("plate", "", "plate", dim_, node(shared ? "TAIL" : "TAIL_R", "P"), "VT/GN", unless(added_ || one_ || n_.chance(50)));
  if (n_.chance(60)) out += row("high stop", "", "chmsl", "LED 0.25 A", node(combined_ ? "STOP_SW" : "STOP", "C"), "WH/VT", "");
  if (!one_ && n_.chance(50)) out += row("reverse", n_.chance(50) ? "right rear" : "", "reverse", "1.75 A", node("REV", "V"), "TQ/BK", unless(has("reverse") && !added_));
  if (!one_ && n_.chance(30)) out += row("left fog", n_.chance(50) ? "left rear" : "", "fog", "1.75 A", node("FOG", "F"), "GN/BN", unless(has("fog") && !added_));
  return out;
}

inline std::string VariedJob::isolation() {
  std::string out = "isolation:\n";
  if (added_) {
    const char* methods[] = {"added-bulbs", "dedicated-strips", "removable-lamps"};
    out += std::string("  method: ") + methods[n_.below(3)] + "\n  lamps:\n";
    for (const std::string side : {"left", "right"}) {
      const std::string unit = side + " bar", at = "at: " + side + " rear";
      out += "    " + unit + ": {" + at + (outlet_.separate ? ", stop: " : ", stop-turn: ") + bright_ + "}\n";
      if (outlet_.separate) out += "    " + unit + " turn: {in: " + unit + ", " + at + ", turn: " + bright_ + "}\n";
      if (!small_) out += "    " + unit + " tail: {in: " + unit + ", " + at + ", tail: " + dim_ + "}\n";
    }
    if (n_.chance(60) && !small_) out += "    bar plate: {at: left rear, plate: " + dim_ + "}\n";
    return out;
  }
  const std::vector<std::string> methods = {"two-way-diodes", "two-way-diodes", "powered-module", "field-effect", "single-diode", "battery-fed-relays", "no-isolation", "relay-change-over"};
  std::string method = methods[pick(methods.size())];
  if (method == "powered-module" && (outlet_.separate || !combined_)) method = "two-way-diodes";
  out += "  method: " + method + "\n";
  if (method == "relay-change-over" && !has("charge")) out += std::string("  tow-mode: ") + (outlet_.separate ? "stop" : "tail") + "\n";
  if (outlet_.separate && combined_) out += "  converter: converter-separate-to-combined\n";
  if (!outlet_.separate && !combined_ && n_.chance(40)) out += "  converter: converter-combined-to-separate\n";
  if (method == "two-way-diodes" && n_.chance(30) && has("charge")) out += std::string("  by function: {") + (combined_ ? "stop-turn" : "stop") + ": relay-change-over}\n";
  return out;
}

inline std::string VariedJob::extras() {
  std::string out;
  const std::vector<std::string> limiters = {"diode", "breaker", "charger", "sensing-relay", "field-effect", "none"};
  if (has("charge") && n_.chance(60)) out += "  charge line: {fuse: 15 A, limiter: " + limiters[pick(limiters.size())] + "}\n";
  if (has("charge") && n_.chance(30) && !one_)
    out += controller_ ? "  stop-lamp cut-off: {parts: lamp-outputs, at: left rear}\n" : std::string("  stop-lamp cut-off: {rests: ") + (n_.chance(50) ? "closed" : "open") + ", coil: charge}\n";
  if (has("brake") && n_.chance(40)) out += "  brake signal: {from: brake}\n";
  else if (!outlet_.separate && n_.chance(20)) out += "  brake signal from left and right: yes\n";
  if (n_.chance(25)) out += "  pedal brake: {fuse: 15 A}\n";
  if (n_.chance(20)) out += "  break-away switch: yes\n";
  if (n_.chance(15)) out += "  battery disconnect: yes\n";
  if (n_.chance(15) && !added_) out += "  bleed resistors: {bleed: 1 kohm}\n";
  if (n_.chance(10)) out += "  detection load: {load: 60 ohm}\n";
  return out.empty() ? "" : "extras:\n" + out;
}

inline std::string VariedJob::text() {
  added_ = n_.chance(22);
  combined_ = n_.chance(50);
  const bool led = n_.chance(40);
  small_ = added_ && n_.chance(25);
  const std::vector<std::string> drives = {"", ", drive: controller", ", drive: ground-switched", ", drive: data-bus"};
  if (added_) drive_ = drives[pick(drives.size())];
  else if (n_.chance(35)) drive_ = drives[1];
  controller_ = drive_ == drives[1];
  one_ = drive_ == drives[2] || drive_ == drives[3];
  bright_ = led ? "LED 0.5 A" : "1.86 A";
  dim_ = led ? "LED 0.12 A" : "0.44 A";
  std::string out = "job: {title: \"Made by number " + std::to_string(seed_) + "\", number: R" + std::to_string(seed_) + ", date: 2026-11-25, by: test}\n";
  out += "coach:\n  outlet: " + outlet_.form + "\n  signals: " + (outlet_.separate ? "separate" : "combined") + "\n  found: " + outlet_.found + "\n";
  out += std::string("cord: {length: 2.4 m, wire: ") + (metric() ? "2.5 mm2" : outlet_.form == "j560" ? "10 AWG" : "14 AWG") + "}\n";
  out += "car:\n  inlet: " + outlet_.form + "\n  battery: engine bay left\n  drive: left-hand\n  towing: {ignition: accessory, stop lamps: live}\n  monitoring: none\n";
  out += std::string("  stop switch: {kind: ") + (one_ ? "module, feeds: [BUS]" : controller_ ? "module, feeds: [BCM]" : combined_ ? "switch, feeds: [turn switch, STOP_SW]" : "switch, feeds: [STOP]") + "}\n";
  out += "  lamps:\n" + lamps() + isolation() + extras();
  out += "runs:\n  front: {from: inlet, to: left grommet, length: 1.4 m}\n  sill: {from: left grommet, to: left rear, length: 4.1 m}\n"
         "  cross: {from: left rear, to: right rear, length: 1.5 m}\n  charge: {from: inlet, to: battery, length: 1.1 m}\n"
         "  pedal: {from: left grommet, to: stop switch, length: 0.7 m}\n";
  for (std::size_t i = 0; i < housings_.size(); ++i)
    out += "  to " + std::to_string(i + 1) + ": {from: " + (housings_[i].rfind("right", 0) == 0 ? "right" : "left") + " rear, to: " + housings_[i] + ", length: 0.6 m}\n";
  out += "grounds:\n  G-F: {at: front rail stud, takes: coach white}\n  G-RL: factory stud left pocket\n  G-RR: factory stud right pocket\n";
  out += std::string("wire: {standard: ") + (metric() ? "ISO" : "AWG") + ", lamps: auto" + (outlet_.separate ? "" : " ribbon of 4") + "}\nlimits: {drop: 0.9 V}\n";
  return out;
}

}  // namespace towloom::fixture
