// Heat: figures of electrical reference 4.3 and sums by hand.
#include <algorithm>
#include <cmath>

#include "check/fixture.hpp"
#include "check/heat.hpp"
#include "circuit/builder.hpp"

using namespace towloom;

namespace {

// One part of its own kind, with terminals as given, between a supply and a load.
Circuit lone(Part part) {
  Circuit c;
  part.joins = "body";
  part.terminals.push_back("body");
  c.parts.push_back(std::move(part));
  return c;
}

const Catalogue& catalogue() {
  static const fixture::Job job = fixture::built(fixture::plain_job());
  return *job.catalogue;
}

Element source(int a, int b, double volts, double ohm) {
  Element e;
  e.law = Law::source;
  e.a = a;
  e.b = b;
  e.volts = volts;
  e.ohm = ohm;
  return e;
}

States solved(const Circuit& c, const Scene& scene = {}) {
  States s;
  s.scenes = {scene};
  s.solved = {solve(c, catalogue(), scene)};
  REQUIRE(s.solved[0].converged());
  return s;
}

// A silicon block that carries `amps` (a stiff current: 100 V behind its resistance).
struct OneBlock {
  Circuit c;
  explicit OneBlock(double amps) {
    Part block;
    block.id = "D1";
    block.kind = "diode";
    block.model = "silicon";
    block.terminals = {"A", "K"};
    block.elements = {diode(0, 1, catalogue().diodes.at("silicon"))};
    Part supply;
    supply.id = "V";
    supply.kind = "battery";
    supply.terminals = {"+", "-"};
    const double ohm = 100 / amps;
    supply.elements = {source(0, 1, 100, ohm)};
    c = lone(block);
    c.parts.push_back(supply);
    const auto join = [&](const char* from, const char* to) {
      Wire w;
      w.from = c.terminal(from);
      w.to = c.terminal(to);
      w.fixed_ohm = 0;
      c.wires.push_back(w);
    };
    join("V.+", "D1.A");
    join("D1.K", "V.-");
    join("V.-", "D1.body");
  }
};

}  // namespace

// E35: DSI at 2.1 A (0.930 V): 1.953 W; with 20 K/W and 40 degrees around: 79.1 degrees.
TEST_CASE("E35 a silicon diode at 2.1 A bolted to metal") {
  OneBlock b(100 / (100 - 0.93) * 2.1);   // so that 2.1 A remain behind the diode's own volts
  const auto heat = find_heat(b.c, catalogue(), solved(b.c), "on metal", 40);
  REQUIRE(heat.size() == 1);
  CHECK(heat[0].watts == doctest::Approx(1.953).epsilon(0.005));
  CHECK(heat[0].celsius == doctest::Approx(79.1).epsilon(0.005));
  CHECK(heat[0].hottest_c == 150);
  CHECK(heat[0].in_loom_c == doctest::Approx(40 + 50 * 1.953).epsilon(0.005));   // default 50 K/W wrapped, reference 13.4
  CHECK(find_heat(b.c, catalogue(), solved(b.c), "free air", 40)[0].celsius > heat[0].celsius);
}

// Reference 4.3: 3 A (0.960 V): 2.88 W, 97.6 degrees.
TEST_CASE("the same at 3 A") {
  OneBlock b(100 / (100 - 0.96) * 3);
  const auto heat = find_heat(b.c, catalogue(), solved(b.c), "on metal", 40);
  CHECK(heat[0].watts == doctest::Approx(2.88).epsilon(0.005));
  CHECK(heat[0].celsius == doctest::Approx(97.6).epsilon(0.005));
}

TEST_CASE("a flashing lamp heats its diode half of the time") {
  const auto c = fixture::checked(fixture::plain_job());
  const Circuit& k = c.facts->circuit();
  const Points points = number_points(k);
  const PartId block = k.find("D1");
  const auto watts = [&](const char* name) {
    for (std::size_t s = 0; s < c.facts->states.scenes.size(); ++s)
      if (c.facts->states.scenes[s].name == name) return heat_of(k, points, block, c.facts->states.solved[s]);
    FAIL("no such scene");
    return 0.0;
  };
  CHECK(watts("stop") > 1.4);
  // Alone it flashes with a little more volts than beside the other side's lamp.
  CHECK(watts("left") > 0.5 * watts("stop"));
  CHECK(watts("left") < 0.56 * watts("stop"));
  CHECK(watts("all off") < 1e-6);
}

