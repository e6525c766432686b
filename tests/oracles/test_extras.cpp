// Extras held to what the trade asks of them, by hand.
#include <algorithm>

#include "oracles/matrix.hpp"
#include "size/protect.hpp"

using namespace towloom;

namespace {

// Least and most volts between two terminals over the flash of one scene.
struct Span {
  double least = 1e9, most = -1e9;
};
Span volts(const Facts& facts, const std::string& scene, const std::string& plus, const std::string& minus) {
  const Circuit& c = facts.circuit();
  const Points points = number_points(c);
  const auto at = [&](const std::string& name) {
    REQUIRE_MESSAGE(bool(c.terminal(name).part), name);
    return static_cast<std::size_t>(points.at(c.terminal(name)));
  };
  Span out;
  for (std::size_t s = 0; s < facts.states.scenes.size(); ++s) {
    if (facts.states.scenes[s].name != scene) continue;
    const Solved& solved = facts.states.solved[s];
    for (int p = 0; p < solved.phases; ++p) {
      const auto& v = solved.phase[static_cast<std::size_t>(p)].volts;
      out.least = std::min(out.least, v[at(plus)] - v[at(minus)]);
      out.most = std::max(out.most, v[at(plus)] - v[at(minus)]);
    }
  }
  REQUIRE(out.most > -1e8);
  return out;
}

std::string plain_with(const std::string& extra) {
  return fixture::changed(fixture::changed(fixture::plain_job(), "runs:\n", "extras:\n  " + extra + "\nruns:\n  battery: {from: left grommet, to: battery, length: 1 m}\n"),
                          "wire: {standard: AWG, lamps: auto ribbon of 4}", "wire: {standard: AWG, lamps: 14 AWG ribbon of 4}");
}

}  // namespace

// Trade: left AND right by two relays in series, never two diodes, or the brake pulses with every turn signal.
TEST_CASE("brake signal from left and right: quiet with a turn signal, on with the brake") {
  const auto s = oracle::solved_text(plain_with("brake signal from left and right: {unit-at: left grommet}"));
  const auto span = [&](const char* scene) { return volts(*s.facts, scene, "B1.supply", "B1.ground"); };
  CHECK(span("stop").least > 10);
  CHECK(span("left").most < 0.1);
  CHECK(span("right").most < 0.1);
  CHECK(span("tail").most < 0.1);
  // Braking while turning it comes and goes: a limit that the extra's own caution names.
  CHECK(span("stop + left").least < 0.1);
  CHECK(span("stop + left").most > 10);
  for (std::size_t scene = 0; scene < s.facts->states.scenes.size(); ++scene)
    CHECK(s.facts->states.solved[scene].chatter.empty());
}

// Trade: the pulled pin drives the unit from the battery whatever the coach does; with the pin in the unit is dead.
TEST_CASE("break-away switch: dead with the pin in") {
  const auto s = oracle::solved_text(plain_with("break-away switch: {unit-at: left grommet}"));
  CHECK(volts(*s.facts, "stop", "B1.supply", "B1.ground").most < 0.1);
  Scene pulled{"pin out", "towing", "the car has parted from the coach", {{"car.break-away", Wave::on}}};
  const Circuit& c = s.facts->circuit();
  const Points points = number_points(c);
  const Solved solved = solve(c, *s.job.catalogue, pulled);
  REQUIRE(solved.converged());
  const auto& v = solved.phase[0].volts;
  CHECK(v[static_cast<std::size_t>(points.at(c.terminal("B1.supply")))] - v[static_cast<std::size_t>(points.at(c.terminal("B1.ground")))] > 10);
}

// By hand: 47 ohm at some 12.9 V draw 0.27 A on their own side only.
TEST_CASE("detection load: draws on its own signal, returns on the coach's white") {
  const auto s = oracle::solved_text(plain_with("detection load: {load: 47 ohm}"));
  const Span left = volts(*s.facts, "left", "R1.1", "R1.2"), other = volts(*s.facts, "left", "R2.1", "R2.2");
  CHECK(left.most == doctest::Approx(13).epsilon(0.05));
  CHECK(left.least < 0.1);
  CHECK(other.most < 0.1);
  CHECK(oracle::joined(s.facts->circuit(), "R1.2", "J2.1.car"));
  CHECK(oracle::joined(s.facts->circuit(), "R2.2", "J2.1.car"));
}

