// Mishaps of the trade, built into the circuit: the solution must show them, and the rules must say so.
#include <limits>
#include <utility>

#include "check/fixture.hpp"
#include "circuit/builder.hpp"

using namespace towloom;
using fixture::part;
using fixture::spoilt;

namespace {

void join(Part& block, std::size_t diode) {
  Element& e = block.elements[diode];
  e.law = Law::resistor;
  e.ohm = 0.001;
}

// Readings of one scene, by the order of the survey: stop/turn L R, tail L R, plate, high stop, reverse.
Seen seen(const fixture::Checked& c, const std::string& scene, std::size_t lamp) {
  for (std::size_t s = 0; s < c.facts->states.scenes.size(); ++s)
    if (c.facts->states.scenes[s].name == scene) return c.facts->states.lamps[s][lamp].seen;
  FAIL("no such scene: " << scene);
  return Seen::may;
}

std::string first_difference(const fixture::Checked& c) {
  const Finding* f = c.finding("lamp-differs");
  return f ? f->message : "";
}

}  // namespace

TEST_CASE("the plain job has no fault, only the fuse that nobody stated") {
  const auto c = fixture::checked(fixture::plain_job());
  for (const Finding& f : c.facts->findings) {
    CAPTURE(f.message);
    CHECK(f.severity != Severity::error);
    CHECK(f.rule == "fuse-unknown");
    CHECK(f.place.known());
  }
  CHECK(c.facts->findings.size() == 1);
}

TEST_CASE("a car-side diode shorted: the coach feeds the car, other lamps light") {
  const auto c = spoilt([](Circuit& k) { join(part(k, "D1"), 1); });
  // D1 is the left stop/turn block; the idle turn switch joins it to the high stop lamp.
  CHECK(seen(c, "left", 5) == Seen::flash);
  REQUIRE(c.has("lamp-differs"));
  REQUIRE(c.has("back-feed"));
  CHECK(c.finding("back-feed")->message.find("the coach feeds the car") != std::string::npos);
  CHECK(c.finding("back-feed")->severity == Severity::error);
  CHECK(c.finding("back-feed")->place.known());
}

TEST_CASE("a coach-side diode shorted: the car feeds the inlet's contact") {
  const auto c = spoilt([](Circuit& k) { join(part(k, "D1"), 0); });
  CHECK_FALSE(c.has("lamp-differs"));  // in tow nothing shows
  REQUIRE(c.has("back-feed"));
  CHECK(c.finding("back-feed")->message.find("the car feeds the coach") != std::string::npos);
}

TEST_CASE("a reversed coach-side diode leaves its lamp dark in tow") {
  const auto c = spoilt([](Circuit& k) { std::swap(part(k, "D1").elements[0].a, part(k, "D1").elements[0].b); });
  CHECK(seen(c, "left", 0) == Seen::dark);
  CHECK(seen(c, "right", 1) == Seen::flash);
  CHECK(seen(c, "car: left", 0) == Seen::flash);
  CHECK(first_difference(c).find("left rear") != std::string::npos);
}

TEST_CASE("left and right swapped: found in the turn scenes, not when both are lit") {
  const auto c = spoilt([](Circuit& k) {
    Wire *left = nullptr, *right = nullptr;
    for (Wire& w : k.wires) {
      if (w.status != Status::fitted) continue;
      if (w.circuit == "left") left = &w;
      if (w.circuit == "right") right = &w;
    }
    REQUIRE(left != nullptr);
    REQUIRE(right != nullptr);
    std::swap(left->from, right->from);
  });
  CHECK(seen(c, "left", 0) == Seen::dark);
  CHECK(seen(c, "left", 1) == Seen::flash);
  CHECK(seen(c, "stop", 0) == Seen::lit);
  CHECK(seen(c, "stop", 1) == Seen::lit);
  CHECK(c.has("lamp-differs"));
}

TEST_CASE("the white wire off: no lamp has its full volts") {
  const auto c = spoilt([](Circuit& k) { part(k, "J2.1").elements[0].ohm = 1e9; });
  CHECK(seen(c, "left", 0) != Seen::flash);
  CHECK(seen(c, "tail", 2) != Seen::lit);
  CHECK(c.has("lamp-differs"));
}

TEST_CASE("a ground lost in the left unit: current returns through the other filament") {
  // The left unit hangs on its stud; without the tail lamps' supply the tail filament is its way home.
  const auto c = spoilt([](Circuit& k) { part(k, "G-RL").elements[0].ohm = 1e9; });
  CHECK(seen(c, "left", 0) != Seen::flash);
  CHECK(seen(c, "right", 1) == Seen::flash);
  CHECK(c.has("lamp-differs"));
}

TEST_CASE("a corroded contact of half an ohm: lit, but the volts are low") {
  const auto c = spoilt([](Circuit& k) { part(k, "J1.3").elements[0].ohm = 0.5; });
  CHECK_FALSE(c.has("lamp-differs"));
  REQUIRE(c.has("low-volts"));
  CHECK(c.finding("low-volts")->severity == Severity::warning);
  CHECK(c.finding("low-volts")->message.find("left rear") != std::string::npos);
}

TEST_CASE("a scene without a solution is reported, not printed") {
  const auto c = spoilt([](Circuit& k) { part(k, "BAT").elements[0].volts = std::numeric_limits<double>::quiet_NaN(); });
  REQUIRE(c.has("not-solved"));
  CHECK(c.finding("not-solved")->severity == Severity::error);
}

// A supplied isolating pair in place of the left stop/turn block: its 20 mohm lose 2 A x 0.02 ohm = 0.04 V where the
// silicon block loses 0.93 V (electrical reference 4.2), and the lamp's way to the outlet still leads through it.
TEST_CASE("an isolating transistor pair in place of a diode block lights the same lamps with a diode's volts more") {
  const auto before = fixture::checked(fixture::plain_job());
  const auto after = spoilt([](Circuit& k) {
    const auto before_models = fixture::built(fixture::plain_job());
    const Catalogue& catalogue = *before_models.catalogue;
    Part pair = model_part(catalogue.parts.at("field-effect"), "", &catalogue.diodes.at("silicon"));
    Part& block = part(k, "D1");
    block.terminals = pair.terminals;
    block.elements = pair.elements;
    block.devices = pair.devices;
    Wire ground;
    ground.id = "W9";
    ground.from = k.terminal("D1.G");
    ground.to = k.terminal("G-RL.1");
    ground.fixed_ohm = 0.01;
    k.wires.push_back(ground);
  });
  CHECK_FALSE(after.has("lamp-differs"));
  CHECK_FALSE(after.has("back-feed"));
  for (std::size_t s = 0; s < after.facts->states.scenes.size(); ++s) {
    if (after.facts->states.scenes[s].name != "left") continue;
    const double gained = after.facts->states.lamps[s][0].volts - before.facts->states.lamps[s][0].volts;
    CHECK(gained > 0.8);   // less than 0.89 V: the brighter lamp draws more through wire and outlet
    CHECK(gained < 0.89);
    const auto drops = path_drop(after.facts->circuit(), *after.job.catalogue, after.facts->states.scenes[s], after.facts->states.solved[s]);
    const auto was = path_drop(before.facts->circuit(), *before.job.catalogue, before.facts->states.scenes[s], before.facts->states.solved[s]);
    CHECK(drops[0] > was[0]);          // more current in the same wire, the isolating part apart
    CHECK(drops[0] < was[0] * 1.1);
  }
}