// A supplied isolating pair: 20 mohm at 2 A = 0.08 W by hand; without supply its body diode takes over: some 0.93 V x 2 A.
TEST_CASE("a supplied isolator stays cool; its body diode does not") {
  const PartModel& model = catalogue().parts.at("field-effect");
  for (const bool supplied : {true, false}) {
    Part pair = model_part(model, "", &catalogue().diodes.at("silicon"));
    pair.id = "D1";
    Circuit c = lone(pair);
    Element lamp;
    lamp.ohm = 6;   // some 2 A at 12 V
    Element ground;
    ground.ohm = supplied ? 0.001 : 1e9;
    Part around;
    around.id = "X";
    around.kind = "bench";
    around.terminals = {"A1", "K", "G", "body"};
    Element feed = source(0, 3, 12, 0.01);
    lamp.a = 1;
    lamp.b = 3;
    ground.a = 2;
    ground.b = 3;
    around.elements = {feed, lamp, ground};
    c.parts.push_back(around);
    for (const auto& [from, to] : {std::pair{"X.A1", "D1.A1"}, {"X.K", "D1.K"}, {"X.G", "D1.G"}, {"X.body", "D1.body"}}) {
      Wire w;
      w.from = c.terminal(from);
      w.to = c.terminal(to);
      w.fixed_ohm = 0;
      c.wires.push_back(w);
    }
    const auto heat = find_heat(c, catalogue(), solved(c), "free air", 30);
    REQUIRE(heat.size() == 1);
    CAPTURE(supplied);
    if (supplied) {
      const double amps = 12 / 6.03;   // by Ohm's law
      CHECK(heat[0].watts == doctest::Approx(0.02 * amps * amps + 0.001 * 12).epsilon(0.05));   // and its 1 mA of supply
    } else {
      CHECK(heat[0].watts > 0.85 * 1.8);
      CHECK(heat[0].watts < 0.95 * 1.9);
    }
  }
}

TEST_CASE("in the loom a hot place is too hot by the job's own word, at its line") {
  const std::string looms = fixture::changed(fixture::plain_job(), "diode: silicon, plate", "diode: silicon, mounting: in loom, plate");
  const auto mild = fixture::checked(looms);
  CHECK_FALSE(mild.has("too-hot"));
  // Some 1.6 W at 50 K/W are 80 K: with 80 degrees around more than the 150 of silicon.
  Spec hot_place = mild.facts->spec;
  hot_place.limits.ambient_c = PlacedNumber{80, {}};
  bool too_hot = false;
  for (const Finding& f : check(hot_place, *mild.job.catalogue, mild.facts->sized, mild.facts->states))
    too_hot = too_hot || (f.rule == "too-hot" && f.severity == Severity::error && f.message.find("in loom") != std::string::npos);
  CHECK(too_hot);
  const auto wrong = fixture::checked(fixture::changed(fixture::plain_job(), "diode: silicon, plate", "diode: silicon, mounting: in foam, plate"));
  REQUIRE(wrong.has("mounting"));
  CHECK(wrong.finding("mounting")->place.known());
}

// E49: 12.6 V, 15 m of 18 AWG (0.314 ohm) and 0.05 ohm: 34.6 A = 2.31 x 15 A. Here the cord adds more: 30 A fuses
// are not opened by what a short at the far end of long thin wires draws; 5 A fuses are.
TEST_CASE("a fuse too large for the short-circuit current of its wire is said") {
  const std::string thin = fixture::changed(fixture::plain_job(), "lamps: auto ribbon of 4", "lamps: 18 AWG ribbon of 4");
  const auto with_fuse = [&](const char* amps) {
    std::string text = fixture::changed(thin, "sill: {from: left grommet, to: left rear, length: 3.9 m", "sill: {from: left grommet, to: left rear, length: 12 m");
    return fixture::changed(text, "{does: left, open: 13.5 V, loaded: 12.9 V, load: 4.2 A}",
                            std::string("{does: left, open: 13.5 V, loaded: 12.9 V, load: 4.2 A, fuse: ") + amps + "}");
  };
  const auto large = fixture::checked(with_fuse("30 A"));
  REQUIRE(large.has("fuse-slow"));
  CHECK(large.finding("fuse-slow")->place.known());
  CHECK_FALSE(fixture::checked(with_fuse("5 A")).has("fuse-slow"));
}
