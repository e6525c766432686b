// Every law is increasing, and its slope and co-content belong to its current.
#include <cmath>
#include <vector>

#include "solve/bench.hpp"

using namespace towloom;

namespace {

std::vector<Element> laws() {
  std::vector<Element> out(6);
  out[0].ohm = 3.3;
  out[1].law = Law::source;
  out[1].volts = 12.6;
  out[1].ohm = 0.01;
  out[2].law = Law::filament;
  out[2].volts = 13.5;
  out[2].amps = 1.86;
  out[3].law = Law::led;
  out[3].volts = 12.8;
  out[3].amps = 0.25;
  out[3].threshold_v = 7;
  out[4] = bench::diode_element(bench::silicon);
  out[5] = bench::diode_element(bench::schottky, 85);
  return out;
}

}  // namespace

TEST_CASE("slope and co-content are derivative and integral of the current") {
  for (const Element& e : laws()) {
    CAPTURE(static_cast<int>(e.law));
    const Curve c = make_curve(e);
    for (double v = -14.03; v < 14; v += 0.37) {
      CAPTURE(v);
      const double h = 1e-6;
      const Response low = respond(c, v - h), at = respond(c, v), high = respond(c, v + h);
      CHECK(at.siemens > 0);
      CHECK(high.amps > low.amps);
      CHECK((high.amps - low.amps) / (2 * h) == doctest::Approx(at.siemens).epsilon(1e-4));
      // The content's own last digit sets how well its slope can be seen.
      CHECK(std::fabs((high.content - low.content) / (2 * h) - at.amps) <=
            1e-6 * std::fabs(at.amps) + 1e-15 * std::fabs(at.content) / h + 1e-9);
    }
  }
}

TEST_CASE("a filament works both ways, a diode and an LED one way") {
  const auto all = laws();
  CHECK(respond(make_curve(all[2]), -6).amps == -respond(make_curve(all[2]), 6).amps);
  CHECK(respond(make_curve(all[3]), 12.8).amps == doctest::Approx(0.25));
  CHECK(respond(make_curve(all[3]), 6.9).amps < 1e-9);
  CHECK(respond(make_curve(all[3]), -12).amps > -1e-9);
  CHECK(respond(make_curve(all[4]), -12).amps > -1e-8);
  CHECK(respond(make_curve(all[4]), -12).amps < 0);
}

TEST_CASE("a diode without series resistance never overflows") {
  Element e = bench::diode_element(bench::silicon);
  e.rs = 0;
  for (const double v : {0.7, 5.0, 60.0, 1000.0}) {
    const Response r = respond(make_curve(e), v);
    CHECK(std::isfinite(r.amps));
    CHECK(std::isfinite(r.siemens));
    CHECK(std::isfinite(r.content));
  }
}