// Each limiter between the charge contact and the battery: current flows towards the battery; with the cord out only
// what blocks back keeps the car's battery from the plug (trade: diode, relay, charger, field-effect do; a breaker and
// a plain wire do not).
TEST_CASE("charge line: every limiter, and which of them leave the plug live") {
  const struct { const char* limiter; bool live; } rows[] = {{"diode", false}, {"sensing-relay", false}, {"charger", false}, {"field-effect", false},
                                                             {"breaker", true}, {"none", true}};
  for (const auto& row : rows) {
    CAPTURE(row.limiter);
    const std::string text = fixture::changed(oracle::job_text("mended-hatchback"), "charge line: {limiter: diode, diode: low-drop, fuse: 15 A}",
                                              std::string("charge line: {limiter: ") + row.limiter + ", fuse: 10 A}");
    const auto s = oracle::solved_text(text);
    bool live = false;
    for (const States::Backfeed& b : s.facts->states.backfeed)
      if (s.facts->circuit().probes[static_cast<std::size_t>(b.probe)].name == "J2 contact 6") live = live || b.loaded_v > 10;
    CHECK(live == row.live);
  }
}

// Trade: the monitor comes from the brake itself or the switch side of a cut-off: it shows the brake whatever the lamps do.
// S11: the brake presses the pedal; S06: the pressure switch closes. The lamp in the coach hangs on the centre pin.
TEST_CASE("brake monitor: on in the coach while the brake works, and only then") {
  const auto with_monitor = [](const char* fed) {
    return oracle::solved_text(fixture::changed(oracle::job_text("low-coupe"), "brake monitor: {fed-by: coach,", "brake monitor: {fed-by: " + std::string(fed) + ","));
  };
  const auto coupe = with_monitor("car");
  const auto there = [](const oracle::Solved& s, const char* scene) { return volts(*s.facts, scene, "COACH.monitor", "COACH.ground"); };
  CHECK(there(coupe, "stop, pedal pressed").least > 10);
  CHECK(there(coupe, "pedal pressed").least > 10);
  CHECK(there(coupe, "stop").most < 0.1);
  CHECK(there(coupe, "left").most < 0.1);
  const auto pickup = oracle::solved_text(oracle::job_text("large-pickup"));
  CHECK(there(pickup, "stop").least > 10);
  CHECK(there(pickup, "left").most < 0.1);
  CHECK(there(pickup, "tail").most < 0.1);
  CHECK(there(with_monitor("coach"), "stop, pedal pressed").least > 10);
  // Fed by the car it works in S06 too: the coach's charge line keeps that wire live though the negative is open.
  const auto by_car = oracle::solved_text(fixture::changed(oracle::job_text("large-pickup"), "fed-by: coach, ", ""));
  CHECK(there(by_car, "stop").least > 10);
}

// A fuse that is out in tow. By hand: the load that keeps the car awake is dead with the switch on TOW, live on DRIVE.
TEST_CASE("fuse-and-switch loop: dead in tow, live when driven, or the other way round") {
  const auto load = [](const oracle::Solved& s) {
    for (const Part& p : s.facts->circuit().parts)
      if (p.model == "kept-awake") return p.id;
    return std::string();
  };
  const std::string text = oracle::job_text("mixed-hatchback");
  const auto dead = oracle::solved_text(text), live = oracle::solved_text(fixture::changed(text, "loop: {fuse: 10 A,", "loop: {fuse: 10 A, in-tow: live,"));
  for (const auto* s : {&dead, &live}) {
    const std::string id = load(*s);
    REQUIRE_FALSE(id.empty());
    const bool in_tow = s == &live;
    CHECK((volts(*s->facts, "tail", id + ".supply", id + ".ground").least > 10) == in_tow);
    CHECK((volts(*s->facts, "car: lamps", id + ".supply", id + ".ground").least > 10) == !in_tow);
  }
}

// Survey S04: contact 12 tied to contact 3 in the inlet. By hand: the coach's input reads ground with the cord in and its
// own 12 V behind a large resistor with it out.
TEST_CASE("trailer presence: the coding contact is on the lamps' ground, seen by the coach") {
  const auto s = oracle::solved_text(oracle::job_text("medium-wagon"));
  CHECK(oracle::joined(s.facts->circuit(), "J2.12.car", "J2.3.car"));
  CHECK(volts(*s.facts, "all off", "COACH.coding", "COACH.ground").most < 0.5);
  CHECK(volts(*s.facts, "coach: stop", "COACH.coding", "COACH.ground").least > 12);
  CHECK(oracle::has_wire(s.facts->circuit(), "J2.12.car", "J2.3.car", "GY"));
}

