// Function matrices of the jobs that are no survey: the scenes that tell most, written by hand from the trade's rules. All
// other scenes are held against what is required, by the rule that says a lamp differs.
#include <algorithm>
#include <cmath>
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

// Stop L, R, tail L, R, turn L, R (amber, dark), plate. The cut-off's contact is open while the key is out: a pressed pedal
// cannot reach the lamps; driven with the key on, they work.
TEST_CASE("T15: stop pair, a cut-off that rests open, charge and brake signal over second plugs") {
  check_sound("touring-sedan", {{"all off", "......."}, {"left", "F......"}, {"right", ".F....."}, {"stop", "11....."}, {"tail", "..11..1"}, {"tail + stop + left", "F111..1"},
                                {"stop + left, pedal pressed", "F1....."}, {"car: pedal", "11....."}, {"car: lamps", "..11..1"}, {"car: left", "....F.."}, {"coach: tail", "......."}});
  const auto s = oracle::solved_text(oracle::job_text("touring-sedan"));
  const Circuit& c = s.facts->circuit();
  CHECK(joined(c, "K1.87", "E1.feed") == false);
  CHECK(joined(c, "J3.1.cord", "J4.1.cord"));
  CHECK(joined(c, "J3.2.cord", "J4.2.cord"));
  CHECK(joined(c, "J5.1.cord", "J6.1.cord"));
  CHECK_FALSE(joined(c, "J4.2.car", "J4.1.car"));
  const auto core = [&](const char* id) { return *std::find_if(c.wires.begin(), c.wires.end(), [&](const Wire& w) { return w.id == id; }); };
  CHECK(core("C3.1").size->text() == "10 AWG");
  CHECK(core("C3.1").length_m == doctest::Approx(2.6));
  CHECK(core("C5.1").size->text() == "14 AWG");   // as the main cord, where the plug says nothing
  CHECK(core("C5.1").length_m == doctest::Approx(2.4));
  // Complaint of a dead plug: with the cords out nothing stands on the charge plug, and the brake's unit is quiet.
  for (const States::Backfeed& b : s.facts->states.backfeed) CHECK(b.loaded_v < 0.1);
}

// Stop L, R, turn L, R, tail L, R, fog R, reverse L, plate: reverse comes over 12S, all else over 12N.
TEST_CASE("T16: separate signals over 12N, reverse and supply over 12S") {
  check_sound("european-estate", {{"left", "..F......"}, {"right", "...F....."}, {"stop", "11......."}, {"tail", "....11..1"}, {"stop + hazard", "11FF....."},
                                  {"tail + stop + left", "11F.11..1"}, {"fog", "......1.."}, {"reverse", ".......1."}, {"car: pedal", "11......."}, {"car: reverse", ".......1."},
                                  {"coach: stop", "........."}});
  const auto s = oracle::solved_text(oracle::job_text("european-estate"));
  const Circuit& c = s.facts->circuit();
  CHECK(joined(c, "J4.1.car", "D8.A1"));
  CHECK(joined(c, "J2.2.car", "D7.A1"));
  CHECK(joined(c, "J4.4.car", "K1.in"));
  CHECK_FALSE(joined(c, "J2.1.car", "J4.1.car"));   // contact 1 of both plugs
  CHECK_FALSE(c.find("J4.6"));                       // nothing of this job comes over it
}

