// Check values E25 to E35 of the reference (electrical.md 14) and its tables 4.2: each with its source.
#include <cmath>

#include "solve/bench.hpp"

using namespace towloom;

namespace {

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
