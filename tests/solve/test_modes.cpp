// Relays, modules, supplied isolators, pulse-modulated feeds, bounded sources: expected values by hand.
#include <doctest/doctest.h>

#include <cmath>

#include "circuit/builder.hpp"
#include "bench.hpp"
#include "solve/modes.hpp"

using namespace towloom;

namespace {

Device coil(int plus, int minus, double in, double out) { return {"coil", plus, minus, in, out, false, -1}; }

struct RelayBench : bench::Bench {
  // A cube relay (85 ohm, pulls in at 8 V, lets go below 1.2 V) with coil between `plus` and car body.
  void relay(const std::string& plus, double in = 8, double out = 1.2) {
    coil_element = resistor(plus, "0", 85);
    circuit.parts[0].devices.push_back(coil(circuit.parts[0].elements.back().a, 0, in, out));
  }
  int contact(const std::string& a, const std::string& b, Gate gate) {
    const int e = resistor(a, b, 0.005);
    circuit.parts[0].elements.back().gate = gate;
    circuit.parts[0].elements.back().device = 0;
    return e;
  }
  double at(const Solved& solved, const std::string& name, int phase = 0) {
    const auto& names = circuit.parts[0].terminals;
    const auto found = std::find(names.begin(), names.end(), name);
    REQUIRE(found != names.end());
    return solved.phase[static_cast<std::size_t>(phase)].volts[static_cast<std::size_t>(found - names.begin())];
  }
  int coil_element = 0;
};

Scene scene(std::map<std::string, Wave> signals) { return {"", "", "", std::move(signals)}; }

}  // namespace

// Electrical reference, check value E48: 85 ohm behind 20 m of 18 AWG (0.42 ohm) at 12.6 V has 12.54 V.
TEST_CASE("a relay pulls in through a long thin wire and moves its lamp over") {
  RelayBench b;
  b.source("supply", "0", 12.6, 0.42);
  b.relay("supply");
  b.source("coach", "0", 12, 0.1);
  b.source("car", "0", 6, 0.1);
  b.contact("lamp", "car", Gate::rest);
  b.contact("lamp", "coach", Gate::pulled);
  b.resistor("lamp", "0", 12);
  const Solved solved = solve(b.circuit, b.catalogue, {});
  CHECK(solved.converged());
  CHECK(solved.chatter.empty());
  CHECK_FALSE(solved.depends_on_before);
  CHECK(b.at(solved, "supply") == doctest::Approx(12.6 * 85 / 85.42).epsilon(1e-6));
  CHECK(b.at(solved, "lamp") == doctest::Approx(12.0 * 12 / 12.105).epsilon(1e-6));
}

TEST_CASE("a relay below its pull-in volts rests; whether it stays in below that, the scene before decides") {
  RelayBench b;
  b.source("supply", "0", 7.5, 0.42);   // between drop-out and pull-in
  b.relay("supply");
  b.source("car", "0", 6, 0.1);
  b.contact("lamp", "car", Gate::rest);
  b.resistor("lamp", "0", 12);
  const Solved solved = solve(b.circuit, b.catalogue, {});
  CHECK(b.at(solved, "lamp") == doctest::Approx(6.0 * 12 / 12.105).epsilon(1e-6));
  CHECK(solved.depends_on_before);
}

TEST_CASE("a coil fed through its own rest contact is a buzzer, and is named") {
  RelayBench b;
  b.source("supply", "0", 12.6, 0.05);
  b.relay("coil");
  b.contact("supply", "coil", Gate::rest);
  const Solved solved = solve(b.circuit, b.catalogue, {});
  REQUIRE(solved.chatter.size() == 1);
  CHECK(b.circuit.part(solved.chatter[0]).id == "X");
}

// A charge line without a blocking part holds the tow-mode relays from the car's own battery once the cord is out.
TEST_CASE("a relay that feeds its own coil stays as it was") {
  RelayBench b;
  b.source("coach", "start", 12.6, 0.05);
  b.resistor("start", "0", 0.001);
  b.gate(0, Gate::lit, "coach.charge");
  b.source("battery", "0", 12.6, 0.01);
  b.relay("coil");
  const int feed = b.resistor("coach", "coil", 0.01);
  b.gate(feed, Gate::lit, "coach.charge");
  b.contact("battery", "coil", Gate::pulled);
  const Solved unplugged = solve(b.circuit, b.catalogue, {});
  CHECK(std::fabs(b.at(unplugged, "coil")) < 0.001);
  CHECK(unplugged.depends_on_before);
  const Solved plugged = solve(b.circuit, b.catalogue, scene({{"coach.charge", Wave::on}}));
  CHECK(b.at(plugged, "coil") > 12.5);
  CHECK_FALSE(plugged.depends_on_before);
}

