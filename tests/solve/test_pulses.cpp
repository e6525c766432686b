// Pulse-modulated feeds and filaments: the filament's resistance is that of its RMS volts, and so is its light. Expected
// values: the handbook's law I = Id x (x^2 + e^2)^-0.225 (x = V/Vd, e = 0.0034) iterated in a script of its own, light
// (V/Vd)^3.4; meters show the mean.
#include <cmath>

#include "bench.hpp"
#include "circuit/fixture.hpp"
#include "solve/faults.hpp"
#include "solve/lamps.hpp"
#include "solve/meter.hpp"

using namespace towloom;

namespace {

// 14 V behind 0.1 ohm in pulses, on while "coach.left" is.
struct Pulsed : bench::Bench {
  explicit Pulsed(double duty) {
    const int feed = source("feed", "0", 14, 0.1);
    gate(feed, Gate::lit, "coach.left");
    circuit.parts[0].elements.back().duty = duty;
  }
  Solved solved(Wave wave = Wave::on) {
    Scene s;
    s.signals["coach.left"] = wave;
    return solve(circuit, catalogue, s);
  }
  static double amps(const Solved& s, int element, std::size_t phase) { return s.phase[phase].element_a[0][static_cast<std::size_t>(element)]; }
  LampState lamp_of(const Solved& s, int element) {
    const auto shipped = fixture::built(fixture::plain_job());
    return lamp_state(circuit, *shipped.catalogue, number_points(circuit), {0}, s, element);
  }
};

}  // namespace

TEST_CASE("a filament on pulses has the resistance and the light of its RMS volts") {
  struct Row {
    double duty, pulse_a, rms_v, rms_a, light;
  };
  for (const Row& r : {Row{0.5, 2.06965, 9.753149, 1.463464, 0.331099}, Row{0.12, 2.844441, 4.751207, 0.985343, 0.0287077}}) {
    CAPTURE(r.duty);
    Pulsed b(r.duty);
    const int lamp = b.lamp("feed", "0", 1.75, 13.5);
    const Solved s = b.solved();
    REQUIRE(s.phases == 2);
    CHECK(b.amps(s, lamp, 0) == doctest::Approx(r.pulse_a).epsilon(2e-5));
    CHECK(std::fabs(b.amps(s, lamp, 1)) < 1e-5);
    const LampState seen = b.lamp_of(s, lamp);
    CHECK(seen.volts == doctest::Approx(r.rms_v).epsilon(2e-5));
    CHECK(seen.amps == doctest::Approx(r.rms_a).epsilon(2e-5));
    CHECK(seen.light == doctest::Approx(r.light).epsilon(1e-4));
    CHECK((seen.seen == Seen::lit) == (r.light >= 0.1));   // a tenth of the design light
  }
}

// Ohms in series with the feed: the same script with 0.1 ohm more and more, until the light is 0.7 of what it was (a change
// that is seen, dimmer_share) and a tenth of the design light. Of an LED the light goes with 1 / ohm of the loop.
TEST_CASE("a poor contact behind pulses: the light by the RMS volts that are left") {
  const fixture::Job shipped = fixture::built(fixture::plain_job());
  const auto symptoms = [&](Pulsed& b, double ohm) {
    States states;
    states.scenes.resize(1);
    states.scenes[0].signals["coach.left"] = Wave::on;
    states.solved.push_back(solve(b.circuit, *shipped.catalogue, states.scenes[0]));
    const FaultTable table = solve_faults(b.circuit, *shipped.catalogue, states, {Fault{"contact-poor", "feed", {ElementInSeries{{0}, 0, ohm}}}});
    REQUIRE(table.rows.size() == 1);
    CHECK(table.rows[0].unsolved == 0);
    return table.rows[0].symptoms;
  };
  Pulsed b(0.5);
  b.lamp("feed", "0", 1.75, 13.5);
  CHECK(symptoms(b, 0.7085).empty());            // 0.70907 ohm: 8.78184 V of 9.75315 V
  const std::vector<Symptom> dimmer = {{0, 0, Seen::lit, LightChange::dimmer}};
  CHECK(symptoms(b, 0.7097) == dimmer);
  CHECK(symptoms(b, 2.4215) == dimmer);
  const std::vector<Symptom> glows = {{0, 0, Seen::glow, LightChange::none}}, dark = {{0, 0, Seen::dark, LightChange::none}};
  CHECK(symptoms(b, 2.4229) == glows);            // 2.42218 ohm
  CHECK(symptoms(b, open_ohm) == dark);
}

