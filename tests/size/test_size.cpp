// The plain job sized; what cannot be sized is refused.
#include "size/size.hpp"

#include <cmath>

#include "circuit/fixture.hpp"

using namespace towloom;

namespace {

struct Outcome {
  fixture::Job job;
  std::optional<Sized> sized;
};

Outcome sized(const std::string& text) {
  Outcome out{fixture::built(text), std::nullopt};
  INFO(format_diagnostics(out.job.diagnostics, out.job.sources, false));
  REQUIRE(out.job.circuit.has_value());
  out.sized = size(*out.job.circuit, *out.job.catalogue, *out.job.spec, out.job.diagnostics);
  return out;
}

std::string with(const std::string& wire, const std::string& limits = "") {
  std::string job = fixture::changed(fixture::plain_job(), "wire: {standard: AWG, lamps: auto ribbon of 4}", wire);
  return job.erase(job.find("\nlimits:") + 1) + limits;  // the job's own budget is its last line
}

const SizeChoice* choice(const Outcome& o, const std::string& group) {
  for (const SizeChoice& c : o.sized->why)
    if (c.group == group) return &c;
  return nullptr;
}

}  // namespace

TEST_CASE("every wire of the plain job has a size, and the ribbon one") {
  const Outcome o = sized(fixture::plain_job());
  REQUIRE(o.sized.has_value());
  for (const Wire& w : o.sized->circuit.wires) CHECK((w.size.has_value() || w.fixed_ohm >= 0));
  std::optional<WireSizeName> ribbon;
  for (const Wire& w : o.sized->circuit.wires) {
    if (w.group != "lamps") continue;
    if (!ribbon) ribbon = w.size;
    CHECK(w.size == ribbon);
  }
  REQUIRE(ribbon.has_value());
}

TEST_CASE("the choice meets its own limits") {
  const Outcome o = sized(fixture::plain_job());
  REQUIRE(o.sized.has_value());
  for (const SizeChoice& c : o.sized->why) {
    CAPTURE(c.group);
    CHECK(c.drop_v <= c.drop_limit_v + 1e-6);
    CHECK(c.amps <= c.ampacity_a);
    CHECK(c.drop_v > 0);
    CHECK(c.amps > 1.5);   // a 21 W lamp's current at least passes every group
    CHECK(c.proved_minimal);
    CHECK_FALSE(c.worst.empty());
  }
}

TEST_CASE("a size that the job gives is kept and said to be given") {
  const Outcome o = sized(with("wire: {standard: AWG, lamps: 10 AWG ribbon of 4}"));
  REQUIRE(o.sized.has_value());
  const SizeChoice* lamps = choice(o, "lamps");
  REQUIRE(lamps != nullptr);
  CHECK(lamps->size.text() == "10 AWG");
  CHECK(lamps->decided_by == "given");
}

TEST_CASE("a wide budget is held by the contacts' least size alone") {
  // The white contact of a four-way flat asks for 16 AWG (SAE J1239 as summarised).
  const Outcome o = sized(with("wire: {standard: AWG, lamps: auto ribbon of 4}", "limits: {drop: 3 V}\n"));
  REQUIRE(o.sized.has_value());
  const SizeChoice* lamps = choice(o, "lamps");
  REQUIRE(lamps != nullptr);
  CHECK(lamps->size.text() == "16 AWG");
  CHECK(lamps->decided_by == "minimum");
}

TEST_CASE("a budget that no wire keeps is refused with the lamp and the volts missing") {
  const Outcome o = sized(with("wire: {standard: AWG, lamps: auto ribbon of 4}", "limits: {drop: 0.05 V}\n"));
  CHECK_FALSE(o.sized.has_value());
  CHECK(fixture::reported(o.job, "drop-budget", "stop-turn"));
  CHECK(fixture::reported(o.job, "drop-budget", "more than the budget of 0.05 V"));
}

