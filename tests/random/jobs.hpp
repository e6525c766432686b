// Valid jobs made by chance from fixed seeds, as the YAML text that a fitter would type: every method and extra that
// is shipped, both kinds of coach and car, several families of plugs, filaments and LEDs, switches and controllers.
// No expected value is made here.
#pragma once

#include <map>
#include <random>
#include <string>
#include <vector>

#include "base/quantity.hpp"

namespace towloom::by_chance {

using Words = std::vector<std::string>;

struct Dice {
  std::mt19937 random;
  int pick(int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); }
  bool chance(int percent) { return pick(100) < percent; }
  const std::string& of(const Words& words) { return words[static_cast<std::size_t>(pick(static_cast<int>(words.size())))]; }
  std::string between(double low, double high, const char* unit) {   // in steps of a tenth
    return format_plain(low + 0.1 * pick(static_cast<int>((high - low) * 10 + 0.5) + 1)) + " " + unit;
  }
};

// A plug as the trade allots it: signal -> contact.
struct Plug {
  std::string form;
  bool separate;
  std::map<std::string, std::string> contacts;
};

inline const std::vector<Plug>& plugs() {
  using Map = std::map<std::string, std::string>;
  const Map flat = {{"tail", "2"}, {"left", "3"}, {"right", "4"}};
  const Map round = {{"tail", "TM"}, {"left", "LT"}, {"right", "RT"}};
  const Map australian = {{"left", "1"}, {"reverse", "2"}, {"right", "4"}, {"brake", "5"}, {"stop", "6"}, {"tail", "7"}};
  static const std::vector<Plug> all = {
      {"flat-4", false, flat},
      {"flat-5", false, {{"tail", "2"}, {"left", "3"}, {"right", "4"}, {"reverse", "5"}}},
      {"round-4", false, round},
      {"round-4-heavy", false, round},
      {"round-6", false, {{"tail", "TM"}, {"left", "LT"}, {"right", "RT"}, {"brake", "S"}, {"charge", "A"}}},
      {"blade-7", false, {{"tail", "TAIL"}, {"left", "LT"}, {"right", "RT"}, {"brake", "EBR"}, {"charge", "BAT"}, {"reverse", "REV"}}},
      {"iso-12n", true, {{"left", "1"}, {"fog", "2"}, {"right", "4"}, {"right-tail", "5"}, {"stop", "6"}, {"left-tail", "7"}}},
      {"iso-13", true, {{"left", "1"}, {"fog", "2"}, {"right", "4"}, {"right-tail", "5"}, {"stop", "6"}, {"left-tail", "7"}, {"reverse", "8"}, {"charge", "9"}}},
      {"j560", true, {{"left", "3"}, {"stop", "4"}, {"right", "5"}, {"tail", "6"}}},
      {"au-flat-7", true, australian},
      {"au-round-small", true, australian},
      {"au-round-large", true, australian},
      {"au-flat-12", true, {{"left", "1"}, {"reverse", "2"}, {"right", "4"}, {"brake", "5"}, {"stop", "6"}, {"tail", "7"}, {"charge", "8"}, {"fog", "11"}}},
  };
  return all;
}

class Job {
 public:
  explicit Job(unsigned seed, int more) : d_{std::mt19937(seed)}, seed_(seed), more_(more), plug_(plugs()[static_cast<std::size_t>(d_.pick(static_cast<int>(plugs().size())))]) {
    separate_car_ = d_.chance(50);
    const int kind = d_.pick(10);
    added_ = kind == 0 || bare();   // lamps of their own: the car's may be driven in any way
    if (kind == 0) drive_ = d_.of({"switched", "data-bus", "ground-switched"});
    else if (kind < 4) drive_ = "controller";
    if (added_) separate_car_ = plug_.separate;
    converts_ = plug_.separate != separate_car_ && (plug_.separate || d_.chance(60));
  }

  std::string text() {
    std::string out = "job: {title: by chance, number: R" + std::to_string(seed_) + ", date: 2026-01-01, by: test}\n";
    out += coach() + "cord: {length: " + d_.between(1.5, 4, "m") + ", wire: " + d_.of({"16 AWG", "14 AWG", "12 AWG", "2.5 mm2"}) + ", kind: coiled}\n";
    out += car();
    out += isolation();
    if (!bare()) out += extras();
    out += "runs:\n  front: {from: inlet, to: left grommet, length: " + d_.between(0.8, 2, "m") + "}\n  sill: {from: left grommet, to: left rear, length: " +
           d_.between(2.5, 6, "m") + "}\n  cross: {from: left rear, to: right rear, length: " + d_.between(1, 2, "m") + "}\n  battery: {from: left grommet, to: battery, length: " +
           d_.between(0.5, 2, "m") + "}\n  pedal: {from: left grommet, to: stop switch, length: 0.7 m}\n";
    for (const std::string& housing : housings_)   // the rear pockets are reached already
      if (housing != "left rear" && housing != "right rear")
        out += "  to " + housing + ": {from: " + (housing.rfind("right", 0) == 0 ? "right" : "left") + " rear, to: " + housing + ", length: 0.5 m}\n";
    out += "grounds:\n  G-F: {at: front stud, takes: coach white}\n  G-RL: {at: left stud, beside: left rear}\n  G-RR: {at: right stud, beside: right rear}\n";
    return out + "wire: {standard: " + d_.of({"AWG", "SAE", "ISO"}) + "}\n";
  }

