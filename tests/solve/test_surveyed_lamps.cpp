// LED lamps and the outlet's off-state as a survey finds them, solved: expected values by hand.
#include <cmath>

#include "bench.hpp"
#include "circuit/fixture.hpp"
#include "solve/meter.hpp"

using namespace towloom;
using bench::Bench;

namespace {

// The high stop lamp of the plain job with this source; a source of `volts` behind `ohm` feeds it.
struct Lit {
  double volts, amps;
};
Lit lamp_behind(const std::string& source, double volts, double ohm) {
  const fixture::Job job = fixture::built(fixture::changed(fixture::plain_job(), "chmsl: LED 0.25 A", "chmsl: " + source));
  REQUIRE(job.circuit.has_value());
  for (const LampIntent& lamp : job.circuit->lamps) {
    if (lamp.car_function != "chmsl") continue;
    Element e = job.circuit->part(lamp.lamp).elements[0];
    e.gate = Gate::always;
    Bench b;
    b.source("supply", "0", volts, 0.001);
    b.resistor("supply", "lamp", ohm - 0.001);
    const int at = b.add(e, "lamp", "0");
    const auto reading = read_between(b.circuit, b.catalogue, {}, {b.at("lamp"), {}, 1e9});
    REQUIRE(reading.size() == 1);
    const Solved solved = solve(b.circuit, b.catalogue, {});
    REQUIRE(solved.converged());
    return {reading[0].volts, solved.phase[0].element_a[0][static_cast<std::size_t>(at)]};
  }
  FAIL("no high stop lamp");
  return {};
}

}  // namespace

// (12 - I) I = 10 has the root I = 6 - sqrt(26) = 0.90098 A; the lamp has 12 - 0.90098 V.
TEST_CASE("an LED lamp of constant power draws more as its volts fall, and nothing below them") {
  const Lit lit = lamp_behind("LED 10 W from 9 V", 12, 1);
  CHECK(lit.amps == doctest::Approx(6 - std::sqrt(26.0)).epsilon(1e-5));
  CHECK(lit.volts == doctest::Approx(6 + std::sqrt(26.0)).epsilon(1e-5));
  // 14 V: (14 - I) I = 10, I = 7 - sqrt(39) = 0.75500 A.
  CHECK(lamp_behind("LED 10 W from 9 V", 14, 1).amps == doctest::Approx(7 - std::sqrt(39.0)).epsilon(1e-5));
  CHECK(std::fabs(lamp_behind("LED 10 W from 9 V", 8, 1).amps) < 1e-6);
  // Two in one row: (12 - I) I = 20, I = 2 A by trial: 10 x 2 = 20.
  CHECK(lamp_behind("2 x LED 10 W from 9 V", 12, 1).amps == doctest::Approx(2).epsilon(1e-5));
}

// Generic LED stop lamp of the electrical reference 3.4: 7.0 V and 20 ohm, 0.29 A at 12.8 V.
TEST_CASE("an LED lamp of threshold and resistance") {
  CHECK(lamp_behind("LED 20 ohm from 7 V", 12.8, 0.001).amps == doctest::Approx(0.29).epsilon(1e-4));
  // Behind 5 ohm at 12 V: (12 - 7) / 25 = 0.2 A, 11 V at the lamp.
  const Lit lit = lamp_behind("LED 20 ohm from 7 V", 12, 5);
  CHECK(lit.amps == doctest::Approx(0.2).epsilon(1e-6));
  CHECK(lit.volts == doctest::Approx(11).epsilon(1e-6));
  // The same lamp said by what a fitter measures: its current at 12.8 V, and where it starts.
  CHECK(lamp_behind("LED 0.29 A from 7 V", 12, 5).amps == doctest::Approx(0.2).epsilon(1e-5));
  CHECK(std::fabs(lamp_behind("LED 20 ohm from 7 V", 6.9, 5).amps) < 1e-6);
}

// The cord is out; 12.6 V behind 1 kohm between the brake contact, which the coach has no lamp on, and its ground.
TEST_CASE("a contact whose signal is off is open, or driven to the coach's ground") {
  const auto volts = [](const std::string& off) {
    std::string text = fixture::plain_job();
    text = fixture::changed(text, "outlet: flat-4, left", "outlet: blade-7, left");
    text = fixture::changed(text, "{form: flat-4, half: trailer,", "{form: blade-7,");
    const std::size_t from = text.find("    \"2\": {does: tail"), to = text.find("cord:");
    text.replace(from, to - from, "    \"2\": {does: brake, open: 13.6 V" + off + "}\n");
    text = fixture::changed(text, "runs:\n", "extras:\n  brake signal: {unit-at: left grommet}\nruns:\n");
    const fixture::Job job = fixture::built_of_14(text);
    const Circuit& circuit = *job.circuit;
    Element supply;
    supply.law = Law::source;
    supply.volts = 12.6;
    supply.ohm = 1000;
    const auto readings = read_between(circuit, *job.catalogue, {}, {circuit.terminal("J1.2.coach"), circuit.terminal("COACH.ground"), 0, supply});
    REQUIRE(readings.size() == 1);
    return readings[0].volts;
  };
  CHECK(volts(", off: 470 ohm") == doctest::Approx(12.6 * 470 / 1470).epsilon(1e-4));
  CHECK(volts(", off: 33 ohm") == doctest::Approx(12.6 * 33 / 1033).epsilon(1e-4));
  CHECK(volts(", off: open") == doctest::Approx(12.6).epsilon(1e-4));
  CHECK(volts("") == doctest::Approx(12.6).epsilon(1e-4));
}
