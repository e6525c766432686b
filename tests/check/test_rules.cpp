// Each rule speaks when its cause is given, and only then.
#include <algorithm>
#include <set>

#include "check/fixture.hpp"

using namespace towloom;
using fixture::changed;
using fixture::checked;
using fixture::plain_job;

TEST_CASE("every rule has its own name and a reason") {
  std::set<std::string> ids;
  for (const RuleRow& row : rule_table()) {
    CHECK(ids.insert(row.id).second);
    CHECK(std::string(row.reason).size() > 10);
  }
  CHECK(ids.size() == rule_table().size());
}

TEST_CASE("a fuse larger than the wires bear is an error at its line; a small one is not") {
  // The size is given: the sizing cannot answer the fuse with a thicker wire.
  const std::string given = changed(plain_job(), "lamps: auto ribbon of 4", "lamps: 16 AWG ribbon of 4");
  const auto with_fuse = [&](const char* amps) {
    return changed(given, "{does: tail, open: 13.6 V, loaded: 13.1 V, load: 4.2 A}",
                   std::string("{does: tail, open: 13.6 V, loaded: 13.1 V, load: 4.2 A, fuse: ") + amps + "}");
  };
  const auto large = checked(with_fuse("30 A"));
  REQUIRE(large.has("fuse-over"));
  CHECK(large.finding("fuse-over")->severity == Severity::error);
  const Place at = large.finding("fuse-over")->place;
  REQUIRE(at.known());
  const std::string before = plain_job().substr(0, plain_job().find("\"2\": {does: tail"));
  CHECK(at.line == 1 + std::count(before.begin(), before.end(), '\n'));
  CHECK_FALSE(large.has("fuse-unknown"));
  const auto small = checked(with_fuse("7.5 A"));
  CHECK_FALSE(small.has("fuse-over"));
}

TEST_CASE("a charge contact without a fuse at the coach is said though another contact has one") {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs" / "mended-hatchback.yaml");
  std::ostringstream text;
  text << in.rdbuf();
  CHECK_FALSE(checked(text.str()).has("fuse-unknown"));
  const auto c = checked(changed(changed(text.str(), ", fuse: 10 A}   # 30 A", "}   # 30 A"), "LT: {does: left, open: 13.5 V, loaded: 12.8 V}",
                                 "LT: {does: left, open: 13.5 V, loaded: 12.8 V, fuse: 10 A}"));
  REQUIRE(c.has("fuse-unknown"));
  CHECK(c.finding("fuse-unknown")->message.find("charge") != std::string::npos);
}

TEST_CASE("a plate lamp left dark in tow is said") {
  const auto c = checked(changed(changed(plain_job(), ", plate: with left tail}", "}"), "branch: upstream of left rear}",
                                 "branch: upstream of left rear, in tow: dark}"));
  REQUIRE(c.has("plate-dark"));
  CHECK(c.finding("plate-dark")->place.known());
  CHECK_FALSE(checked(plain_job()).has("plate-dark"));
}

TEST_CASE("monitoring by pulses: doubtful without the bleed resistors that the method names") {
  const auto c = checked(changed(plain_job(), "monitoring: none", "monitoring: off-pulse"));
  REQUIRE(c.has("method-doubtful"));
  CHECK(c.finding("method-doubtful")->action.find("bleed") != std::string::npos);
  CHECK_FALSE(c.has("method-unsuited"));
  const auto bled = checked(changed(changed(plain_job(), "monitoring: none", "monitoring: off-pulse"), "runs:\n", "extras: {bleed resistors: yes}\nruns:\n"));
  CHECK_FALSE(bled.has("method-doubtful"));
}

TEST_CASE("a hot place makes the diodes too hot, by the law of heat") {
  // Electrical.md 4.3: Tj = Ta + P Rth. some 1.7 W at 20 K/W are 34 K, more than 80 % of
  // the 25 K that 125 degrees leave below the 150 of silicon.
  auto c = checked(plain_job());
  Spec hot = c.facts->spec;
  hot.limits.ambient_c = PlacedNumber{125, {}};
  const auto found = check(hot, *c.job.catalogue, c.facts->sized, c.facts->states);
  bool said = false;
  for (const Finding& f : found) said = said || f.rule == "hot";
  CHECK(said);
  CHECK_FALSE(c.has("hot"));
}

TEST_CASE("a ground thinner than the signals is said") {
  auto c = checked(plain_job());
  for (Wire& w : c.facts->sized.circuit.wires)
    if (w.status == Status::fitted && w.circuit == "ground") w.size = parse_wire_size("18 AWG");
  const auto found = check(c.facts->spec, *c.job.catalogue, c.facts->sized, c.facts->states);
  bool said = false;
  for (const Finding& f : found) said = said || f.rule == "thin-ground";
  CHECK(said);
  CHECK_FALSE(c.has("thin-ground"));
}

TEST_CASE("drop and ampacity are held against the chosen sizes") {
  auto c = checked(plain_job());
  CHECK_FALSE(c.has("drop-over"));
  CHECK_FALSE(c.has("ampacity-over"));
  Sized sized = c.facts->sized;
  REQUIRE_FALSE(sized.why.empty());
  sized.why[0].drop_v = sized.why[0].drop_limit_v + 0.01;
  sized.why[0].amps = sized.why[0].ampacity_a + 0.1;
  std::set<std::string> rules;
  for (const Finding& f : check(c.facts->spec, *c.job.catalogue, sized, c.facts->states)) rules.insert(f.rule);
  CHECK(rules.count("drop-over") == 1);
  CHECK(rules.count("ampacity-over") == 1);
}

TEST_CASE("the matrix as text has a row a scene and marks what differs") {
  auto c = checked(plain_job());
  const std::string clean = matrix_text(*c.facts);
  for (std::size_t s = 0; s < c.facts->states.scenes.size(); ++s)
    CHECK((clean.find("\n" + c.facts->states.scenes[s].name + " ") != std::string::npos) == to_print(c.facts->states, s));
  CHECK(clean.find("1>.") == std::string::npos);
  for (std::size_t s = 0; s < c.facts->states.scenes.size(); ++s)
    if (c.facts->states.scenes[s].name == "tail") c.facts->states.lamps[s][2].seen = Seen::dark;
  CHECK(matrix_text(*c.facts).find("1>.") != std::string::npos);
}

// The plate lamp's housing is named as what it does.
TEST_CASE("a finding names a lamp once where housing and function have one name") {
  const auto c = fixture::checked(fixture::job_file("large-pickup"));
  REQUIRE(c.has("engine-off"));
  CHECK(c.finding("engine-off")->message.find("right rear tail, plate: other than required") != std::string::npos);
}
