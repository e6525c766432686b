// A function matrix written by hand, held against what is required and what is solved.
// One column a lamp in survey order: 1 lit, F flashing, . dark, ? either (not compared with the solution).
#pragma once

#include <doctest/doctest.h>

#include <fstream>
#include <map>
#include <sstream>

#include "check/check.hpp"
#include "circuit/fixture.hpp"

namespace towloom::oracle {

using Matrix = std::map<std::string, std::string>;   // scene -> columns

inline char sign(Seen seen) {
  switch (seen) {
    case Seen::dark: return '.';
    case Seen::lit: return '1';
    case Seen::flash: return 'F';
    case Seen::counterflash: return 'G';
    case Seen::glow: return '~';
    case Seen::may: return '?';
  }
  return ' ';
}

inline std::string job_text(const std::string& name) {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs" / (name + ".yaml"));
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

struct Solved {
  fixture::Job job;
  std::optional<Facts> facts;
};

inline Solved solved_text(const std::string& text) {
  Solved out{fixture::built(text), std::nullopt};
  INFO(format_diagnostics(out.job.diagnostics, out.job.sources, false));
  out.facts = find_facts(*out.job.spec, *out.job.catalogue, out.job.diagnostics);
  INFO(format_diagnostics(out.job.diagnostics, out.job.sources, false));
  REQUIRE(out.facts.has_value());
  return out;
}

// The states of a tow, by what they are: rows of `m` under further names. Cars' and coach's own scenes stay as they are.
inline bool in_tow(const std::string& scene) { return scene.rfind("car: ", 0) != 0 && scene.rfind("coach: ", 0) != 0; }
inline std::string in_state(const std::string& scene, const std::string& state) { return scene == "all off" ? state : scene + ", " + state; }
// A pressed pedal feeds the car's own stop lamps where `mask` has ?, and changes nothing elsewhere.
inline void press_pedal(Matrix& m, const std::string& mask) {
  const Matrix before = m;
  for (const auto& [scene, columns] : before) {
    if (!in_tow(scene)) continue;
    std::string pressed = columns;
    for (std::size_t l = 0; l < pressed.size(); ++l)
      if (mask[l] == '?') pressed[l] = '?';
    m[in_state(scene, "pedal pressed")] = pressed;
  }
}
// Nobody tested whether the charge contact stays live with the engine off: either.
inline void stop_engine(Matrix& m) {
  const Matrix before = m;
  for (const auto& [scene, columns] : before)
    if (in_tow(scene)) m[in_state(scene, "engine off")] = std::string(columns.size(), '?');
}
// A car that was not switched to tow lights the same lamps.
inline void leave_closed(Matrix& m) {
  const Matrix before = m;
  for (const auto& [scene, columns] : before)
    if (in_tow(scene)) m[in_state(scene, "not switched to tow")] = columns;
}
// Nothing is on, or the cord is out: dark.
inline void add_dark(Matrix& m) {
  const std::string dark(m.begin()->second.size(), '.');
  for (const char* scene : {"car: at rest", "coach: tail", "coach: stop", "coach: left", "coach: right", "coach: hazard"}) m[scene] = dark;
}

// Every scene that is solved stands in the matrix and the other way round.
inline void check_matrix(const Facts& facts, const Matrix& by_hand) {
  CHECK(facts.states.scenes.size() == by_hand.size());
  for (std::size_t s = 0; s < facts.states.scenes.size(); ++s) {
    const std::string& name = facts.states.scenes[s].name;
    CAPTURE(name);
    REQUIRE(by_hand.count(name) == 1);
    const std::string& expected = by_hand.at(name);
    REQUIRE(facts.circuit().lamps.size() == expected.size());
    for (std::size_t l = 0; l < expected.size(); ++l) {
      CAPTURE(l);
      CHECK(sign(facts.states.required[s][l]) == expected[l]);
      if (expected[l] != '?') CHECK(sign(facts.states.lamps[s][l].seen) == expected[l]);
    }
  }
}

// A fitted wire by the names of its ends: "J2.TM.car", or the kind of a splice's or part's place written by hand.
inline bool has_wire(const Circuit& c, const std::string& from, const std::string& to, const std::string& colour) {
  for (const Wire& w : c.wires)
    if (w.status == Status::fitted && w.colour == colour &&
        ((c.name(w.from) == from && c.name(w.to) == to) || (c.name(w.from) == to && c.name(w.to) == from)))
      return true;
  return false;
}
// The same net: joined by wires and splices only.
inline bool joined(const Circuit& c, const std::string& a, const std::string& b) {
  const TerminalRef x = c.terminal(a), y = c.terminal(b);
  REQUIRE_MESSAGE(bool(x.part), a);
  REQUIRE_MESSAGE(bool(y.part), b);
  return c.net(x) == c.net(y);
}

}  // namespace towloom::oracle
