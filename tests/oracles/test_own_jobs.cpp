// Function matrices of the jobs that are no survey: the scenes that tell most, written by hand from the trade's rules. All
// other scenes are held against what is required, by the rule that says a lamp differs.
#include <algorithm>
#include <set>

#include "oracles/matrix.hpp"

using namespace towloom;
using oracle::joined;
using oracle::Matrix;

namespace {

void check_rows(const Facts& facts, const Matrix& by_hand) {
  for (const auto& [scene, columns] : by_hand) {
    CAPTURE(scene);
    const auto at = std::find_if(facts.states.scenes.begin(), facts.states.scenes.end(), [&, &name = scene](const Scene& s) { return s.name == name; });
    REQUIRE(at != facts.states.scenes.end());
    const auto s = static_cast<std::size_t>(at - facts.states.scenes.begin());
    REQUIRE(facts.circuit().lamps.size() == columns.size());
    for (std::size_t l = 0; l < columns.size(); ++l) {
      CAPTURE(l);
      if (columns[l] != '?') CHECK(oracle::sign(facts.states.lamps[s][l].seen) == columns[l]);
    }
  }
}
void check_sound(const char* job, const Matrix& by_hand) {
  CAPTURE(job);
  const auto s = oracle::solved_text(oracle::job_text(job));
  check_rows(*s.facts, by_hand);
  for (const Finding& f : s.facts->findings) CHECK(f.rule != "lamp-differs");
}

}  // namespace

// Car's own: stop/turn L, R, tail L, R, untouched; bulbs: stop/turn L, tail L, stop/turn R, tail R, plate.
TEST_CASE("T02: added bulbs beside ground-switched lamps") {
  check_sound("city-car", {{"all off", "........."}, {"left", "....F...."}, {"right", "......F.."}, {"tail", ".....1.11"}, {"stop", "....1.1.."},
                           {"stop + left", "....F.1.."}, {"tail + stop + left", "....F1111"}, {"car: pedal", "11......."}, {"car: lamps", "..11....."}});
}

// Car's own on a data bus: stop L, R, turn L, R, tail L, R; bar: stop, turn, tail L, stop, turn, tail R, plate.
TEST_CASE("T03: a removable bar with separate signals beside bus lamps") {
  check_sound("bus-lamp-estate", {{"left", ".......F....."}, {"right", "..........F.."}, {"stop", "......1..1..."}, {"tail", "........1..11"},
                                  {"stop + hazard", "......1F.1F.."}, {"tail + stop + left", "......1F11.11"}, {"car: pedal", "11..........."}, {"car: lamps", "....11......."}});
}

// Stop L, R, turn L, R (amber), tail L, R, plate.
TEST_CASE("T08: a module with two tail inputs, lamp for lamp") {
  check_sound("led-estate", {{"left", "..F...."}, {"right", "...F..."}, {"stop", "11....."}, {"tail", "....111"}, {"stop + hazard", "11FF..."},
                             {"tail + stop + left", "11F.111"}, {"car: pedal", "11....."}, {"car: lamps", "....111"}, {"coach: tail", "......."}});
}

// Stop L, R, tail L, R, turn L, R (amber, dark), plate, high stop. Pedal pressed by the brake, cut-off closed at rest.
TEST_CASE("T10: field-effect for stop, battery-fed relays for tail") {
  check_sound("mixed-roadster", {{"left", "F......."}, {"right", ".F......"}, {"stop", "11......"}, {"tail", "..11..1."}, {"tail + stop + left", "F111..1."},
                                 {"stop + left, pedal pressed", "F1.....?"}, {"car: pedal", "11.....1"}, {"car: lamps", "..11..1."}, {"car: left", "....F..."}, {"coach: tail", "........"}});
  const auto s = oracle::solved_text(oracle::job_text("mixed-roadster"));
  const Circuit& c = s.facts->circuit();
  CHECK(joined(c, "J2.3.car", "D1.A1"));
  CHECK(joined(c, "J2.4.car", "D2.A1"));
  CHECK(joined(c, "J2.2.car", "K1.86"));
  CHECK(joined(c, "K1.30", "E3.feed"));
  CHECK(joined(c, "K1.87", "K2.87"));
  CHECK_FALSE(joined(c, "K1.87", "BAT.+"));   // behind its fuse
  CHECK_FALSE(joined(c, "J2.2.car", "K1.87"));
}

