// The back-feed lines of `check`: leakage of table 4.2 of the electrical reference through 1 kohm.
#include "check/fixture.hpp"

using namespace towloom;

// One Schottky block leaks 15.0 uA at 27 °C and 631 uA at 85 °C (DSB, electrical.md 4.2); both tail blocks hang on the
// tail contact and, at the cut, on the car's tail node: twice that through 1 kohm.
TEST_CASE("check says how much arrives each way, where, and how much with diodes hot") {
  const std::string said = matrix_text(fixture::checked(fixture::changed(fixture::plain_job(), "diode: silicon", "diode: low-drop")).facts.value());
  CHECK(said.find("car to coach              30.000 mV at J2 contact 2 in scene 'car: lamps'") != std::string::npos);
  CHECK(said.find("car to coach, diodes hot  1.26") != std::string::npos);
  CHECK(said.find("coach to car              30.000 mV at car side of cut") != std::string::npos);
  CHECK(said.find("coach to car, diodes hot  1.26") != std::string::npos);
}