TEST_CASE("a relay worked by a flashing signal falls back in the dark half") {
  RelayBench b;
  b.source("signal", "0", 13, 0.1);
  b.gate(0, Gate::lit, "coach.left");
  b.relay("signal");
  b.source("car", "0", 12, 0.1);
  b.contact("lamp", "car", Gate::rest);
  b.resistor("lamp", "0", 12);
  const Solved solved = solve(b.circuit, b.catalogue, scene({{"coach.left", Wave::flash}}));
  REQUIRE(solved.phases == 2);
  CHECK(std::fabs(b.at(solved, "lamp", 0)) < 0.001);
  CHECK(b.at(solved, "lamp", 1) == doctest::Approx(12.0 * 12 / 12.105).epsilon(1e-6));
}

TEST_CASE("a pulse-modulated feed is solved with and without its pulse and weighted by its share") {
  RelayBench b;
  b.source("supply", "0", 12.8, 0.001);
  const int out = b.resistor("supply", "lamp", 0.06);
  b.gate(out, Gate::lit, "car.lamps");
  b.circuit.parts[0].elements.back().duty = 0.12;
  b.resistor("lamp", "0", 24);
  const Solved solved = solve(b.circuit, b.catalogue, scene({{"car.lamps", Wave::on}, {"car.turn.left", Wave::flash}}));
  REQUIRE(solved.phases == 4);
  double mean = 0, weight = 0;
  for (int p = 0; p < solved.phases; ++p) {
    mean += solved.weight(p) * b.at(solved, "lamp", p);
    weight += solved.weight(p);
  }
  CHECK(weight == doctest::Approx(1));
  CHECK(mean == doctest::Approx(0.12 * 12.8 * 24 / 24.061).epsilon(1e-5));
}

TEST_CASE("a charger gives its limit and no more") {
  RelayBench b;
  Element e;
  e.law = Law::limited;
  e.volts = 14.2;
  e.ohm = 0.05;
  e.least_a = 8;
  const int out = b.add(e, "out", "0");
  b.resistor("out", "0", 1);            // would draw 13.5 A
  b.run();
  CHECK(b.amps(out) == doctest::Approx(-8).epsilon(1e-9));
  CHECK(b.volts("out") == doctest::Approx(8).epsilon(1e-7));
}

TEST_CASE("the bounded law rises, and its content is the integral of its current") {
  Element e;
  e.law = Law::limited;
  e.volts = 2;
  e.ohm = 0.5;
  e.amps = 3;
  e.least_a = 1;
  const Curve c = make_curve(e);
  for (double v = -4; v < 8; v += 0.37) {
    const double step = 1e-4;
    CHECK(respond(c, v + 0.1).amps > respond(c, v).amps);
    const double mean = (respond(c, v + step).content - respond(c, v).content) / step;
    CHECK(mean == doctest::Approx(respond(c, v + step / 2).amps).epsilon(1e-3));
  }
}

// An isolating transistor pair: 20 mohm when supplied, a body diode without its ground.
TEST_CASE("an isolating module loses millivolts with its ground and a diode's volts without") {
  PartModel model;
  model.name = "field-effect";
  model.kind = "ideal-pair";
  model.figures = {{"on", 0.02}, {"works from", 4}, {"leak", 0}, {"draw", 0.001}};
  DiodeModel body;
  body.is = 5e-9;
  body.n = 1.75;
  body.rs = 0.015;
  for (const bool grounded : {true, false}) {
    CAPTURE(grounded);
    RelayBench b;
    b.source("coach", "0", 13, 0.001);
    b.resistor("lamp", "0", 6);
    b.resistor("reference", "0", grounded ? 0.01 : 1e9);
    b.resistor("car", "0", 100);
    Part part = model_part(model, "", &body);
    part.id = "D1";
    b.circuit.parts.push_back(part);
    const auto wire = [&](const char* from, int terminal) {
      Wire w;
      const auto& names = b.circuit.parts[0].terminals;
      w.from = {PartId{0}, static_cast<int>(std::find(names.begin(), names.end(), from) - names.begin())};
      w.to = {PartId{1}, terminal};
      w.fixed_ohm = 0.00001;
      b.circuit.wires.push_back(w);
    };
    wire("coach", 0);
    wire("car", 1);
    wire("lamp", 2);
    wire("reference", 3);
    const Solved solved = solve(b.circuit, b.catalogue, {});
    const double lost = b.at(solved, "coach") - b.at(solved, "lamp");
    if (grounded) {
      CHECK(lost == doctest::Approx(13 * 0.02 / 6.021).epsilon(0.001));
    } else {
      CHECK(lost > 0.85);   // silicon at 2 A: 0.927 V, electrical reference 4.2
      CHECK(lost < 0.95);
    }
    CHECK(std::fabs(b.at(solved, "car")) < 0.001);   // nothing reaches the car either way
  }
}
