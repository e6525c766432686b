// Where a fuse sits, how large it is, how quick: each rule once broken and once kept. Limits by 33 CFR 183.455 (b):
// 7 in (178 mm) along the conductor, 40 in (1016 mm) in a sheath.
#include "check/fixture.hpp"

using namespace towloom;
using fixture::changed;
using fixture::checked;
using fixture::Checked;
using fixture::plain_job;

namespace {

std::string with_fuse(const std::string& keys) { return changed(plain_job(), "loaded: 13.1 V, load: 4.2 A", "loaded: 13.1 V, load: 4.2 A, " + keys); }

// A roadster whose lamps are fed from its own battery by relays, over a fuse at the battery.
std::string battery_fed(const std::string& fuse) {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs" / "old-roadster.yaml");
  std::ostringstream out;
  out << in.rdbuf();
  return changed(out.str(), "fuse: 10 A", "fuse: " + fuse);
}

std::size_t battery_wire(const Circuit& c) {
  for (std::size_t w = 0; w < c.wires.size(); ++w)
    for (const TerminalRef end : {c.wires[w].from, c.wires[w].to})
      if (c.wires[w].status == Status::fitted && c.part(end.part).id == "BAT") return w;
  FAIL("no new wire at the battery");
  return 0;
}

std::vector<Finding> again(const Checked& c) { return check(c.facts->spec, *c.job.catalogue, c.facts->sized, c.facts->states); }
const Finding* named(const std::vector<Finding>& all, const std::string& rule) {
  for (const Finding& f : all)
    if (f.rule == rule) return &f;
  return nullptr;
}

}  // namespace

TEST_CASE("the coach's fuse within 178 mm of its source, 1016 mm in a sheath") {
  CHECK_FALSE(checked(with_fuse("fuse: 10 A")).has("coach-fuse-far"));
  CHECK_FALSE(checked(with_fuse("fuse: 10 A, fuse at: 7 in")).has("coach-fuse-far"));
  CHECK_FALSE(checked(with_fuse("fuse: 10 A, fuse at: 1 m covered")).has("coach-fuse-far"));
  const Checked far = checked(with_fuse("fuse: 10 A, fuse at: 18 cm"));
  REQUIRE(far.has("coach-fuse-far"));
  CHECK(far.finding("coach-fuse-far")->severity == Severity::warning);
  CHECK(far.finding("coach-fuse-far")->place.line == 12);   // the row of the tail contact
  CHECK(far.finding("coach-fuse-far")->message.find("33 CFR 183.455") != std::string::npos);
  CHECK(checked(with_fuse("fuse: 10 A, fuse at: 1.1 m covered")).has("coach-fuse-far"));
}

TEST_CASE("a new wire from the battery runs at most 178 mm to its fuse, 1016 mm where all of it is covered") {
  Checked c = checked(battery_fed("10 A"));
  CHECK_FALSE(c.has("fuse-far"));
  Wire& wire = c.facts->sized.circuit.wires[battery_wire(c.facts->circuit())];
  wire.length_m = 0.18;
  const auto far = again(c);
  REQUIRE(named(far, "fuse-far") != nullptr);
  CHECK(named(far, "fuse-far")->severity == Severity::error);
  CHECK(named(far, "fuse-far")->about == std::vector<std::string>{wire.id});
  wire.length_m = 0.178;
  CHECK(named(again(c), "fuse-far") == nullptr);
  wire.runs = {c.facts->spec.runs[0].name.value};
  c.facts->spec.runs[0].cover = "split loom";
  wire.length_m = 1.0;
  CHECK(named(again(c), "fuse-far") == nullptr);
  wire.length_m = 1.1;
  CHECK(named(again(c), "fuse-far") != nullptr);
}

// Two P21/5W bright filaments take 2 x 1.9 A at 12.6 V (26.5 W at 13.5 V, exponent 0.55), tails and plate lamp 1.3 A more:
// above 80 % of 5 A, below 80 % of 10 A; 5.1 A want 6.4 A or more.
TEST_CASE("a fuse that carries more than four fifths of its rating") {
  const Checked small = checked(battery_fed("5 A"));
  REQUIRE(small.has("fuse-small"));
  CHECK(small.finding("fuse-small")->action.find("7.5 A") != std::string::npos);
  CHECK_FALSE(checked(battery_fed("10 A")).has("fuse-small"));
}

// 30 m of 18 AWG have 0.65 ohm (21.8 mohm a metre): 12.6 V drive less than 19.3 A through them, more than the 15 A
// that the wire bears, and less than the 30 A that open a 15 A fuse.
TEST_CASE("a short behind long thin wire that the fuse does not clear") {
  CHECK_FALSE(checked(battery_fed("10 A")).has("fuse-slow"));
  std::string text = changed(battery_fed("15 A"), "to: battery, length: 0.6 m", "to: battery, length: 30 m");
  text = changed(text, "lamps: auto}", "lamps: auto, battery: 18 AWG}");
  const Checked slow = checked(changed(text, "drop: 0.9 V", "drop: 9 V"));
  REQUIRE(slow.has("fuse-slow"));
  CHECK(slow.finding("fuse-slow")->message.find("15 A,") != std::string::npos);
  CHECK(slow.finding("fuse-slow")->message.find("needs 30 A") != std::string::npos);
}

TEST_CASE("a run that no wire takes is said at its line") {
  CHECK_FALSE(checked(plain_job()).has("run-unused"));
  const Checked c = checked(changed(plain_job(), "grounds:\n", "  spare: {from: roof, to: tow bar, length: 2 m}\n\ngrounds:\n"));
  REQUIRE(c.has("run-unused"));
  CHECK(c.finding("run-unused")->message.find("'spare'") != std::string::npos);
}
