// Check values E25 to E35 of the reference (electrical.md 14) and its tables 4.2: each with its source.
#include <cmath>

#include "catalogue/shipped.hpp"
#include "solve/bench.hpp"
#include "solve/lamps.hpp"

using namespace towloom;
using towloom::testing::shipped;

namespace {

// Light of one lamp of 1000 lm at 12.8 V, by the shipped law.
double light_at(double volts) {
  bench::Bench b;
  b.source("lamp", "0", volts, 1e-6);
  Element e;
  e.law = Law::filament;
  e.amps = 2.10;
  e.volts = 12.8;
  const int lamp = b.add(e, "lamp", "0");
  const Solved solved = solve(b.circuit, shipped(), {});
  REQUIRE(solved.converged());
  return lamp_state(b.circuit, shipped(), number_points(b.circuit), {0}, solved, lamp).light;
}


// Volts across an element at a current, by bisection on the law.
double volts_at(const Element& e, double amps) {
  const Curve curve = make_curve(e);
  double low = 0, high = 20;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2;
    (respond(curve, middle).amps < amps ? low : high) = middle;
  }
  return low;
}

double off_by(double value, double expected) { return std::fabs(value - expected) / std::fabs(expected); }

Element lamp(double amps, double volts) {
  Element e;
  e.law = Law::filament;
  e.amps = amps;
  e.volts = volts;
  return e;
}

}  // namespace

TEST_CASE("E25 E26 the published flux table of a lamp of 1000 lm at 12.8 V") {
  const std::pair<double, double> table[] = {{10.5, 510},  {11.0, 597},  {11.5, 695},  {12.0, 803}, {12.5, 923},
                                             {13.0, 1054}, {13.5, 1198}, {14.0, 1356}, {14.5, 1528}};
  for (const auto& [volts, lumens] : table) {
    CAPTURE(volts);
    CHECK(off_by(1000 * light_at(volts), lumens) < 1e-3);
  }
}

TEST_CASE("E47 a corroded contact of 0.2 ohm loses 0.42 V and 0.882 W at 2.1 A") {
  CHECK(shipped().faults.at("contact-corroded").ohm == doctest::Approx(0.2));
  bench::Bench b;
  b.source("feed", "0", 12.8, 1e-6);
  const int contact = b.resistor("feed", "lamp", shipped().faults.at("contact-corroded").ohm);
  b.resistor("lamp", "0", 12.38 / 2.1);   // what draws 2.1 A behind it
  b.run();
  CHECK(off_by(b.volts("feed") - b.volts("lamp"), 0.42) < 1e-3);
  CHECK(off_by((b.volts("feed") - b.volts("lamp")) * b.amps(contact), 0.882) < 1e-3);
}

TEST_CASE("E48 a coil of 85 ohm behind 20 m of 18 AWG has 12.54 V at 12.6 V and pulls in at 8 V") {
  Wire wire;
  wire.length_m = 20;
  wire.size = parse_wire_size("18 AWG");
  Circuit sized;
  sized.wire_series = "AWG";
  sized.wire_celsius = 20;
  bench::Bench b;
  b.source("battery", "0", 12.6, 1e-6);
  b.resistor("battery", "coil", wire_ohm(wire, sized, shipped()) / 1.04);   // the reference counts solid copper
  b.resistor("coil", "0", 85);
  b.run();
  CHECK(off_by(b.volts("coil"), 12.54) < 1e-3);
  CHECK(b.volts("coil") > 8);
}

TEST_CASE("E49 a short behind 15 m of 18 AWG and 0.05 ohm draws 34.6 A: 2.31 times a 15 A fuse, enough to open it") {
  Wire wire;
  wire.length_m = 15;
  wire.size = parse_wire_size("18 AWG");
  Circuit sized;
  sized.wire_series = "AWG";
  sized.wire_celsius = 20;
  bench::Bench b;
  b.source("battery", "0", 12.6, 0.05);
  const int run = b.resistor("battery", "0", wire_ohm(wire, sized, shipped()) / 1.04);
  b.run();
  CHECK(off_by(b.amps(run), 34.6) < 5e-3);
  CHECK(b.amps(run) / 15 > shipped().rule("fuse_opens").value);
}

