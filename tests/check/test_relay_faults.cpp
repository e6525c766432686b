// Faults of relays and converters, held against electrical reference 10 ("E10") and trade reference 4 ("T4"): the
// plain job with a stop-lamp cut-off, and a converter by itself.
#include <algorithm>

#include "check/fixture.hpp"
#include "check/scene_by_scene.hpp"
#include "circuit/builder.hpp"
#include "solve/faults.hpp"
#include "solve/lamps.hpp"

using namespace towloom;

namespace {

Wire lead(const Circuit& c, const char* from, const char* to) {
  Wire w;
  w.id = std::string("X ") + from;
  w.from = c.terminal(from);
  w.to = c.terminal(to);
  REQUIRE((w.from.part && w.to.part));
  w.fixed_ohm = 0.01;
  w.status = Status::fitted;
  return w;
}

States solve_scenes(const Circuit& c, const Catalogue& catalogue, std::vector<Scene> scenes) {
  States s;
  s.scenes = std::move(scenes);
  const Points points = number_points(c);
  for (const Scene& scene : s.scenes) {
    s.solved.push_back(solve(c, catalogue, scene));
    REQUIRE(s.solved.back().converged());
    REQUIRE(s.solved.back().chatter.empty());
    std::vector<LampState> row;
    for (const LampIntent& lamp : c.lamps) row.push_back(lamp_state(c, catalogue, points, lamp.lamp, s.solved.back()));
    s.lamps.push_back(std::move(row));
  }
  return s;
}

Seen seen(const FaultTable& table, const States& states, const std::string& kind, int scene, int lamp) {
  for (const FaultRow& r : table.rows) {
    if (r.fault.kind != kind) continue;
    for (const Symptom& s : r.symptoms)
      if (s.scene == scene && s.lamp == lamp) return s.seen;
    return states.lamps[static_cast<std::size_t>(scene)][static_cast<std::size_t>(lamp)].seen;
  }
  FAIL("no such fault: " << kind);
  return Seen::may;
}

// A change-over relay whose coil hangs on the coach's tail wire opens the car's stop feed before the turn switch.
struct CutOff {
  fixture::Job job = fixture::built(fixture::plain_job());
  Circuit circuit;
  States states;
  FaultTable table;
  enum { braking_in_tow, braking_alone };

  CutOff() {
    circuit = *job.circuit;
    for (Wire& w : circuit.wires)
      if (!w.size && w.fixed_ohm < 0) w.size = parse_wire_size("16 AWG");
    Part relay = model_part(job.catalogue->parts.at("change-over-cube"), "", nullptr);
    relay.id = "K1";
    relay.status = Status::fitted;
    circuit.parts.push_back(relay);
    const TerminalRef stop = circuit.terminal("TURN.stop");
    const auto feed = std::find_if(circuit.wires.begin(), circuit.wires.end(), [&](const Wire& w) { return w.to == stop; });
    REQUIRE(feed != circuit.wires.end());
    feed->to = circuit.terminal("K1.30");
    circuit.wires.push_back(lead(circuit, "K1.87a", "TURN.stop"));
    circuit.wires.push_back(lead(circuit, "J2.2.car", "K1.86"));
    circuit.wires.push_back(lead(circuit, "K1.85", "G-F.1"));
    number_nets(circuit);
    states = solve_scenes(circuit, *job.catalogue,
                          {{"tail + left, pedal pressed", "towing", "", {{"coupled", Wave::on}, {"coach.tail", Wave::on}, {"coach.left", Wave::flash}, {"car.pedal", Wave::on}}},
                           {"car: pedal", "car alone", "", {{"car.pedal", Wave::on}}}});
    table = solve_faults(circuit, *job.catalogue, states, list_faults(circuit, *job.catalogue));
  }
};

}  // namespace

TEST_CASE("E10 cut-off relay stuck at rest or its coil open, T4 row 11: the car's stop overrides the coach's turn signal") {
  const CutOff c;
  CHECK(c.states.lamps[CutOff::braking_in_tow][0].seen == Seen::flash);   // sound: the turn signal is seen
  CHECK(c.states.lamps[CutOff::braking_in_tow][1].seen == Seen::dark);
  CHECK(c.states.lamps[CutOff::braking_alone][0].seen == Seen::lit);
  for (const char* kind : {"contact-stuck", "coil-open"}) {
    CAPTURE(kind);
    CHECK(seen(c.table, c.states, kind, CutOff::braking_in_tow, 0) == Seen::lit);
    CHECK(seen(c.table, c.states, kind, CutOff::braking_in_tow, 1) == Seen::lit);
    CHECK(seen(c.table, c.states, kind, CutOff::braking_alone, 0) == Seen::lit);
  }
}

