// The generic diode models as the check decks state them (electrical.md 4.2, 11.1: .model DSI, DSB
// at 27 degrees; energy gap and saturation exponent of silicon are the solver's own defaults
// there).
#include "catalogue/shipped.hpp"

using namespace towloom;
using towloom::testing::shipped;

namespace {

void check_model(const char* name, double is, double n, double rs, double eg, double xti) {
  CAPTURE(name);
  REQUIRE(shipped().diodes.count(name) == 1);
  const DiodeModel& d = shipped().diodes.at(name);
  CHECK(d.is == doctest::Approx(is).epsilon(1e-12).scale(0));
  CHECK(d.n == n);
  CHECK(d.rs == doctest::Approx(rs).epsilon(1e-12));
  CHECK(d.eg == eg);
  CHECK(d.xti == xti);
}

}  // namespace

TEST_CASE("silicon is the model DSI, low-drop the model DSB") {
  check_model("silicon", 5e-9, 1.75, 0.015, 1.11, 3);
  check_model("low-drop", 1.5e-5, 1.25, 0.03, 0.69, 2);
}

TEST_CASE("E35 silicon bolted to metal: 20 K/W") {
  CHECK(shipped().diodes.at("silicon").thermal.k_per_w.at("on metal") == 20);
}

TEST_CASE("electrical.md 4.3 hottest junction: silicon 150, Schottky 125 degrees") {
  CHECK(shipped().diodes.at("silicon").thermal.hottest_c == 150);
  CHECK(shipped().diodes.at("low-drop").thermal.hottest_c == 125);
}
