// Cords as they were metered, solved: what lights and what is said. Expected lamps by reasoning from the cores.
#include "check/fixture.hpp"

using namespace towloom;
using fixture::changed;
using fixture::checked;
using fixture::plain_job;

namespace {

std::string metered(const std::string& rows) { return changed(plain_job(), "cord: {length: 2.4 m,", "cord: {length: 2.4 m, continuity: {" + rows + "},"); }

// Lamps that light or flash in a scene, by name of the survey's rows.
std::string lit(const fixture::Checked& c, const std::string& scene) {
  std::string out;
  for (std::size_t s = 0; s < c.facts->states.scenes.size(); ++s) {
    if (c.facts->states.scenes[s].name != scene) continue;
    for (std::size_t l = 0; l < c.facts->circuit().lamps.size(); ++l) {
      const Part& lamp = c.facts->circuit().part(c.facts->circuit().lamps[l].lamp);
      const Seen seen = c.facts->states.lamps[s][l].seen;
      if (seen == Seen::lit || seen == Seen::flash)
        out += (out.empty() ? "" : ", ") + std::string(lamp.side == Side::left ? "left " : lamp.side == Side::right ? "right " : "") + lamp.title;
    }
  }
  return out;
}

}  // namespace

TEST_CASE("left and right crossed in the cord: left lights right, right lights left, and both cores are named") {
  const auto c = checked(metered("\"3\": \"4\", \"4\": \"3\""));
  CHECK(lit(c, "left") == "right stop-turn");
  CHECK(lit(c, "right") == "left stop-turn");
  CHECK(lit(c, "tail") == "left tail, right tail, plate");
  REQUIRE(c.has("crossed-core"));
  CHECK(c.finding("crossed-core")->severity == Severity::error);
  CHECK(c.finding("crossed-core")->place.known());
  CHECK(c.finding("crossed-core")->message == "a core joins contact 3 of the outlet (left) to contact 4 of the inlet, which is for right");
  CHECK(c.finding("crossed-core")->action == "move it to contact 3, left stop/turn");
  CHECK(c.has("lamp-differs"));
}

TEST_CASE("sizes are found for the cord as it should be: a crossed one changes none") {
  const auto right = checked(plain_job()), crossed = checked(metered("\"3\": \"4\", \"4\": \"3\""));
  REQUIRE(right.facts->circuit().wires.size() == crossed.facts->circuit().wires.size());
  for (std::size_t w = 0; w < right.facts->circuit().wires.size(); ++w)
    CHECK(right.facts->circuit().wires[w].size == crossed.facts->circuit().wires[w].size);
}

TEST_CASE("tail and left crossed: the tail switch lights the left stop/turn lamp") {
  const auto c = checked(metered("\"2\": \"3\", \"3\": \"2\""));
  CHECK(lit(c, "tail") == "left stop-turn");
  CHECK(lit(c, "left") == "left tail, right tail, plate");
}

TEST_CASE("a core that leads nowhere: its lamp stays dark, and it is named") {
  const auto c = checked(metered("\"3\": none"));
  CHECK(lit(c, "left") == "");
  CHECK(lit(c, "right") == "right stop-turn");
  REQUIRE(c.has("crossed-core"));
  CHECK(c.finding("crossed-core")->message == "no core leads from contact 3 of the outlet (left) to contact 3 of the inlet");
}

TEST_CASE("a live charge core on the right lamp's contact: the lamp burns all the time") {
  std::string text = changed(plain_job(), "outlet: flat-4, left of receiver", "outlet: blade-7");
  text = changed(text, "inlet: {form: flat-4, half: trailer,", "inlet: {form: round-6,");
  text = changed(text, "\"2\": {does: tail,", "TAIL: {does: tail,");
  text = changed(text, "\"3\": {does: left,", "LT: {does: left,");
  text = changed(text, "\"4\": {does: right,", "RT: {does: right,");
  text = changed(text, "cord: {length: 2.4 m,", "cord: {length: 2.4 m, continuity: {BAT: RT},");
  const auto c = checked(text);
  CHECK(lit(c, "all off") == "right stop-turn");
  CHECK(c.has("crossed-core"));
}

TEST_CASE("a cord metered as it should be says nothing and changes nothing") {
  const auto c = checked(metered("\"1\": \"1\", \"2\": \"2\", \"3\": \"3\", \"4\": \"4\""));
  CHECK_FALSE(c.has("crossed-core"));
  CHECK(lit(c, "left") == "left stop-turn");
}

TEST_CASE("thirteen to seven and one tail lead for two sides: every lamp does what it should") {
  const auto wagon = checked(fixture::bare(changed(fixture::job_file("medium-wagon"), "inlet: {form: iso-13,", "inlet: {form: iso-12n,")));
  CHECK_FALSE(wagon.has("lamp-differs"));
  CHECK(lit(wagon, "left") == "left turn");
  std::string text = changed(plain_job(), "outlet: flat-4, left of receiver", "outlet: blade-7");
  text = changed(text, "inlet: {form: flat-4, half: trailer,", "inlet: {form: iso-12n,");
  text = changed(text, "\"2\": {does: tail,", "TAIL: {does: tail,");
  text = changed(text, "\"3\": {does: left,", "LT: {does: left,");
  text = changed(text, "\"4\": {does: right,", "RT: {does: right,");
  const auto split = checked(text);
  CHECK_FALSE(split.has("lamp-differs"));
  CHECK(lit(split, "tail") == "left tail, right tail, plate");
}

TEST_CASE("a contact that the job uses otherwise is solved as stated and named with the reason") {
  const auto c = checked(changed(fixture::job_file("mixed-hatchback"), "inlet: {form: round-6,", "inlet: {form: round-6, pins: {S: aux}, why: former owner's radio,"));
  REQUIRE(c.has("pins-differ"));
  CHECK(c.finding("pins-differ")->message ==
        "contact 5 of the inlet carries auxiliary in this job; a six-way round has electric brake there: former owner's radio");
  CHECK(c.finding("pins-differ")->severity == Severity::warning);
}

// connectors.md check 6: of a flat four the trailer half has three bare pins, the live half only its ground. With the
// live half at the car the cord's end there is a trailer half, and its pins 2, 3 and 4 are live while it hangs.
TEST_CASE("an inlet of the half that belongs on the coach is named, with what then stands bare") {
  const auto c = checked(changed(plain_job(), "half: trailer", "half: live"));
  REQUIRE(c.has("half-unusual"));
  CHECK(c.finding("half-unusual")->message.find("contacts 2, 3, 4 of the cord's end stand bare") != std::string::npos);
  CHECK(checked(changed(plain_job(), "outlet: flat-4, left of receiver", "outlet: {form: flat-4, half: trailer, at: left of receiver}"))
            .has("half-unusual"));
  CHECK_FALSE(checked(plain_job()).has("half-unusual"));
}