// By hand: lamps with a live feed light when the relay closes their return; nothing else of the car comes on.
TEST_CASE("T09: relays in the returns of ground-switched lamps") {
  const auto s = oracle::solved_text(oracle::job_text("old-coupe"));
  oracle::Matrix m = {
      {"all off", "....."}, {"tail", "..111"}, {"left", "F...."}, {"right", ".F..."}, {"stop", "11..."},
      {"stop + left", "F1..."}, {"stop + right", "1F..."}, {"hazard", "FF..."},
      {"tail + left", "F.111"}, {"tail + right", ".F111"}, {"tail + stop", "11111"},
      {"tail + stop + left", "F1111"}, {"tail + stop + right", "1F111"}, {"tail + hazard", "FF111"},
      {"car: lamps", "..111"}, {"car: pedal", "11..."}, {"car: left", "F...."}, {"car: right", ".F..."},
      {"car: hazard", "FF..."}, {"car: pedal + left", "F1..."}, {"car: pedal + right", "1F..."},
      {"car: lamps + pedal", "11111"}, {"car: lamps + left", "F.111"}, {"car: lamps + right", ".F111"},
      {"coach: tail", "....."}, {"coach: stop", "....."}};
  oracle::add_dark(m);
  oracle::check_matrix(*s.facts, m);
  const Circuit& c = s.facts->circuit();
  CHECK(oracle::joined(c, "E1.return", "K1.30"));
  CHECK(oracle::joined(c, "J2.3.car", "K1.86"));
  CHECK(oracle::joined(c, "J2.4.car", "K2.86"));
  CHECK(oracle::joined(c, "J2.2.car", "K3.86"));
  CHECK(oracle::joined(c, "K1.87", "G-RL.1"));
  CHECK(oracle::joined(c, "K2.87", "G-RR.1"));
  CHECK_FALSE(oracle::joined(c, "J2.3.car", "E1.feed"));
  CHECK_FALSE(oracle::joined(c, "J2.3.car", "E1.return"));
}

// Break-away on the battery, 20 A fuse. Pulled, the unit takes some 12 A and a short inside it what the fuse passes:
// its return and the lead before the fuse must bear as much as the feed (33 CFR 183.425, 183.455).
TEST_CASE("a unit's return and the lead to its fuse bear what the fuse lets pass") {
  const auto s = oracle::solved_text(oracle::job_text("old-roadster"));
  const Circuit& c = s.facts->circuit();
  const auto fuses = find_protection(c, *s.job.spec);
  int returns = 0, leads = 0;
  for (std::size_t w = 0; w < c.wires.size(); ++w) {
    const Wire& wire = c.wires[w];
    const auto ends_at = [&](const char* part) { return c.part(wire.from.part).id == part || c.part(wire.to.part).id == part; };
    const bool is_return = ends_at("B1") && ends_at("G-F"), is_lead = ends_at("BAT") && ends_at("FU3");
    returns += is_return;
    leads += is_lead;
    if (is_return || is_lead) CHECK(fuses[w].amps == 20);
    if (is_lead) CHECK(fuses[w].open);
  }
  CHECK(returns == 1);
  CHECK(leads == 1);
}

namespace {

const Protection& protection_of(const oracle::Solved& s, const std::vector<Protection>& all, const std::string& from, const std::string& to) {
  const Circuit& c = s.facts->circuit();
  for (std::size_t w = 0; w < c.wires.size(); ++w) {
    const std::string a = c.name(c.wires[w].from), b = c.name(c.wires[w].to);
    if ((a == from && b == to) || (a == to && b == from)) return all[w];
  }
  FAIL("no wire from " << from << " to " << to);
  return all[0];
}

}  // namespace

// The unit's current ends in the body at G-F; the white wire on the same stud carries the coach's return alone. The
// lamps' supply has its own 10 A fuse: the car's 15 A reach it only through both sides of one change-over contact.
TEST_CASE("a fuse is not laid to wires that its current does not reach") {
  const auto s = oracle::solved_text(oracle::job_text("old-roadster"));
  const auto fuses = find_protection(s.facts->circuit(), *s.job.spec);
  CHECK(protection_of(s, fuses, "G-F.1", "J2.1.car").amps == 0);
  CHECK(protection_of(s, fuses, "FU2.2", "S3.1").amps == 10);
  CHECK(protection_of(s, fuses, "S3.1", "K1.87").amps == 10);
}

