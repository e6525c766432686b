// The circuit that is drawn as found: the same volts as the intended circuit with every change, in parts that can be
// drawn.
#include <cmath>

#include "check/as_drawn.hpp"
#include "check/mistakes.hpp"
#include "prove/prove.hpp"

using namespace towloom;
using namespace towloom::fixture;

namespace {

// The net of each terminal, written as the terminals that hang on it.
bool joined(const Circuit& c, const std::string& a, const std::string& b) {
  const TerminalRef s = c.terminal(a), t = c.terminal(b);
  REQUIRE_MESSAGE(bool(s.part), a);
  REQUIRE_MESSAGE(bool(t.part), b);
  return c.net(s) == c.net(t);
}
const Part& part_of(const Circuit& c, const std::string& id) {
  const PartId found = c.find(id);
  REQUIRE_MESSAGE(bool(found), id);
  return c.part(found);
}

// A contact by its moulded letters: "J1 GND".
std::string contact(const Circuit& c, const std::string& connector, const std::string& letters, const std::string& side) {
  for (const Part& p : c.parts)
    if (p.kind == "contact" && p.group == connector && p.title == letters) return p.id + "." + side;
  FAIL("no contact " << connector << " " << letters);
  return "";
}

void same_lamps(const States& drawn, const States& changed) {
  REQUIRE(drawn.scenes.size() == changed.scenes.size());
  for (std::size_t s = 0; s < drawn.scenes.size(); ++s)
    for (std::size_t l = 0; l < drawn.lamps[s].size(); ++l) {
      INFO(drawn.scenes[s].name << ", lamp " << l);
      CHECK(drawn.lamps[s][l].seen == changed.lamps[s][l].seen);
      // A stretch of no length counts a hundredth of a milliohm: at the 200 A of a short 2 mV each. And each more point leaks
      // its nanosiemens: a lamp that carries next to nothing floats at other volts.
      if (std::max(std::fabs(drawn.lamps[s][l].amps), std::fabs(changed.lamps[s][l].amps)) > 1e-6)
        CHECK(std::fabs(drawn.lamps[s][l].volts - changed.lamps[s][l].volts) < 0.02);
    }
}

}  // namespace

// What stands in the survey of the inherited hatchback, row by row: which terminals must hang together.
TEST_CASE("the inherited hatchback is drawn as its survey found it") {
  const Checked c = checked(shown_job("inherited-hatchback"));
  const auto found = facts_as_found(*c.facts, *c.job.catalogue);
  REQUIRE(found.has_value());
  const Circuit& drawn = found->circuit();
  // A, the cord: GND to S, TAIL to A, LT to RT, RT to LT, BAT to TM.
  const std::pair<const char*, const char*> cores[] = {{"GND", "S"}, {"TAIL", "A"}, {"LT", "RT"}, {"RT", "LT"}, {"BAT", "TM"}};
  for (const auto& [from, to] : cores) CHECK_MESSAGE(joined(drawn, contact(drawn, "J1", from, "cord"), contact(drawn, "J2", to, "cord")), from);
  CHECK_FALSE(joined(drawn, contact(drawn, "J1", "GND", "cord"), contact(drawn, "J2", "GD", "cord")));
  const std::string unused = contact(drawn, "J2", "S", "car");   // nothing hangs behind it
  CHECK(std::none_of(drawn.wires.begin(), drawn.wires.end(), [&](const Wire& w) { return w.from == drawn.terminal(unused) || w.to == drawn.terminal(unused); }));
  // B, the tow bar: 0.3 ohm from the coach's chassis to the car's body.
  const Part& bar = part_of(drawn, "B");
  CHECK(bar.elements[0].ohm == 0.3);
  CHECK(joined(drawn, "B.1", "COACH.ground"));
  CHECK(joined(drawn, "B.2", "BODY.1"));
  CHECK(joined(drawn, "BODY.body", "G-BAT.body"));
  CHECK_FALSE(joined(c.facts->circuit(), "COACH.ground", "G-BAT.body"));
  // C, the ground on plastic.
  CHECK(part_of(drawn, "G-X").found == "open");
  // D, the diode of the right tail the wrong way round: its symbol turns, its wires stay.
  CHECK(part_of(drawn, "D4").found == "reversed-A");
  CHECK(joined(drawn, "D4.A", "D3.A"));
  // E, no fuse in the charge wire: the wire goes through.
  CHECK(part_of(drawn, "FU2").found == "missing");
  // F, the tap: 0.9 V at 1.9 A are 0.47 ohm before the diode of the left side.
  CHECK(std::fabs(part_of(drawn, "F").elements[0].ohm - 0.9 / 1.9) < 1e-9);
  CHECK(joined(drawn, "F.2", "D1.A"));
  CHECK_FALSE(joined(drawn, "F.1", "D1.A"));
  Diagnostics diagnostics;
  same_lamps(found->states, solve_as_found(*c.facts, *c.job.catalogue, diagnostics)->facts.states);
}

TEST_CASE("any single fault, drawn as found, has the volts of the changed circuit") {
  int drawn = 0;
  for (const std::string name : {"plain-hatchback", "mended-hatchback", "mixed-roadster"}) {
    const Checked c = checked(shown_job(name));
    const Catalogue& catalogue = *c.job.catalogue;
    const std::vector<Fault> faults = list_faults(c.facts->circuit(), catalogue);
    REQUIRE(faults.size() > 20);
    const AsFoundRow row;
    for (std::size_t i = 0; i < faults.size(); i += 5) {
      Observed o;
      o.row = &row;
      o.fault = faults[i];
      o.about = o.fault.at.substr(0, o.fault.at.find_first_of(". "));
      INFO(name << ": " << describe(o.fault, catalogue));
      const Circuit circuit = as_drawn(c.facts->circuit(), {o}, c.facts->spec, catalogue);
      same_lamps(solve_all(circuit, catalogue, c.facts->spec), solve_all(with_observed(c.facts->circuit(), o, catalogue), catalogue, c.facts->spec));
      ++drawn;
    }
  }
  CHECK(drawn > 30);
}

// The right side of the runabout was never wired: behind its contact hangs nothing that a resistance could stand on.
TEST_CASE("what is in series in a contact stands on the side that has a wire") {
  const Checked c = checked(edited(shown_job("inherited-runabout"), {{"\nas found:\n", "\nas found:\n  J2.RT: {ohm: 2 ohm, date: 2026-11-26, why: test}\n"}}));
  const auto found = facts_as_found(*c.facts, *c.job.catalogue);
  REQUIRE(found.has_value());
  const Circuit& drawn = found->circuit();
  CHECK(joined(drawn, "A.1", contact(drawn, "J1", "RT", "cord")));
  CHECK(joined(drawn, "A.2", contact(drawn, "J2", "RT", "cord")));
}

TEST_CASE("a core that ends on nothing hangs loose, and one on an unused contact ends there") {
  const Checked c = checked(edited(shown_job("plain-hatchback"), {as_found("  cord: {cores: {1: nothing}, date: 2026-11-25, why: test}\n")}));
  const auto found = facts_as_found(*c.facts, *c.job.catalogue);
  REQUIRE(found.has_value());
  const Circuit& drawn = found->circuit();
  const PartId loose = drawn.find("A");
  REQUIRE(loose);
  CHECK(drawn.part(loose).kind == "loose-end");
  CHECK(joined(drawn, "A.1", "J1.1.cord"));
  CHECK_FALSE(joined(drawn, "J2.1.cord", "J1.1.cord"));
}
