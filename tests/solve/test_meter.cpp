// Readings with the instrument attached: expected values by hand, or the same circuit with the instrument built in.
#include <cmath>

#include "bench.hpp"
#include "circuit/fixture.hpp"
#include "solve/meter.hpp"

using namespace towloom;
using bench::Bench;

namespace {

const Catalogue& catalogue() {
  static const fixture::Job job = fixture::built(fixture::plain_job());
  return *job.catalogue;
}

Reading reading(Bench& b, const char* instrument, const char* from, const char* to = nullptr) {
  const TerminalRef other = to == nullptr ? TerminalRef{} : b.at(to);
  const auto out = read_between(b.circuit, b.catalogue, {}, attach(catalogue().instruments.at(instrument), catalogue(), b.at(from), other));
  REQUIRE(out.size() == 1);
  return out[0];
}

}  // namespace

// A point behind 1 Mohm: the meter makes a divider of it. By hand: 12 x 10 / 11 V less the point's leak of 1 nS.
TEST_CASE("a meter of 10 Mohm loads what it reads; 1 kohm and a lamp take a ghost reading away") {
  Bench b;
  b.source("supply", "0", 12, 0.001);
  b.resistor("supply", "ghost", 1e6);
  CHECK(reading(b, "meter", "ghost").volts == doctest::Approx(12.0 / (1 + 1e6 * (1e-7 + 1e-9))).epsilon(1e-6));
  CHECK(reading(b, "meter", "ghost").amps == doctest::Approx(12.0 / 11 / 1e6).epsilon(2e-3));
  CHECK(reading(b, "meter-1k", "ghost").volts == doctest::Approx(12.0 / 1001).epsilon(1e-5));
  CHECK(std::fabs(reading(b, "test-lamp", "ghost").volts) < 1e-4);   // a cold filament of some 2.6 ohm
  CHECK(reading(b, "test-lamp", "supply").volts == doctest::Approx(12).epsilon(1e-3));
}

// R5W: 5.5 W at 13.5 V (UN R37, catalogue) = 0.4074 A; at 12 V by the exponent 0.55: 0.3819 A.
TEST_CASE("a test lamp draws the current of its bulb") {
  Bench b;
  b.source("supply", "0", 12, 0.001);
  CHECK(reading(b, "test-lamp", "supply").amps == doctest::Approx(5.5 / 13.5 * std::pow(12 / 13.5, 0.55)).epsilon(1e-3));
}

TEST_CASE("between two terminals the reading has a sign, and equals the circuit with the instrument built in") {
  Bench b;
  b.source("a", "0", 13.2, 0.2);
  b.diode("a", "b", bench::silicon);
  b.lamp("b", "g", 2.1, 12.8);
  b.resistor("g", "0", 0.5);
  b.lamp("a", "g", 0.59, 14);
  const double plain = reading(b, "meter", "b", "g").volts;
  CHECK(reading(b, "meter", "g", "b").volts == doctest::Approx(-plain));
  const Reading lamp = reading(b, "test-lamp", "b", "g");
  Bench built = b;
  built.lamp("b", "g", 5.5 / 13.5, 13.5);
  built.run();
  CHECK(lamp.volts == doctest::Approx(built.volts("b") - built.volts("g")).epsilon(1e-6));
  CHECK(lamp.volts < plain);   // it loads the point
}
