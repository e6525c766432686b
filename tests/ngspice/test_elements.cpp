// Single elements and small circuits of the trade through ngspice: the deck that we write, or one written by hand.
#include <cmath>

#include "ngspice/run_deck.hpp"
#include "solve/bench.hpp"
#include "solve/solve.hpp"

using namespace towloom;
using bench::Bench;

namespace {

// Every point of the bench in one scene and phase against ngspice.
void compare(Bench& b, const Scene& scene, int phase, const std::string& deck) {
  const auto theirs = ngspice::volts(deck);
  REQUIRE_FALSE(theirs.empty());
  const Solved ours = solve(b.circuit, b.catalogue, scene);
  REQUIRE(ours.converged());
  const Flat flat = flatten(b.circuit, b.catalogue, scene, phase);
  int compared = 0;
  for (std::size_t p = 0; p < flat.point.size(); ++p) {
    if (flat.point[p] < 0) continue;
    const std::string& name = b.circuit.parts[0].terminals[p];
    const auto by_number = theirs.find("p" + std::to_string(flat.point[p]));
    const auto by_name = theirs.find(name);
    if (by_number == theirs.end() && by_name == theirs.end()) continue;
    const double expected = by_number != theirs.end() ? by_number->second : by_name->second;
    CAPTURE(name);
    CAPTURE(expected);
    const double mine = ours.phase[static_cast<std::size_t>(phase)].volts[p];
    CAPTURE(mine);
    CHECK(std::fabs(mine - expected) <= 10e-6 + 1e-6 * std::fabs(expected));
    ++compared;
  }
  CHECK(compared > 0);
}

void compare(Bench& b, const Scene& scene = {}, int phase = 0) { compare(b, scene, phase, netlist(b.circuit, b.catalogue, scene, phase)); }

// 3.2 W at 12.8 V from 9 V up: an LED's switching driver.
Element driver() {
  Element e;
  e.law = Law::power;
  e.volts = 12.8;
  e.amps = 0.25;
  e.threshold_v = 9;
  return e;
}

}  // namespace

TEST_CASE("an LED lamp with a switching driver takes constant watts: more amps at fewer volts") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  for (const double volts : {14.4, 12.8, 10.0, 9.3, 8.5, 7.0, 0.0}) {
    CAPTURE(volts);
    Bench b;
    b.source("supply", "0", volts, 0.2);
    b.resistor("supply", "lamp", 0.5);
    const int e = b.add(driver(), "lamp", "0");
    compare(b);
    const Solved s = solve(b.circuit, b.catalogue, {});
    const double amps = s.phase[0].element_a[0][static_cast<std::size_t>(e)];
    const double at = s.phase[0].volts[2];
    if (volts > 9.5) CHECK(amps * at == doctest::Approx(3.2).epsilon(1e-5));
    if (volts < 8) CHECK(std::fabs(amps) < 1e-9);
  }
}

// 3.2 W cannot be had through 20 ohm from 12 V: 12 x 12 / 80 = 1.8 W is the most.
TEST_CASE("a supply too weak for the watts is not called solved, or is solved below the threshold") {
  Bench b;
  b.source("supply", "0", 12, 20);
  b.add(driver(), "supply", "0");
  const Solved s = solve(b.circuit, b.catalogue, {});
  const double at = s.phase[0].volts[1];
  CHECK((!s.converged() || at < 9));
}

TEST_CASE("an LED lamp with its reverse diode: in series it blocks, and the strings' threshold adds up") {
  REQUIRE(ngspice::present());
  for (const double volts : {14.0, 12.8, 9.0, 7.2, -12.0}) {
    CAPTURE(volts);
    Bench b;
    b.source("supply", "0", volts, 0.1);
    b.diode("supply", "inner", bench::silicon);
    b.led("inner", "0", 0.25, 12.0, 6.3);
    b.resistor("inner", "0", 1e6);
    compare(b);
  }
}

// The coach's outlet when its lamp is off: open, or held to ground by its driver, or pulled up by the check that looks
// for a trailer (2 to 10 kohm, reference 5.3).
TEST_CASE("an outlet that is off: open, driven to ground, or pulled up by its lamp check") {
  REQUIRE(ngspice::present());
  Scene off, on;
  on.signals["coach.left"] = Wave::flash;
  for (const int kind : {0, 1, 2}) {
    CAPTURE(kind);
    Bench b;
    const int source = b.source("out", "0", 13, 0.1);
    b.gate(source, Gate::lit, "coach.left");
    if (kind == 1) b.gate(b.resistor("out", "0", 0.5), Gate::idle, "coach.left");
    if (kind == 2) b.gate(b.source("out", "0", 13, 4700), Gate::idle, "coach.left");
    b.resistor("out", "0", 1e6);
    b.diode("out", "lamp", bench::silicon);
    b.led("lamp", "0", 0.25, 12.8, 7);
    b.resistor("lamp", "0", 1e6);
    compare(b, off);
    compare(b, on, 0);
    compare(b, on, 1);
  }
}

// Fixed-load and variable-load flashers drop at most 0.5 V on the average while lit (SAE J945): the lit half.
TEST_CASE("a flasher as a contact with a drop: both phases") {
  REQUIRE(ngspice::present());
  Scene hazard;
  hazard.signals["car.turn.left"] = Wave::flash;
  hazard.signals["car.turn.right"] = Wave::counterflash;
  Bench b;
  b.source("battery", "0", 12.6, 0.01);
  b.gate(b.resistor("battery", "left", 0.12), Gate::lit, "car.turn.left");
  b.gate(b.resistor("battery", "right", 0.12), Gate::lit, "car.turn.right");
  b.lamp("left", "0", 2.1, 12.8);
  b.lamp("right", "0", 2.1, 12.8);
  compare(b, hazard, 0);
  compare(b, hazard, 1);
  const Solved s = solve(b.circuit, b.catalogue, hazard);
  CHECK(s.phase[0].volts[1] - s.phase[0].volts[2] < 0.5);
  CHECK(s.phase[0].volts[3] < 0.001);
  CHECK(s.phase[1].volts[2] < 0.001);
}

// Charge line: coach 14.2 V behind a 15 A breaker of 10 mohm, 0.203 ohm of wire, battery of the car at 12.6 V.
TEST_CASE("a charge line through a breaker, charging and in reverse while the coach cranks") {
  REQUIRE(ngspice::present());
  for (const double coach : {14.2, 9.5}) {
    CAPTURE(coach);
    Bench b;
    b.source("coach", "0", coach, 0.02);
    const int breaker = b.resistor("coach", "line", 0.010);
    b.resistor("line", "car", 0.203);
    b.source("car", "0", 12.6, 0.03);
    compare(b);
    const Solved s = solve(b.circuit, b.catalogue, {});
    CHECK(s.phase[0].element_a[0][static_cast<std::size_t>(breaker)] == doctest::Approx((coach - 12.6) / 0.263).epsilon(1e-6));
  }
}
