// Bulbs of SAE J573 (trade numbers) and UN Regulation 37 (categories), typed from the reference
// (electrical.md 3.1, 3.2; E30, E31). Lumens of J573 are 12.566 x mean spherical candela.
#include <cmath>
#include <string>

#include "catalogue/shipped.hpp"

using namespace towloom;
using towloom::testing::shipped;

namespace {

const Filament& filament(const std::string& bulb, const std::string& name) {
  CAPTURE(bulb);
  REQUIRE(shipped().bulbs.count(bulb) == 1);
  for (const Filament& f : shipped().bulbs.at(bulb).filaments)
    if (f.name == name) return f;
  FAIL("no filament '" << name << "'");
  return shipped().bulbs.at(bulb).filaments.front();
}

double watts(const Filament& f) { return f.volts * f.amps; }

}  // namespace

TEST_CASE("E30 bulb power of a 3157: 26.88 W and 8.26 W") {
  CHECK(watts(filament("3157", "bright")) == doctest::Approx(26.88).epsilon(1e-3));
  CHECK(watts(filament("3157", "dim")) == doctest::Approx(8.26).epsilon(1e-3));
}

TEST_CASE("E31 P21/5W: largest 26.5 W and 6.6 W, 440 lm and 35 lm, at 13.5 V") {
  const Filament &bright = filament("P21/5W", "bright"), &dim = filament("P21/5W", "dim");
  CHECK(bright.volts == 13.5);
  CHECK(dim.volts == 13.5);
  CHECK(watts(bright) == doctest::Approx(26.5).epsilon(1e-9));
  CHECK(watts(dim) == doctest::Approx(6.6).epsilon(1e-9));
  CHECK(bright.light_lm == 440);
  CHECK(dim.light_lm == 35);
}

TEST_CASE("3.2 worst-case current of a P21W: 1.963 A at 13.5 V") {
  CHECK(std::fabs(filament("P21W", "").amps - 1.963) < 5e-4);
}

TEST_CASE("UN R37 at 13.5 V: largest watts and lumens") {
  const struct {
    const char *bulb, *name;
    double watts, lumens;
  } rows[] = {{"P21W", "", 26.5, 460},         {"PY21W", "", 26.5, 280},   {"W21W", "", 26.5, 460},
              {"W21/5W", "bright", 26.5, 440}, {"W21/5W", "dim", 6.6, 35}, {"R5W", "", 5.5, 50},
              {"R10W", "", 11, 125},           {"W5W", "", 5.5, 50}};
  for (const auto& row : rows) {
    CAPTURE(row.bulb);
    const Filament& f = filament(row.bulb, row.name);
    CHECK(f.volts == 13.5);
    CHECK(watts(f) == doctest::Approx(row.watts).epsilon(1e-9));
    CHECK(f.light_lm == row.lumens);
  }
}

TEST_CASE("SAE J573: design volts, amps, mean spherical candela") {
  const struct {
    const char *bulb, *name;
    double volts, amps, candela;
  } rows[] = {{"1156", "", 12.8, 2.10, 32},       {"1157", "bright", 12.8, 2.10, 32},
              {"1157", "dim", 14.0, 0.59, 3},     {"2057", "bright", 12.8, 2.10, 32},
              {"2057", "dim", 14.0, 0.48, 2},     {"3156", "", 12.8, 2.10, 32},
              {"3157", "bright", 12.8, 2.10, 32}, {"3157", "dim", 14.0, 0.59, 3},
              {"3057", "bright", 12.8, 2.10, 32}, {"3057", "dim", 14.0, 0.48, 2},
              {"7440", "", 12.0, 1.75, 36.6},     {"7443", "bright", 12.0, 1.75, 35},
              {"7443", "dim", 12.0, 0.42, 2.8},   {"194", "", 14.0, 0.27, 2},
              {"168", "", 14.0, 0.35, 3},         {"67", "", 13.5, 0.59, 4}};
  for (const auto& row : rows) {
    CAPTURE(row.bulb);
    CAPTURE(row.name);
    const Filament& f = filament(row.bulb, row.name);
    CHECK(f.volts == doctest::Approx(row.volts).epsilon(1e-12));
    CHECK(f.amps == doctest::Approx(row.amps).epsilon(1e-12));
    CHECK(std::fabs(f.light_lm - 12.566 * row.candela) < 0.5);
  }
}

TEST_CASE("figures remembered and not read are flagged: most of R37, the older trade numbers") {
  CHECK_FALSE(filament("P21/5W", "bright").provenance.weak());
  for (const char* bulb : {"P21W", "W5W", "2057", "7440"})
    CHECK(shipped().bulbs.at(bulb).provenance.weak());
}
