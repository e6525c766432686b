// What every lamp of the plain job must do, written by hand from the survey and the function matrix of the
// trade (both-ways diodes, combined signals), by scene.
#include <doctest/doctest.h>

#include <map>

#include "check/check.hpp"
#include "oracles/matrix.hpp"

using namespace towloom;

namespace {

// Columns: stop/turn left, stop/turn right, tail left, tail right, plate, high stop, reverse.
// 1 lit, F flashing, . dark, ? either.
const std::map<std::string, std::string> unpressed = {
    {"all off", "......."},
    {"tail", "..111.."},
    {"left", "F......"},
    {"right", ".F....."},
    {"stop", "11....."},
    {"stop + left", "F1....."},
    {"stop + right", "1F....."},
    {"hazard", "FF....."},
    {"tail + left", "F.111.."},
    {"tail + right", ".F111.."},
    {"tail + stop", "11111.."},
    {"tail + stop + left", "F1111.."},
    {"tail + stop + right", "1F111.."},
    {"tail + hazard", "FF111.."},
    {"car: lamps", "..111.."},
    {"car: pedal", "11...1."},
    {"car: left", "F......"},
    {"car: right", ".F....."},
    {"car: hazard", "FF....."},
    {"car: pedal + left", "F1...1."},
    {"car: pedal + right", "1F...1."},
    {"car: lamps + pedal", "111111."},
    {"car: lamps + left", "F.111.."},
    {"car: lamps + right", ".F111.."},
    {"car: reverse", "......1"},
    {"car: lamps + reverse", "..111.1"},
    {"car: pedal + reverse", "11...11"},
    {"car: reverse + left", "F.....1"},
    {"car: reverse + right", ".F....1"},
};

Facts facts_of(fixture::Job& job) {
  auto facts = find_facts(*job.spec, *job.catalogue, job.diagnostics);
  REQUIRE(facts.has_value());
  return std::move(*facts);
}

}  // namespace

TEST_CASE("every scene shows what the hand-written matrix says, required and solved") {
  fixture::Job job = fixture::built(fixture::plain_job());
  const Facts facts = facts_of(job);
  oracle::Matrix by_hand = unpressed;
  oracle::press_pedal(by_hand, "??...?.");
  oracle::add_dark(by_hand);
  oracle::check_matrix(facts, by_hand);   // survey order: stop/turn L, R, tail L, R, plate, high stop, reverse
}

TEST_CASE("without the car-side diode one turn signal lights both stop/turn lamps and the high stop") {
  fixture::Job job = fixture::built(fixture::plain_job());
  Facts facts = facts_of(job);
  Circuit circuit = facts.circuit();
  for (Part& part : circuit.parts) {
    if (part.kind != "diode-pair") continue;
    REQUIRE(part.terminals[1] == "A2");
    Element joined;  // the tap: car side and lamp side as one
    joined.law = Law::resistor;
    joined.a = 1;
    joined.b = 2;
    joined.ohm = 0.001;
    part.elements[1] = joined;
  }
  const States states = solve_all(circuit, *job.catalogue, *job.spec);
  bool found = false;
  for (std::size_t s = 0; s < states.scenes.size(); ++s) {
    if (states.scenes[s].name != "left") continue;
    found = true;
    CHECK(states.lamps[s][0].seen == Seen::flash);
    CHECK(states.lamps[s][1].seen == Seen::flash);
    CHECK(states.lamps[s][5].seen == Seen::flash);
    CHECK(states.lamps[s][2].seen == Seen::dark);
  }
  CHECK(found);
}
