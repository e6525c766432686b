// Words for lamps on tables and tests.
#include <filesystem>
#include <set>

#include "layout/style_fixture.hpp"
#include "sheets/names.hpp"

using namespace towloom;
namespace fs = std::filesystem;

TEST_CASE("no two lamps of a job are called the same") {
  const fixture::Looks looks;
  for (const auto& entry : fs::directory_iterator(fs::path(TOWLOOM_ROOT) / "specs" / "jobs")) {
    if (entry.path().extension() != ".yaml") continue;
    CAPTURE(entry.path().stem().string());
    const fixture::Job job = fixture::built(fixture::job_file(entry.path().stem()));
    REQUIRE(job.circuit.has_value());
    std::set<std::string> said;
    for (const LampIntent& lamp : job.circuit->lamps) said.insert(lamp_text(*job.circuit, job.circuit->part(lamp.lamp), *looks.style));
    CHECK(said.size() == job.circuit->lamps.size());
  }
}

// specs/jobs/bus-lamp-estate.yaml: "left rear" of the car stays dark, "left bar" is hung behind it.
TEST_CASE("a lamp's place is named where another lamp of its side does the same") {
  const fixture::Looks looks;
  const fixture::Job bar = fixture::built(fixture::job_file("bus-lamp-estate")), plain = fixture::built(fixture::plain_job());
  const auto names = [&](const fixture::Job& job) {
    std::set<std::string> out;
    for (const LampIntent& lamp : job.circuit->lamps) out.insert(lamp_text(*job.circuit, job.circuit->part(lamp.lamp), *looks.style));
    return out;
  };
  CHECK(names(bar).count("left rear stop") == 1);
  CHECK(names(bar).count("left bar stop") == 1);
  CHECK(names(plain).count("left stop/turn") == 1);
}