TEST_CASE("a hot place leaves no current to the wire") {
  // The series is for 80 °C: at 80 °C around it, it may carry nothing.
  const Outcome o = sized(with("wire: {standard: AWG, lamps: auto ribbon of 4}", "limits: {drop: 3 V, ambient: 80 °C}\n"));
  CHECK_FALSE(o.sized.has_value());
  CHECK(fixture::reported(o.job, "ampacity", "80 °C"));
}

TEST_CASE("a known fuse asks for a wire that outlasts it") {
  // 25 A in the left wire: three in a run carry 0.7 of the table: 12 AWG 24.5 A is too small, 10 AWG 35 A not.
  // The cord must outlast the fuse too: four in a jacket carry 0.6 of the table, 10 AWG 30 A.
  const std::string text = fixture::changed(
      fixture::changed(with("wire: {standard: AWG, lamps: auto ribbon of 4}", "limits: {drop: 3 V}\n"),
                       "wire: 16 AWG, kind: coiled", "wire: 10 AWG, kind: coiled"),
                       "open: 13.5 V, loaded: 12.9 V, load: 4.2 A}\n    \"4\"",
                       "open: 13.5 V, loaded: 12.9 V, load: 4.2 A, fuse: 25 A}\n    \"4\"");
  const Outcome o = sized(text);
  REQUIRE(o.sized.has_value());
  const SizeChoice* lamps = choice(o, "lamps");
  REQUIRE(lamps != nullptr);
  CHECK(lamps->size.text() == "10 AWG");
  CHECK(lamps->decided_by == "fuse");
  CHECK(lamps->fuse_a == doctest::Approx(25));
}

TEST_CASE("the path drop is zero where a lamp is dark and positive where it is lit") {
  const Outcome o = sized(fixture::plain_job());
  REQUIRE(o.sized.has_value());
  const Circuit& c = o.sized->circuit;
  Scene left;
  left.signals = {{"coupled", Wave::on}, {"coach.left", Wave::on}, {"driver.left", Wave::on}};
  const auto drops = path_drop(c, *o.job.catalogue, left, solve(c, *o.job.catalogue, left));
  REQUIRE(drops.size() == c.lamps.size());
  for (size_t i = 0; i < drops.size(); ++i) {
    if (c.lamps[i].tow_signal == "left")
      CHECK(drops[i] > 0.05);
    else
      CHECK(drops[i] == 0.0);
  }
}

// Kirchhoff: what the coach's wires bring to the lamps goes back on the white wire, all of it.
TEST_CASE("the ground wire is sized for the sum of the lamps' currents") {
  const Outcome o = sized(fixture::plain_job());
  REQUIRE(o.sized.has_value());
  const Circuit& c = o.sized->circuit;
  double most = 0;
  for (const Scene& scene : list_scenes(c, *o.job.catalogue, *o.job.spec)) {
    if (scene.kind != "towing" || scene.signal("car.pedal") != Wave::off) continue;
    const Solved solved = solve(c, *o.job.catalogue, scene);
    for (int p = 0; p < solved.phases; ++p) {
      const Phase& phase = solved.phase[static_cast<std::size_t>(p)];
      double lamps = 0, ground = 0;
      for (const LampIntent& lamp : c.lamps) lamps += phase.element_a[static_cast<std::size_t>(lamp.lamp.v)][0];
      for (std::size_t w = 0; w < c.wires.size(); ++w)
        if (c.wires[w].status == Status::fitted && c.wires[w].circuit == "ground") ground = std::max(ground, std::fabs(phase.wire_a[w]));
      CAPTURE(scene.name);
      CHECK(ground == doctest::Approx(lamps).epsilon(1e-4).scale(1));
      most = std::max(most, ground);
    }
  }
  // Two stop/turn filaments, two tail and two plate bulbs: 2 x 1.9 + 2 x 0.48 + 2 x 0.4 A at some 12.5 V.
  CHECK(most > 5);
  const SizeChoice* ground = choice(o, "lamps");
  REQUIRE(ground != nullptr);
  CHECK(ground->ampacity_a > most);
}
