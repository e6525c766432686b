// Leakage of hot diodes, against table 4.2 of the electrical reference: reverse current at -12 V and 85 °C is
// 6.31e-4 A for the generic Schottky model and 3.59e-7 A for the silicon one.
#include <algorithm>
#include <cmath>

#include "circuit/fixture.hpp"
#include "solve/solve.hpp"

using namespace towloom;

namespace {

double hottest_reading(const std::string& text) {
  fixture::Job job = fixture::built(text);
  REQUIRE(job.circuit);
  for (Wire& w : job.circuit->wires)
    if (!w.size && w.fixed_ohm < 0) w.size = parse_wire_size("16 AWG");
  const States states = solve_all(*job.circuit, *job.catalogue, *job.spec);
  double most = 0;
  for (const States::Backfeed& b : states.backfeed) most = std::max(most, std::fabs(b.hot_v));
  REQUIRE(states.hot.size() == states.scenes.size());
  return most;
}

}  // namespace

// Both tail lamps' blocks hang on the tail contact: twice the current of one, through 1 kohm.
TEST_CASE("with 1 kohm across, hot Schottky blocks let 1.26 V through and silicon ones 0.7 mV") {
  const std::string plain = fixture::plain_job();
  const double schottky = hottest_reading(fixture::changed(plain, "diode: silicon", "diode: low-drop")), silicon = hottest_reading(plain);
  CHECK(schottky / (2 * 0.631) == doctest::Approx(1).epsilon(0.01));
  CHECK(silicon / (2 * 3.59e-4) == doctest::Approx(1).epsilon(0.01));
}