TEST_CASE("an LED on pulses shows the mean of its light") {
  Pulsed b(0.25);
  const int lamp = b.led("feed", "0", 0.4, 13.5, 7);   // 16.25 ohm above 7 V: 7 V / 16.35 ohm in the pulse
  const LampState seen = b.lamp_of(b.solved(), lamp);
  CHECK(seen.amps == doctest::Approx(0.25 * 7 / 16.35).epsilon(1e-4));
  CHECK(seen.light == doctest::Approx(0.25 * 7 / 16.35 / 0.4).epsilon(1e-4));
}

TEST_CASE("a filament that flashes on pulses is cold between the flashes") {
  Pulsed b(0.5);
  const int lamp = b.lamp("feed", "0", 1.75, 13.5);
  const Solved s = b.solved(Wave::flash);
  REQUIRE(s.phases == 4);
  CHECK(b.amps(s, lamp, 0) == doctest::Approx(2.06965).epsilon(2e-5));   // flash on, pulse on
  for (const std::size_t phase : {1, 2, 3}) CHECK(std::fabs(b.amps(s, lamp, phase)) < 1e-5);
  CHECK(b.lamp_of(s, lamp).seen == Seen::flash);
}

TEST_CASE("a wire is warmed by the RMS of its pulses") {
  const fixture::Job shipped = fixture::built_of_14(fixture::plain_job());
  Circuit circuit = *shipped.circuit;
  for (Part& p : circuit.parts)
    for (Element& e : p.elements)
      if (e.signal == "coach.left") e.duty = 0.25;
  Scene left;
  left.signals = {{"coach.left", Wave::on}, {"coupled", Wave::on}};
  const Solved s = solve(circuit, *shipped.catalogue, left);
  const auto core = std::find_if(circuit.wires.begin(), circuit.wires.end(), [](const Wire& w) { return w.id == "C3"; });
  const WireId id{static_cast<int>(core - circuit.wires.begin())};
  const double pulse = s.phase[0].wire_a[static_cast<std::size_t>(id.v)];
  CHECK(pulse > 1.5);
  CHECK(warming_amps(s, id) == doctest::Approx(0.5 * pulse).epsilon(1e-4));   // half: the root of a quarter of the time
}

TEST_CASE("a meter shows the mean of pulses") {
  Pulsed b(0.8);
  b.resistor("feed", "0", 6.9);
  Scene on;
  on.signals["coach.left"] = Wave::on;
  const auto out = read_between(b.circuit, b.catalogue, on, {b.at("feed"), {}, 1e7});
  REQUIRE(out.size() == 1);
  CHECK(out[0].pulse_v == doctest::Approx(13.8).epsilon(1e-6));
  CHECK(out[0].volts == doctest::Approx(0.8 * 13.8).epsilon(1e-6));
}

// Fitted to what was read, the outlet gives the same readings again: 11.2 V open, 10.6 V at 4.2 A, both means over
// pulses of 80 percent. The car's lamps are unplugged while it is read: the cord is out.
TEST_CASE("an outlet with pulses gives again what the meter read at it") {
  std::string text = fixture::changed(fixture::plain_job(), "  signals: combined", "  outputs: pulse-modulated\n  duty: 80 %\n  signals: combined");
  text = fixture::changed(text, "\"3\": {does: left, open: 13.5 V, loaded: 12.9 V", "\"3\": {does: left, open: 11.2 V, loaded: 10.6 V");
  const fixture::Job job = fixture::built_of_14(text);
  const Circuit& circuit = *job.circuit;
  Scene on;
  on.signals["coach.left"] = Wave::on;
  const TerminalRef left = circuit.terminal("COACH.left"), ground = circuit.terminal("COACH.ground");
  const auto read = [&](double ohm) {
    const auto out = read_between(circuit, *job.catalogue, on, {left, ground, ohm});
    REQUIRE(out.size() == 1);
    return out[0];
  };
  CHECK(read(1e7).volts == doctest::Approx(11.2).epsilon(1e-4));
  const Reading loaded = read(10.6 / 4.2);   // a resistor that takes 4.2 A in the mean
  CHECK(loaded.volts == doctest::Approx(10.6).epsilon(1e-4));
  CHECK(loaded.amps == doctest::Approx(4.2).epsilon(1e-4));
}