TEST_CASE("E50 a charge line with 1.6 V across 0.253 ohm carries 6.33 A") {
  bench::Bench b;
  b.source("coach", "0", 14.2, 0.05);
  b.source("car", "0", 12.6, 1e-6);
  const int line = b.resistor("coach", "car", 0.203);   // 14 AWG, 12 m out and back
  b.run();
  CHECK(off_by(b.amps(line), 6.33) < 5e-3);
}

TEST_CASE("E27 a 2.10 A lamp at 13.8 V takes 2.1887 A (exponent 0.55)") {
  CHECK(off_by(respond(make_curve(lamp(2.10, 12.8)), 13.8).amps, 2.1887) < 1e-4);
}

TEST_CASE("E29 a cold filament has 0.07748 of the hot resistance") {
  const Curve c = make_curve(lamp(2.10, 12.8));
  const double cold = 1 / respond(c, 0).siemens, hot = 12.8 / 2.10;
  CHECK(off_by(cold / hot, 0.07748) < 1e-3);
}

TEST_CASE("the smooth filament law is V^0.55 within 0.03 percent above a tenth of the design volts") {
  const Curve c = make_curve(lamp(2.10, 12.8));
  for (const double x : {0.1, 0.3, 0.5, 1.0, 1.2})
    CHECK(off_by(respond(c, 12.8 * x).amps, 2.10 * std::pow(x, 0.55)) < 3e-4);
  CHECK(off_by(respond(c, 12.8).amps, 2.10) < 3e-6);
}

TEST_CASE("E32 thermal voltage at 27 degrees") { CHECK(off_by(thermal_volts(27), 0.02586492) < 1e-6); }

TEST_CASE("E33 and E34 forward volts at 3 A") {
  CHECK(off_by(volts_at(bench::diode_element(bench::silicon), 3), 0.9599) < 1e-3);
  CHECK(off_by(volts_at(bench::diode_element(bench::schottky), 3), 0.4846) < 1e-3);
}

TEST_CASE("forward volts over the current, table 4.2 (Newton and ngspice)") {
  const double amps[] = {0.5, 0.59, 1, 2, 2.1, 3, 5, 9.4};
  const double si[] = {0.8413, 0.8501, 0.8802, 0.9265, 0.9302, 0.9599, 1.0130, 1.1076};
  const double sb[] = {0.3517, 0.3598, 0.3891, 0.4415, 0.4461, 0.4846, 0.5612, 0.7136};
  for (int i = 0; i < 8; ++i) {
    CAPTURE(amps[i]);
    CHECK(std::fabs(volts_at(bench::diode_element(bench::silicon), amps[i]) - si[i]) < 6e-5);
    CHECK(std::fabs(volts_at(bench::diode_element(bench::schottky), amps[i]) - sb[i]) < 6e-5);
  }
}

TEST_CASE("forward volts at 2.1 A and leakage at -12 V over the temperature, table 4.2 (ngspice)") {
  const struct {
    double celsius, si, sb;
  } forward[] = {{-20, 0.97447, 0.50159}, {27, 0.93024, 0.44610}, {60, 0.89803, 0.40638},
                 {85, 0.87306, 0.37591},  {125, 0.83219, 0.32661}};
  for (const auto& row : forward) {
    CAPTURE(row.celsius);
    CHECK(std::fabs(volts_at(bench::diode_element(bench::silicon, row.celsius), 2.1) - row.si) < 1.5e-5);
    CHECK(std::fabs(volts_at(bench::diode_element(bench::schottky, row.celsius), 2.1) - row.sb) < 1.5e-5);
  }
  const struct {
    double celsius, si, sb;
  } reverse[] = {{27, 5.00e-9, 1.50e-5}, {60, 6.79e-8, 1.47e-4}, {85, 3.59e-7, 6.31e-4}, {125, 3.39e-6, 4.51e-3}};
  for (const auto& row : reverse) {
    CAPTURE(row.celsius);
    const auto leak = [&](const bench::Model& m) {
      return -respond(make_curve(bench::diode_element(m, row.celsius)), -12).amps;
    };
    CHECK(off_by(leak(bench::silicon), row.si) < 5e-3);
    CHECK(off_by(leak(bench::schottky), row.sb) < 5e-3);
  }
}

TEST_CASE("E35 heat of a silicon diode at 2.1 A, 20 K/W, 40 degrees around it") {
  const double watts = 2.1 * volts_at(bench::diode_element(bench::silicon), 2.1);
  CHECK(off_by(watts, 1.953) < 5e-3);
  CHECK(off_by(40 + 20 * watts, 79.1) < 5e-3);
}
