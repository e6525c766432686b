// A shown job with a mistake edited into its text, solved and checked; and what was then seen.
#pragma once

#include <algorithm>
#include <functional>

#include "check/as_found.hpp"
#include "check/fixture.hpp"

namespace towloom::fixture {

struct Edit {
  std::string old, now;
};

inline std::string shown_job(const std::string& name) {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs" / (name + ".yaml"));
  REQUIRE_MESSAGE(in.good(), name);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

// Each edit replaces the first occurrence of its old text.
inline std::string edited(std::string text, const std::vector<Edit>& edits) {
  for (const Edit& e : edits) {
    text = changed(text, e.old, e.now);
  }
  return text;
}

// The catalogue of mistakes beside the tests, as seen from the shown jobs.
inline Edit with_mistakes() { return {"\ncoach:\n", "\ncatalogue: ../../tests/check/mistakes\n\ncoach:\n"}; }

inline std::size_t scene_of(const Facts& f, const std::string& name) {
  for (std::size_t s = 0; s < f.states.scenes.size(); ++s)
    if (f.states.scenes[s].name == name) return s;
  FAIL("no scene " << name);
  return 0;
}
inline Seen seen(const Facts& f, const std::string& scene, std::size_t lamp) { return f.states.lamps[scene_of(f, scene)][lamp].seen; }

inline const Finding* find_finding(const Facts& f, const std::string& rule, const std::string& words = "") {
  for (const Finding& x : f.findings)
    if (x.rule == rule && (words.empty() || x.message.find(words) != std::string::npos)) return &x;
  return nullptr;
}

// As found: the job with these rows under as found: and measured:.
inline AsFound found_of(const Checked& c) {
  Diagnostics diagnostics;
  const auto found = solve_as_found(*c.facts, *c.job.catalogue, diagnostics);
  INFO(format_diagnostics(diagnostics, c.job.sources, false));
  REQUIRE(found.has_value());
  return *found;
}

inline Edit as_found(const std::string& rows) { return {"\nruns:\n", "\nas found:\n" + rows + "\nruns:\n"}; }

// The mark of the fitted wire that ends at this terminal.
inline std::string wire_at(const Circuit& c, const std::string& terminal) {
  const TerminalRef t = c.terminal(terminal);
  REQUIRE_MESSAGE(bool(t.part), terminal);
  for (const Wire& w : c.wires)
    if ((w.from == t || w.to == t) && w.status == Status::fitted) return w.id;
  FAIL("no wire at " << terminal);
  return "";
}

}  // namespace towloom::fixture