// A screw in paint (2 ohm): the brake unit's return takes the white wire too, which must then bear its 20 A fuse.
TEST_CASE("a stud that hardly bites passes a unit's current on") {
  std::string text = oracle::job_text("old-roadster");
  const std::string stud = "takes: coach white";
  const auto at = text.find(stud);
  REQUIRE(at != std::string::npos);
  const auto s = oracle::solved_text(text.insert(at + stud.size(), ", on: painted"));
  CHECK(protection_of(s, find_protection(s.facts->circuit(), *s.job.spec), "G-F.1", "J2.1.car").amps == 20);
}

// ISO 11446: 7 left tail, 5 right tail. Lamps: stop L, R, turn L, R, tail L, R, plate. The plate hangs on the right tail.
TEST_CASE("T08: a module with two tail inputs, separate signals and LED lamps") {
  const auto s = oracle::solved_text(oracle::job_text("led-estate"));
  oracle::Matrix m = {
      {"all off", "......."}, {"tail", "....111"}, {"left", "..F...."}, {"right", "...F..."}, {"stop", "11....."},
      {"left-steady", "..1...."}, {"right-steady", "...1..."}, {"tail + stop + hazard", "11FF111"},
      {"stop + left", "11F...."}, {"stop + right", "11.F..."}, {"hazard", "..FF..."}, {"stop + hazard", "11FF..."},
      {"tail + left", "..F.111"}, {"tail + right", "...F111"}, {"tail + stop", "11..111"},
      {"tail + stop + left", "11F.111"}, {"tail + stop + right", "11.F111"}, {"tail + hazard", "..FF111"},
      {"car: lamps", "....111"}, {"car: pedal", "11....."}, {"car: left", "..F...."}, {"car: right", "...F..."},
      {"car: hazard", "..FF..."}, {"car: pedal + left", "11F...."}, {"car: pedal + right", "11.F..."},
      {"car: lamps + pedal", "11..111"}, {"car: lamps + left", "..F.111"}, {"car: lamps + right", "...F111"},
      {"coach: tail", "......."}, {"coach: stop", "......."}};
  oracle::add_dark(m);
  oracle::check_matrix(*s.facts, m);
  const Circuit& c = s.facts->circuit();
  CHECK(oracle::joined(c, "J2.7.car", "U1.in_left-tail"));
  CHECK(oracle::joined(c, "J2.5.car", "U1.in_right-tail"));
  CHECK(oracle::joined(c, "J2.6.car", "U1.in_stop"));
  CHECK_FALSE(oracle::joined(c, "J2.7.car", "J2.5.car"));
  CHECK(oracle::joined(c, "U1.out_left-tail", "D5.A1"));
  CHECK(oracle::joined(c, "U1.out_right-tail", "D6.A1"));
}

// Combined lamps behind separate signals, in one box: stop and turn by the converter's table, left and right tail apart.
TEST_CASE("powered module that combines: the table of the converter, each tail its own") {
  std::string text = fixture::changed(oracle::job_text("led-estate"), "method: powered-module-separate", "method: powered-combining-module");
  for (const char* side : {"left", "right"}) {
    const std::string number = side == std::string("left") ? "1" : "2", colour = number == "1" ? "GY" : "GN";
    text = fixture::changed(text, "    " + std::string(side) + " turn: {in: " + side + " rear, turn: LED 0.40 A, lens: amber, drive: controller, feed: BU/" + colour + " 0.5 mm2, node: BCM_T" + number + "}\n", "");
    text = fixture::changed(text, std::string(side) + " rear: {stop: LED", std::string(side) + " rear: {stop-turn: LED");
  }
  const auto s = oracle::solved_text(text);
  const std::map<std::string, std::string> by_hand = {{"stop", "11..."}, {"left", "F...."}, {"stop + left", "F1..."}, {"stop + right", "1F..."},
                                                      {"hazard", "FF..."}, {"stop + hazard", "FF..."}, {"tail", "..111"}, {"tail + stop + left", "F1111"}};
  for (const auto& [scene, lamps] : by_hand)
    for (std::size_t i = 0; i < s.facts->states.scenes.size(); ++i)
      if (s.facts->states.scenes[i].name == scene)
        for (std::size_t l = 0; l < lamps.size(); ++l) {
          CAPTURE(scene);
          CAPTURE(l);
          CHECK(oracle::sign(s.facts->states.lamps[i][l].seen) == lamps[l]);
        }
}
