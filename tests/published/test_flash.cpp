// Check values 18 to 20 of the connector reference: the worked cases of two NHTSA letters (2002 and 2003) on SAE J945
// (Feb 1966) paragraph 3: the mean of the rates of the cycles; 60 to 120 a minute, fixed-load flashers 90 to 120.
#include <cmath>

#include "catalogue/shipped.hpp"
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
