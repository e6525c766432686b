// Four check decks and their results as printed by ngspice 39 (reference electrical.md 11); decks a, b
// and c were also solved there by bisection, to 10 digits. Every point here leaks 1 nS to the body,
// the decks do not: that is 6e-9 of a lamp's current.
#include <cmath>

#include "solve/bench.hpp"

using namespace towloom;
using bench::Bench;

namespace {

constexpr double aim = 1e-6;

void check_close(double value, double expected, double relative) {
  CAPTURE(value);
  CAPTURE(expected);
  CHECK(std::fabs(value - expected) <= relative * std::fabs(expected));
}

// 12.8 V, fuse 5 mohm, 6 m of 16 AWG, diode, 27 W lamp, return 10 mohm.
struct OneLamp {
  Bench b;
  int fuse, diode;
  explicit OneLamp(const bench::Model& model) {
    // The ideal source of the deck and its fuse are one source behind 5 mohm.
    fuse = b.source("f", "0", 12.8, 5e-3);
    b.resistor("f", "w", 79.047e-3);
    diode = b.diode("w", "lamp", model);
    b.lamp("lamp", "lret", 2.10, 12.8);
    b.resistor("lret", "0", 10e-3);
    b.run();
  }
};

}  // namespace

TEST_CASE("E36 deck a: silicon diode before a 27 W lamp") {
  OneLamp d(bench::silicon);
  check_close(d.b.volts("f"), 12.790013050, aim);
  check_close(d.b.volts("w"), 12.632125368, aim);
  check_close(d.b.volts("lamp"), 11.705688535, aim);
  check_close(d.b.volts("lret"), 0.019973899405, aim);
  check_close(d.b.amps(d.diode), 1.9973899405, aim);
  check_close((d.b.volts("w") - d.b.volts("lamp")) * d.b.amps(d.diode), 1.8504556107, aim);
}

TEST_CASE("E37 deck b: Schottky diode before a 27 W lamp") {
  OneLamp d(bench::schottky);
  check_close(d.b.volts("f"), 12.789790032, aim);
  check_close(d.b.volts("w"), 12.628376571, aim);
  check_close(d.b.volts("lamp"), 12.184917539, aim);
  check_close(d.b.volts("lret"), 0.020419935135, aim);
  check_close(d.b.amps(d.diode), 2.0419935135, aim);
}

namespace {
// Motorhome 13.8 V on one diode, the car's side on the other.
Bench two_sources(const bench::Model& model, bool car_on, int& car_diode) {
  Bench b;
  b.source("a", "0", 13.8, 84.047e-3);
  b.diode("a", "l", model);
  if (car_on)
    b.source("c", "0", 12.6, 50e-3);
  else
    b.resistor("c", "0", 10e3);
  car_diode = b.diode("c", "l", model);
  b.lamp("l", "r", 2.10, 12.8);
  b.resistor("r", "0", 10e-3);
  b.run();
  return b;
}
}  // namespace

TEST_CASE("E38 deck c: a silicon pair keeps the car's side dead") {
  int car = 0;
  Bench b = two_sources(bench::silicon, false, car);
  check_close(b.volts("a"), 13.624461369, aim);
  check_close(b.volts("l"), 12.694636087, aim);
  check_close(b.volts("r"), 0.020885769947, aim);
  // The 1 nS beside the 10 kohm takes 1e-5 of it.
  check_close(b.volts("c"), 5.0126942812e-05, 2e-5);
}

TEST_CASE("E39 deck c: a Schottky pair leaks three decades more") {
  int car = 0;
  Bench b = two_sources(bench::schottky, false, car);
  check_close(b.volts("a"), 13.620847263, aim);
  check_close(b.volts("l"), 13.173312536, aim);
  check_close(b.volts("c"), 0.15000012714, 2e-5);
}

TEST_CASE("E40 deck c: with both sources on the car's diode stays blocked") {
  int car = 0;
  Bench b = two_sources(bench::silicon, true, car);
  check_close(b.volts("l"), 12.694636087, aim);
  check_close(b.volts("c"), 12.6, aim);
  CHECK(b.amps(car) < 0);
  CHECK(b.amps(car) > -10e-9);  // ngspice: -4.38 nA
  check_close(b.amps(car), -4.382030738e-09, 1e-3);
}

TEST_CASE("E41 deck d: an open ground returns through the tail filaments") {
  Bench b;
  const int source = b.source("st", "0", 12.8, 84.047e-3);
  b.lamp("st", "g", 2.10, 12.8);
  b.lamp("g", "t", 0.59, 14.0);
  b.resistor("g", "0", 1e9);
  b.lamp("t", "gr", 0.59, 14.0);
  b.resistor("gr", "0", 10e-3);
  b.run();
  check_close(b.volts("st"), 12.768587914, aim);
  check_close(b.volts("g"), 12.212294916, aim);
  check_close(b.volts("t"), 6.1080161794, aim);
  check_close(b.volts("gr"), 3.7374427294e-03, aim);
  check_close(-b.amps(source), 3.7374428516e-01, aim);
  check_close(b.volts("st") - b.volts("g"), 5.5629299801e-01, aim);
}
