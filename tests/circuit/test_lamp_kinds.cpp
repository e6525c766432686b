// Lamps and outputs as a job states them.
#include "circuit/fixture.hpp"

using namespace towloom;

namespace {

const Element& lamp_of(const Circuit& c, const char* id) { return c.part(c.find(id)).elements[0]; }

}  // namespace

// A switching driver holds its watts: 4 W are 0.3125 A at 12.8 V. Vehicle lamps must work from 9 V (ISO 16750-2 code C).
TEST_CASE("an LED lamp stated by its watts takes them at any volts") {
  const auto job = fixture::built(fixture::changed(fixture::plain_job(), "chmsl: LED 0.25 A", "chmsl: LED 4 W from 9 V"));
  REQUIRE(job.circuit);
  const Element& e = lamp_of(*job.circuit, "E6");
  CHECK(e.law == Law::power);
  CHECK(e.volts * e.amps == doctest::Approx(4));
  CHECK(e.amps == doctest::Approx(0.3125));
  CHECK(e.threshold_v == 9);
}

TEST_CASE("watts are for LEDs: a bulb is named by its category or its current") {
  Sources sources;
  Diagnostics diagnostics;
  const std::string text = fixture::changed(fixture::plain_job(), "chmsl: LED 0.25 A", "chmsl: LED 4 volts");
  const int file = sources.add("job.yaml", text);
  const auto root = read_yaml(file, sources, diagnostics);
  REQUIRE(root);
  CHECK_FALSE(read_job(*root, file, diagnostics));
  REQUIRE(diagnostics.has_errors());
  CHECK(diagnostics.all()[0].hint.find("LED 3.2 W from 9 V") != std::string::npos);
}

// Pull-up of the 2 to 10 kohm class while the output is off (electrical reference 5.3), only in cars that check so.
TEST_CASE("a car that checks its lamps by pulses while they are off pulls each output up") {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs" / "low-coupe.yaml");
  std::ostringstream text;
  text << in.rdbuf();
  const auto count = [](const std::string& job_text) {
    const auto job = fixture::built(job_text);
    REQUIRE(job.circuit);
    int out = 0;
    for (const Part& p : job.circuit->parts)
      for (const Element& e : p.elements) out += p.kind == "controller-output" && e.gate == Gate::idle && e.ohm == 10000;
    return out;
  };
  CHECK(count(text.str()) == 5);   // one node each: two stop/turn, two tail with the plate on the left one (survey S11), high stop
  CHECK(count(fixture::changed(text.str(), "monitoring: off-pulse", "monitoring: none")) == 0);
}
