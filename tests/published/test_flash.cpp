// Check values 18 to 20 of the connector reference: the worked cases of two NHTSA letters (2002 and 2003) on SAE J945
// (Feb 1966) paragraph 3: the mean of the rates of the cycles; 60 to 120 a minute, fixed-load flashers 90 to 120.
#include <cmath>

#include "catalogue/shipped.hpp"
#include "check/fixture.hpp"
#include "check/flash.hpp"

using namespace towloom;
using towloom::testing::shipped;
using Cycles = std::vector<std::pair<double, double>>;

namespace {

bool in_range(double rate, const char* kind) {
  const FlashLimits limits = flash_limits(kind, shipped());
  return rate >= limits.least && rate <= limits.most;
}

}  // namespace

TEST_CASE("18: 160/200, 160/200 and 160/620 ms beat 136.8 times a minute: too fast") {
  const double rate = flash_rate(Cycles{{0.160, 0.200}, {0.160, 0.200}, {0.160, 0.620}});
  CHECK(std::fabs(rate - 136.8) < 0.05);
  CHECK_FALSE(in_range(rate, "variable load"));
}

TEST_CASE("19: 200/250, 200/250 and 200/850 ms beat 107.9 times a minute: in range") {
  const double rate = flash_rate(Cycles{{0.200, 0.250}, {0.200, 0.250}, {0.200, 0.850}});
  CHECK(std::fabs(rate - 107.9) < 0.05);
  CHECK(in_range(rate, "variable load"));
}

TEST_CASE("20: 80 a minute is too slow for a flasher of fixed load and right for one of variable load") {
  CHECK_FALSE(in_range(80, "fixed load"));
  CHECK(in_range(80, "variable load"));
}

// SAE J945 as NHTSA quotes it; UN R48: 90 +- 30 a minute (three texts, among them the Swiss VTS article 79).
TEST_CASE("E42 60 to 120 a minute of variable load, 90 to 120 of fixed load; the UN's 90 +- 30 is the former") {
  for (const double rate : {60.0, 90.0 - 30, 90.0 + 30, 120.0}) CHECK(in_range(rate, "variable load"));
  for (const double rate : {59.9, 120.1}) CHECK_FALSE(in_range(rate, "variable load"));
  for (const double rate : {90.0, 120.0}) CHECK(in_range(rate, "fixed load"));
  for (const double rate : {89.9, 120.1}) CHECK_FALSE(in_range(rate, "fixed load"));
}

// SAE J945, summary: on average at most 0.5 V in the on-time, none above 0.8 V. With 20 mohm the car's flasher, which
// stands in its turn switch, is a good one; it may not count for nothing either.
TEST_CASE("E43 the car's flasher loses at most 0.5 V with its lamp lit") {
  const auto c = fixture::checked(fixture::plain_job());
  const Circuit& circuit = c.facts->circuit();
  const Points points = number_points(circuit);
  int asked = 0;
  for (std::size_t s = 0; s < c.facts->states.scenes.size(); ++s)
    for (const char* side : {"left", "right"}) {
      if (c.facts->states.scenes[s].name != std::string("car: ") + side) continue;
      const auto volts = [&](const std::string& terminal) {
        return c.facts->states.solved[s].phase[0].volts[static_cast<std::size_t>(points.at(circuit.terminal(terminal)))];
      };
      const double lost = volts("TURN.supply") - volts(std::string("TURN.") + side);
      CHECK(lost > 0.01);
      CHECK(lost <= 0.5);
      ++asked;
    }
  CHECK(asked == 2);
}