// Stop/turn L, R, tail L, R, plate: the idle turn switch hands the left signal on to the right, whose own shows nowhere.
TEST_CASE("T17: one side wired, and a breaker that keeps nothing from the plug") {
  const auto s = oracle::solved_text(oracle::job_text("inherited-runabout"));
  check_rows(*s.facts, {{"all off", "....."}, {"left", "FF..."}, {"right", "....."}, {"stop", "11..."}, {"stop + left", "FF..."}, {"stop + right", "11..."},
                        {"hazard", "FF..."}, {"tail", "..111"}, {"tail + left", "FF111"}, {"car: left", "F...."}, {"car: right", ".F..."}, {"car: pedal", "11..."}, {"car: lamps", "..111"}});
  std::set<std::string> rules;
  for (const Finding& f : s.facts->findings) rules.insert(f.rule);
  for (const char* rule : {"lamp-differs", "back-feed", "method-unsuited"}) CHECK(rules.count(rule) == 1);
  bool live = false;
  for (const States::Backfeed& b : s.facts->states.backfeed)
    if (s.facts->circuit().probes[static_cast<std::size_t>(b.probe)].name == "J2 contact 6") live = live || b.loaded_v > 12;
  CHECK(live);
  const auto fed = std::find_if(s.facts->findings.begin(), s.facts->findings.end(), [](const Finding& f) { return f.rule == "back-feed" && f.message.find("J2 contact 6") != std::string::npos; });
  REQUIRE(fed != s.facts->findings.end());
  CHECK(fed->severity == Severity::error);
  CHECK(fed->action.find("a breaker and a plain wire let the battery back") != std::string::npos);
}

// Stop/turn L, R, tail L, R, plate, high stop: as by two-way diodes. Each lamp is parted at its plug; cut is the plate's
// branch alone.
TEST_CASE("T18: a harness between the lamps and their own plugs") {
  check_sound("leased-hatchback", {{"all off", "......"}, {"left", "F....."}, {"right", ".F...."}, {"stop", "11...."}, {"stop + left", "F1...."}, {"hazard", "FF...."}, {"tail", "..111."},
                                   {"tail + left", "F.111."}, {"car: pedal", "11...1"}, {"car: left", "F....."}, {"car: lamps", "..111."}, {"coach: tail", "......"}});
  const auto s = oracle::solved_text(oracle::job_text("leased-hatchback"));
  int plugs = 0, cuts = 0;
  for (const CutPoint& cut : s.facts->circuit().cuts) ++(cut.plug ? plugs : cuts);
  CHECK(plugs == 4);
  CHECK(cuts == 1);
}

// Stop/turn L, R, tail L, R, plate, high stop. A meter on the outlet reads the mean of the pulses: 12.3 V open at 86 % come
// from 12.3 / 0.86 = 14.30 V, whose RMS is 14.30 sqrt(0.86) = 13.26 V. No lamp can have more, and a filament has more than
// the mean that a meter shows beside it: by 1 / sqrt(0.86), 7.8 %, as both stand at the same two ends.
TEST_CASE("T19: pulsed outputs through field-effect modules") {
  check_sound("pulsed-hatchback", {{"all off", "......"}, {"left", "F....."}, {"right", ".F...."}, {"stop", "11...."}, {"stop + left", "F1...."}, {"hazard", "FF...."}, {"tail", "..111."},
                                   {"tail + stop + left", "F1111."}, {"car: pedal", "11...1"}, {"car: left", "F....."}, {"car: lamps", "..111."}, {"coach: tail", "......"}});
  const auto s = oracle::solved_text(oracle::job_text("pulsed-hatchback"));
  std::set<std::string> rules;
  for (const Finding& f : s.facts->findings) {
    rules.insert(f.rule);
    CHECK(f.severity != Severity::error);
  }
  CHECK(rules.count("pulsed-isolator") == 1);   // the modules' own supply pulses
  CHECK(rules.count("pulsed-coil") == 0);       // and no contact follows it
  const States& states = s.facts->states;
  for (std::size_t scene = 0; scene < states.scenes.size(); ++scene) {
    if (states.scenes[scene].name != "tail") continue;
    for (const std::size_t filament : {2, 3}) {
      const LampState& lamp = states.lamps[scene][filament];
      CAPTURE(filament);
      CHECK(lamp.volts < 13.26);
      CHECK(lamp.volts / lamp.meter_v == doctest::Approx(1 / std::sqrt(0.86)).epsilon(0.001));
    }
    const LampState& led = states.lamps[scene][4];   // an LED's light follows the mean
    CHECK(led.volts == doctest::Approx(led.meter_v));
  }
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
