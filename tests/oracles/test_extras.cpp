// Extras held to what the trade asks of them, by hand.
#include <algorithm>

#include "oracles/matrix.hpp"

using namespace towloom;

namespace {

// Least and most volts between two terminals over the flash of one scene.
struct Span {
  double least = 1e9, most = -1e9;
};
Span volts(const Facts& facts, const std::string& scene, const std::string& plus, const std::string& minus) {
  const Circuit& c = facts.circuit();
  const Points points = number_points(c);
  const auto at = [&](const std::string& name) {
    REQUIRE_MESSAGE(bool(c.terminal(name).part), name);
    return static_cast<std::size_t>(points.at(c.terminal(name)));
  };
  Span out;
  for (std::size_t s = 0; s < facts.states.scenes.size(); ++s) {
    if (facts.states.scenes[s].name != scene) continue;
    const Solved& solved = facts.states.solved[s];
    for (int p = 0; p < solved.phases; ++p) {
      const auto& v = solved.phase[static_cast<std::size_t>(p)].volts;
      out.least = std::min(out.least, v[at(plus)] - v[at(minus)]);
      out.most = std::max(out.most, v[at(plus)] - v[at(minus)]);
    }
  }
  REQUIRE(out.most > -1e8);
  return out;
}

std::string plain_with(const std::string& extra) {
  return fixture::changed(fixture::changed(fixture::plain_job(), "runs:\n", "extras:\n  " + extra + "\nruns:\n  battery: {from: left grommet, to: battery, length: 1 m}\n"),
                          "wire: {standard: AWG, lamps: auto ribbon of 4}", "wire: {standard: AWG, lamps: 14 AWG ribbon of 4}");
}

}  // namespace

// Trade: left AND right by two relays in series, never two diodes, or the brake pulses with every turn signal.
TEST_CASE("brake signal from left and right: quiet with a turn signal, on with the brake") {
  const auto s = oracle::solved_text(plain_with("brake signal from left and right: {unit-at: left grommet}"));
  const auto span = [&](const char* scene) { return volts(*s.facts, scene, "B1.supply", "B1.ground"); };
  CHECK(span("stop").least > 10);
  CHECK(span("left").most < 0.1);
  CHECK(span("right").most < 0.1);
  CHECK(span("tail").most < 0.1);
  // Braking while turning it comes and goes: a limit that the extra's own caution names.
  CHECK(span("stop + left").least < 0.1);
  CHECK(span("stop + left").most > 10);
  for (std::size_t scene = 0; scene < s.facts->states.scenes.size(); ++scene)
    CHECK(s.facts->states.solved[scene].chatter.empty());
}

// Trade: the pulled pin drives the unit from the battery whatever the coach does; with the pin in the unit is dead.
TEST_CASE("break-away switch: dead with the pin in") {
  const auto s = oracle::solved_text(plain_with("break-away switch: {unit-at: left grommet}"));
  CHECK(volts(*s.facts, "stop", "B1.supply", "B1.ground").most < 0.1);
  Scene pulled{"pin out", "towing", "the car has parted from the coach", {{"car.break-away", Wave::on}}};
  const Circuit& c = s.facts->circuit();
  const Points points = number_points(c);
  const Solved solved = solve(c, *s.job.catalogue, pulled);
  REQUIRE(solved.converged());
  const auto& v = solved.phase[0].volts;
  CHECK(v[static_cast<std::size_t>(points.at(c.terminal("B1.supply")))] - v[static_cast<std::size_t>(points.at(c.terminal("B1.ground")))] > 10);
}

// By hand: 47 ohm at some 12.9 V draw 0.27 A on their own side only.
TEST_CASE("detection load: draws on its own signal, returns on the coach's white") {
  const auto s = oracle::solved_text(plain_with("detection load: {load: 47 ohm}"));
  const Span left = volts(*s.facts, "left", "R1.1", "R1.2"), other = volts(*s.facts, "left", "R2.1", "R2.2");
  CHECK(left.most == doctest::Approx(13).epsilon(0.05));
  CHECK(left.least < 0.1);
  CHECK(other.most < 0.1);
  CHECK(oracle::joined(s.facts->circuit(), "R1.2", "J2.1.car"));
  CHECK(oracle::joined(s.facts->circuit(), "R2.2", "J2.1.car"));
}

// Each limiter between the charge contact and the battery: current flows towards the battery; with the cord out only
// what blocks back keeps the car's battery from the plug (trade: diode, relay, charger, field-effect do; a breaker and
// a plain wire do not).
TEST_CASE("charge line: every limiter, and which of them leave the plug live") {
  const struct { const char* limiter; bool live; } rows[] = {{"diode", false}, {"sensing-relay", false}, {"charger", false}, {"field-effect", false},
                                                             {"breaker", true}, {"none", true}};
  for (const auto& row : rows) {
    CAPTURE(row.limiter);
    const std::string text = fixture::changed(oracle::job_text("mended-hatchback"), "charge line: {limiter: diode, diode: low-drop, fuse: 15 A}",
                                              std::string("charge line: {limiter: ") + row.limiter + ", fuse: 10 A}");
    const auto s = oracle::solved_text(text);
    bool live = false;
    for (const States::Backfeed& b : s.facts->states.backfeed)
      if (s.facts->circuit().probes[static_cast<std::size_t>(b.probe)].name == "J2 contact 6") live = live || b.loaded_v > 10;
    CHECK(live == row.live);
  }
}