 private:
  bool bare() const { return more_ < 0; }
  Words sides() const { return more_ < -1 ? Words{"left"} : Words{"left", "right"}; }
  bool has(const char* signal) const { return plug_.contacts.count(signal) != 0; }
  std::string size() { return d_.of({"0.5 mm2", "0.75 mm2", "1 mm2"}); }

  std::string coach() {
    std::string found;
    for (const auto& [signal, contact] : plug_.contacts) {
      if (d_.chance(20)) continue;   // not tested: figures of the catalogue
      const double open = 12.4 + 0.1 * d_.pick(20), lost = 0.2 + 0.1 * d_.pick(8);
      found += "    \"" + contact + "\": {does: " + signal + ", open: " + format_plain(open) + " V, loaded: " + format_plain(open - lost) + " V, load: 4.2 A";
      if (signal == "charge" && d_.chance(50)) found += std::string(", live: ") + (d_.chance(50) ? "always" : "engine");
      found += "}\n";
    }
    return "coach:\n  outlet: " + plug_.form + "\n  signals: " + (plug_.separate ? "separate" : "combined") + "\n" + pulses() + (found.empty() ? "" : "  found:\n" + found);
  }

  // From the seed, so that the dice of all else fall as they did.
  std::string pulses() const { return seed_ % 9 == 4 ? "  outputs: pulse-modulated\n  duty: " + std::to_string(30 + seed_ % 65) + " %\n" : ""; }

  // One source of light: bulb's filament, measured amps, or LED.
  std::string light(bool bright) {
    switch (d_.pick(3)) {
      case 0: return d_.of({"P21/5W", "1157", "3157", "W21/5W"}) + (bright ? " bright" : " dim");
      case 1: return bright ? d_.between(1.5, 2.2, "A") : d_.of({"0.4 A", "0.59 A"});
      default: return bright ? d_.of({"LED 0.25 A", "LED 0.6 A", "LED 4 W from 9 V"}) : d_.of({"LED 0.05 A", "LED 0.1 A", "LED 1 W from 9 V"});
    }
  }
  std::string lamp(const std::string& name, const std::string& in, const std::string& function, const std::string& source, const std::string& node,
                   const std::string& more = "") {
    if (in.empty()) housings_.push_back(name);
    const bool one_feed = drive_ == "data-bus" || drive_ == "ground-switched";
    return "    " + name + ": {" + (in.empty() ? "" : "in: " + in + ", ") + function + ": " + source + (drive_.empty() || drive_ == "switched" ? "" : ", drive: " + drive_) +
           ", feed: GY/VT " + size() + ", node: " + (one_feed ? "LIVE" : node) + more + "}\n";
  }

  std::string car() {
    const bool controller = drive_ == "controller";
    std::string out = "car:\n  inlet: {form: " + plug_.form + ", at: bracket}\n  battery: engine bay\n  drive: left-hand\n  towing: {ignition: " +
                      d_.of({"off", "accessory"}) + ", stop lamps: " + d_.of({"live", "asleep", "dead"}) + "}\n  monitoring: " +
                      d_.of({"none", "off-pulse"}) + "\n";
    out += "  stop switch: {kind: " + std::string(controller ? "module" : "switch") + ", feeds: [" + (separate_car_ ? "STOP" : "turn switch, STOP") + "]}\n  lamps:\n";
    const bool pair_only = separate_car_ && !plug_.separate && !converts_;   // the stop lamps show it all, turn stays dark
    const bool one_tail = d_.chance(60);
    for (const std::string& side : sides()) {
      const std::string end = side == "left" ? "_L" : "_R", unit = side + " rear";
      const std::string stud = d_.chance(80) ? ", return: BK " + size() + " to G-R" + (side == "left" ? "L" : "R") : "";
      if (separate_car_) {
        out += lamp(unit, "", "stop", light(true), controller ? "STOP" + end : "STOP", stud);
        out += lamp(side + " turn", d_.chance(60) ? unit : "", "turn", light(true), "TURN" + end, pair_only ? ", in tow: dark" : "");
      } else {
        out += lamp(unit, "", "stop-turn", light(true), "ST" + end, stud);
      }
      if (!bare()) out += lamp(side + " tail", unit, "tail", light(false), one_tail && !controller ? "TAIL" : "TAIL" + end);
    }
    if (bare()) return out;
    plate_ = d_.chance(70);
    if (plate_) out += lamp("plate", "", "plate", d_.of({"2 x R5W", "W5W", "194", "LED 0.05 A"}), controller ? "PLATE" : one_tail ? "TAIL" : "TAIL_L");
    if (d_.chance(60)) out += lamp("high stop", "", "chmsl", d_.of({"LED 0.25 A", "P21W", "0.9 A"}), controller ? "HIGH" : "STOP");
    if (d_.chance(40)) out += lamp("left reverse", d_.chance(50) ? "left rear" : "", "reverse", d_.of({"P21W", "1.75 A"}), "REV");
    if (d_.chance(30)) out += lamp("right fog", d_.chance(50) ? "right rear" : "", "fog", "1.75 A", "FOG");
    for (int i = 0; i < more_; ++i)
      out += lamp(std::string(i % 2 == 0 ? "left" : "right") + " marker " + std::to_string(i / 2 + 1), "", "tail", "LED 0.02 A",
                  one_tail && !controller ? "TAIL" : i % 2 == 0 ? "TAIL_L" : "TAIL_R", i % 2 == 0 ? ", return: BK 0.5 mm2 to G-RL" : ", return: BK 0.5 mm2 to G-RR");
    return out;
  }