TEST_CASE("a cut-off relay stuck in its working position leaves the car without stop lamps when driven") {
  const CutOff c;
  CHECK(seen(c.table, c.states, "contact-welded", CutOff::braking_in_tow, 0) == Seen::flash);
  CHECK(seen(c.table, c.states, "contact-welded", CutOff::braking_alone, 0) == Seen::dark);
  CHECK(seen(c.table, c.states, "contact-welded", CutOff::braking_alone, 1) == Seen::dark);
}

TEST_CASE("common and rest contact of a cut-off relay exchanged: the same two wires joined, nothing shows") {
  const CutOff c;
  int found = 0;
  for (const FaultRow& r : c.table.rows) {
    if (r.fault.kind != "leads-exchanged" || r.fault.at != "K1.30 and K1.87a") continue;
    ++found;
    CHECK(r.symptoms.empty());
  }
  CHECK(found == 1);
}

// Separate coach signals to combined lamps; the module fed from its own battery.
TEST_CASE("E10 converter without supply or ground: both outputs dark") {
  const fixture::Job job = fixture::built(fixture::plain_job());
  const Catalogue& catalogue = *job.catalogue;
  Circuit c;
  Part around;
  around.id = "X";
  around.kind = "bench";
  around.joins = "body";
  around.status = Status::factory;
  around.terminals = {"+", "left", "right", "stop", "body"};
  const auto source = [&](int at, const char* signal) {
    Element e;
    e.law = Law::source;
    e.a = at;
    e.b = 4;
    e.volts = 12.6;
    e.ohm = 0.1;
    return signal == nullptr ? e : gated(e, Gate::lit, signal);
  };
  around.elements = {source(0, nullptr), source(1, "coach.left"), source(2, "coach.right"), source(3, "coach.stop")};
  c.parts.push_back(around);
  Part module = module_part(catalogue.modules.at("separate-to-combined"), &catalogue.diodes.at("silicon"));
  module.id = "U1";
  module.status = Status::fitted;
  c.parts.push_back(module);
  for (const char* side : {"left", "right"}) {
    Part lamp;
    lamp.id = std::string("E-") + side;
    lamp.kind = "lamp";
    lamp.terminals = {"feed", "return"};
    lamp.elements = {filament(0, 1, 12.8, 2.1)};
    c.parts.push_back(lamp);
    LampIntent intent;
    intent.lamp = PartId{static_cast<int>(c.parts.size()) - 1};
    intent.tow_signal = side;
    intent.drivers = {std::string("driver.") + side, "driver.stop"};
    intent.car_function = "stop-turn";
    intent.side = Side::left;
    c.lamps.push_back(std::move(intent));
  }
  for (const auto& [from, to] : {std::pair{"X.+", "U1.supply"}, {"U1.ground", "X.body"}, {"X.left", "U1.in_left"}, {"X.right", "U1.in_right"},
                                 {"X.stop", "U1.in_stop"}, {"U1.out_left", "E-left.feed"}, {"U1.out_right", "E-right.feed"},
                                 {"E-left.return", "X.body"}, {"E-right.return", "X.body"}})
    c.wires.push_back(lead(c, from, to));
  number_nets(c);
  const States states = solve_scenes(c, catalogue, {{"stop + left", "towing", "", {{"coach.left", Wave::flash}, {"coach.stop", Wave::on}}}});
  CHECK(states.lamps[0][0].seen == Seen::flash);   // its turn signal while that flashes, else stop
  CHECK(states.lamps[0][1].seen == Seen::lit);
  const FaultTable table = solve_faults(c, catalogue, states, list_faults(c, catalogue));
  for (const int lamp : {0, 1}) CHECK(seen(table, states, "supply-lost", 0, lamp) == Seen::dark);
  int grounds = 0;
  for (const FaultRow& r : table.rows) {
    if (r.fault.kind != "wire-open" || r.fault.at != "X U1.ground") continue;
    ++grounds;
    for (const int lamp : {0, 1}) {
      const auto dark = std::find_if(r.symptoms.begin(), r.symptoms.end(), [&](const Symptom& s) { return s.lamp == lamp; });
      REQUIRE(dark != r.symptoms.end());
      CHECK(dark->seen != Seen::lit);
      CHECK(dark->seen != Seen::flash);
    }
  }
  CHECK(grounds == 1);
}

TEST_CASE("every fault beside a relay shows what scene by scene gives") {
  const CutOff c;
  CHECK(c.table.skipped > 20);
  CHECK(fixture::SceneByScene{c.circuit, *c.job.catalogue, c.states}.compare(c.table, 5, 400) > 50);
}