// Stop L, R, turn L, R (amber), tail L, R, plate.
TEST_CASE("T11: separate signals over the flat twelve-way") {
  check_sound("off-roader", {{"left", "..F...."}, {"right", "...F..."}, {"stop", "11....."}, {"tail", "....111"}, {"stop + hazard", "11FF..."},
                             {"tail + stop + left", "11F.111"}, {"left, engine off", "..F...."}, {"car: pedal", "11....."}, {"car: left", "..F...."}, {"coach: stop", "......."}});
}

// Stop/turn L, R, tail L, R, plate: the module makes one wire a side out of stop and turn.
TEST_CASE("T12: a powered module that combines stop and turn") {
  check_sound("box-van", {{"left", "F...."}, {"right", ".F..."}, {"stop", "11..."}, {"stop + left", "F1..."}, {"stop + right", "1F..."}, {"hazard", "FF..."},
                          {"stop + hazard", "FF..."}, {"tail", "..111"}, {"tail + stop + left", "F1111"}, {"car: pedal", "11..."}, {"car: left", "F...."}, {"coach: stop", "....."}});
}

// Stop/turn L, R, tail L, R, high stop. Nothing isolates: the idle turn switch joins both sides and the stop switch's node.
TEST_CASE("T13: tapped with nothing between, each vehicle feeds the other") {
  const auto s = oracle::solved_text(oracle::job_text("tapped-pickup"));
  check_rows(*s.facts, {{"all off", "....."}, {"left", "FF..F"}, {"right", "FF..F"}, {"stop", "11..1"}, {"stop + left", "11..1"}, {"hazard", "FF..F"},
                        {"tail", "..11."}, {"tail + left", "FF11F"}, {"pedal pressed", "11..1"}, {"car: left", "F...."}, {"car: lamps", "..11."}});
  std::set<std::string> rules;
  for (const Finding& f : s.facts->findings) rules.insert(f.rule);
  for (const char* rule : {"lamp-differs", "back-feed", "method-unsuited"}) CHECK(rules.count(rule) == 1);
  const Circuit& c = s.facts->circuit();
  CHECK(joined(c, "J2.3.car", "E1.feed"));
  CHECK(joined(c, "J2.4.car", "E2.feed"));
  CHECK(joined(c, "J2.2.car", "E3.feed"));
  CHECK(joined(c, "J2.2.car", "E4.feed"));
}

// Car's own on a controller: stop L, R, tail L, R; strips: stop, turn, tail L, stop, turn, tail R, plate.
TEST_CASE("T14: strips with amber turn lamps behind a heavy coach") {
  check_sound("bus-wagon", {{"left", ".....F....."}, {"right", "........F.."}, {"stop", "....1..1..."}, {"tail", "......1..11"}, {"stop + hazard", "....1F.1F.."},
                            {"tail + stop + left", "....1F11.11"}, {"car: lamps", "..11......."}, {"coach: stop", "..........."}});
}

// One side wired: the lamp of that side shows its signal, the other side's signal shows nowhere; tails share a node, so
// both light through the one diode.
TEST_CASE("one side wired: the other side's signal is lost, a shared tail lights by luck") {
  const auto s = oracle::solved_text(fixture::changed(oracle::job_text("workshop-special"), "isolation: {method: fused-diodes, diode: silicon, fuse: 5 A, plate: with left tail}",
                                                      "isolation: {method: single-sided, side: left}"));
  // Stop/turn L, R, tail L, R, plate: the idle turn switch hands the left signal on to the right.
  check_rows(*s.facts, {{"left", "FF..."}, {"right", "....."}, {"tail", "..111"}, {"stop", "11..."}});
  const Circuit& c = s.facts->circuit();
  CHECK(joined(c, "D1.K", "E1.feed"));
  CHECK_FALSE(joined(c, "D1.K", "E2.feed"));
  int diodes = 0;
  for (const Part& p : c.parts) diodes += p.kind == "diode";
  CHECK(diodes == 2);
}
