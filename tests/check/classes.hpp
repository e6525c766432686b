// Surveys of the trade's car classes behind its two kinds of coach, and what advise says to them.
#pragma once

#include <algorithm>

#include "check/advise.hpp"
#include "circuit/fixture.hpp"

namespace towloom::fixture {

struct CarClass {
  const char* name;
  std::string lamps;
};

inline std::string side_rows(const char* function, const char* source, const char* drive, const char* node, const char* in = nullptr) {
  std::string out;
  for (const std::string side : {"left", "right"}) {
    const std::string name = in == nullptr ? side + " rear" : side + " " + function;
    out += "    " + name + ": {" + (in == nullptr ? "" : "in: " + side + " rear, ") + function + ": " + source + ", drive: " + drive +
           ", feed: GY/VT 0.75 mm2, node: " + node + (std::string(node).back() == '_' ? side.substr(0, 1) : "") + "}\n";
  }
  return out;
}

inline const std::string plate_row = "    plate: {plate: R5W, feed: PK/BK 0.5 mm2, node: TAIL}\n";

// K1 to K7 of the trade: combined or separate, filament or LED, pulse-modulated, data bus, switched in the return.
inline const CarClass cars[] = {
    {"K1", side_rows("stop-turn", "P21/5W bright", "switched", "ST_") + side_rows("tail", "P21/5W dim", "switched", "TAIL", "in") + plate_row},
    {"K2", side_rows("stop", "P21W", "switched", "STOP") + side_rows("turn", "P21W", "switched", "TURN_", "in") + side_rows("tail", "R5W", "switched", "TAIL", "in") + plate_row},
    {"K3", side_rows("stop-turn", "LED 0.55 A", "controller", "ST_") + side_rows("tail", "LED 0.12 A", "controller", "T_", "in")},
    {"K4", side_rows("stop", "LED 0.5 A", "controller", "S_") + side_rows("turn", "P21W", "controller", "TURN_", "in") + side_rows("tail", "LED 0.12 A", "controller", "T_", "in")},
    {"K5", side_rows("tail-stop", "LED 0.45 A", "pulse-modulated", "A_") + side_rows("turn", "P21W", "controller", "B_", "in")},
    {"K6", side_rows("stop", "LED 0.45 A", "data-bus", "BUS") + side_rows("turn", "LED 0.4 A", "data-bus", "BUS", "in") + side_rows("tail", "LED 0.1 A", "data-bus", "BUS", "in")},
    {"K7", side_rows("stop-turn", "P21/5W bright", "ground-switched", "LIVE") + side_rows("tail", "P21/5W dim", "ground-switched", "LIVE", "in")},
};

inline std::string survey(const CarClass& car, bool separate, const std::string& extras = "") {
  const std::string form = separate ? "iso-13" : "blade-7";
  std::string found;
  const std::vector<std::pair<const char*, const char*>> contacts =
      separate ? std::vector<std::pair<const char*, const char*>>{{"1", "left"}, {"4", "right"}, {"6", "stop"}, {"9", "charge"}}
               : std::vector<std::pair<const char*, const char*>>{{"TAIL", "tail"}, {"LT", "left"}, {"RT", "right"}, {"BAT", "charge"}};
  for (const auto& [contact, does] : contacts)
    found += "    \"" + std::string(contact) + "\": {does: " + does + ", open: 13.6 V, loaded: 13.2 V, load: 4.2 A}\n";
  return "job: {title: t, number: A1, date: 2026-11-25, by: test}\n"
         "coach:\n  outlet: " + form + ", rear\n  signals: " + (separate ? "separate" : "combined") + "\n  found:\n" + found +
         "cord: {length: 2.4 m, wire: 14 AWG}\n"
         "car:\n  inlet: {form: " + form + "}\n  battery: engine bay\n  towing: {ignition: off, stop lamps: live}\n"
         "  stop switch: {kind: switch, feeds: [STOP]}\n  lamps:\n" + car.lamps +
         extras +
         "runs:\n  front: {from: inlet, to: left rear, length: 5.2 m}\n  cross: {from: left rear, to: right rear, length: 1.4 m}\n"
         "grounds:\n  G-F: {at: front stud, takes: coach white}\n";
}

inline std::vector<Candidate> advice(const std::string& text, Job& job) {
  const int file = job.sources.add("job.yaml", text);
  job.catalogue = read_catalogue(std::filesystem::path(TOWLOOM_ROOT) / "specs", job.sources, job.diagnostics);
  const auto root = read_yaml(file, job.sources, job.diagnostics);
  if (root) job.spec = read_job(*root, file, job.diagnostics);
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  REQUIRE(job.spec.has_value());
  return advise(*job.spec, *job.catalogue);
}

inline const Candidate& candidate(const std::vector<Candidate>& all, const std::string& method) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const Candidate& c) { return c.method->name == method; });
  REQUIRE(at != all.end());
  return *at;
}

inline bool needs(const Candidate& c, const std::string& word) {
  return std::any_of(c.extras.begin(), c.extras.end(), [&](const std::string& e) { return e.find(word) != std::string::npos; });
}

}  // namespace towloom::fixture