  std::string isolation() {
    if (added_) return added_lamps();
    const bool one_tail = has("tail");
    Words methods = {"two-way-diodes", "two-way-diodes", "field-effect", "battery-fed-relays", "single-diode", "no-isolation"};
    if (has("charge") || one_tail) methods.push_back("relay-change-over");
    if (one_tail && !plug_.separate && !converts_) methods.push_back("powered-module");
    const std::string method = d_.of(methods);
    cuts_ = method != "single-diode" && method != "no-isolation";
    std::string out = "isolation: {method: " + method;
    if (converts_) out += ", converter: converter-" + std::string(plug_.separate ? "separate-to-combined" : "combined-to-separate");
    if (method == "two-way-diodes" || method == "single-diode" || method == "powered-module") out += ", diode: " + d_.of({"silicon", "low-drop"});
    if (method == "relay-change-over") out += ", tow-mode: " + std::string(has("charge") ? "charge" : "tail") + ", relay: " + d_.of({"change-over-cube", "change-over-micro"});
    if (plate_ && cuts_ && d_.chance(70)) out += ", plate: with " + d_.of({"left", "right"}) + " tail";
    if (method == "two-way-diodes" && !separate_car_ && has("charge") && d_.chance(30)) out += ", by function: {stop-turn: relay-change-over}";
    return out + "}\n";
  }

  std::string added_lamps() {
    const std::string method = d_.of({"added-bulbs", "dedicated-strips", "removable-lamps"});
    const auto source = [&](bool bright) {
      return method == "added-bulbs" ? std::string("P21/5W ") + (bright ? "bright" : "dim") : std::string(bright ? "LED 0.45 A" : "LED 0.10 A");
    };
    std::string out = "isolation:\n  method: " + method + "\n  lamps:\n";
    for (const std::string& side : sides()) {
      const std::string bar = side + " bar", at = ", at: " + side + " rear";
      out += "    " + bar + ": {" + at.substr(2) + ", " + (plug_.separate ? "stop: " : "stop-turn: ") + source(true) + "}\n";
      if (plug_.separate) out += "    " + bar + " turn: {in: " + bar + at + ", turn: " + source(true) + "}\n";
      out += "    " + bar + " tail: {in: " + bar + at + ", tail: " + source(false) + "}\n";
    }
    return out;
  }

  std::string extras() {
    std::string out;
    if (has("charge") && d_.chance(60)) out += "  charge line: {limiter: " + d_.of({"diode", "breaker", "sensing-relay", "charger", "field-effect", "none"}) + "}\n";
    if (!added_ && has("charge") && d_.chance(30) && (drive_ != "controller" || !separate_car_))
      out += "  stop-lamp cut-off: {rests: " + d_.of({"closed", "open"}) + ", parts: " + (drive_ == "controller" ? "lamp-outputs" : "stop-switch") + "}\n";
    if ((has("brake") || has("stop")) && d_.chance(30)) out += std::string("  brake signal: {from: ") + (has("brake") ? "brake" : "stop") + "}\n";
    else if (!plug_.separate && d_.chance(20)) out += "  brake signal from left and right: yes\n";
    if (d_.chance(25)) out += "  pedal brake: {fuse: 15 A}\n";
    if (d_.chance(15)) out += "  break-away switch: yes\n";
    if (d_.chance(15)) out += "  battery disconnect: yes\n";
    if (cuts_ && d_.chance(25)) out += "  bleed resistors: {bleed: 1 kohm}\n";
    if (d_.chance(15)) out += "  detection load: {load: 47 ohm}\n";
    return out.empty() ? out : "extras:\n" + out;
  }

  Dice d_;
  unsigned seed_;
  int more_;
  const Plug& plug_;
  bool separate_car_ = false, added_ = false, converts_ = false, cuts_ = false, plate_ = false;
  std::string drive_;
  Words housings_;
};

// `more`: marker lamps in housings of their own, on alternate sides; -1: none but two lamps of the car and
// what is added; -2: that on one side alone, which is drawn and has a finding.
inline std::string job(unsigned seed, int more = 0) { return Job(seed, more).text(); }

}  // namespace towloom::by_chance
