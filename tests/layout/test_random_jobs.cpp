// Whole sheets of jobs by chance: placed, routed, labelled and read back without a defect.
#include <algorithm>

#include "layout/style_fixture.hpp"
#include "layout/unsolved.hpp"
#include "prove/prove.hpp"
#include "random/jobs.hpp"
#include "sheets/sheets.hpp"

using namespace towloom;

namespace {

constexpr unsigned seeds = 2080;
constexpr int as_placed = -1;    // no second try for the sake of labels: the test would take twice as long

}  // namespace

TEST_CASE("2,000 jobs by chance: each is drawn, and read back from its geometry it is the circuit") {
  const fixture::Looks looks;
  fixture::Job plain = fixture::built(fixture::plain_job());
  int valid = 0, drawn = 0, refused = 0, several = 0, least = 1000, most = 0;
  for (unsigned seed = 1; seed <= seeds; ++seed) {
    const int more = seed % 16 == 0 ? static_cast<int>(seed / 16 % 13) : seed % 16 == 8 ? -1 - static_cast<int>(seed / 16 % 2) : 0;   // some are large, some small
    auto facts = fixture::unsolved(by_chance::job(seed, more), *plain.catalogue);
    if (!facts) continue;
    facts->spec.paper = seed % 3 == 0 ? "tabloid" : "a3";
    facts->spec.paper_named = true;
    CAPTURE(seed);
    CAPTURE(more);
    ++valid;
    Diagnostics diagnostics;
    const auto pages = bench_sheet(*facts, *plain.catalogue, *looks.style, looks.measure, 0, diagnostics, as_placed);
    if (pages.empty()) {         // one clear error, never a drawing with a defect
      CHECK(diagnostics.all().size() == 1);
      MESSAGE(seed << ": " << diagnostics.all().front().message);
      ++refused;
      continue;
    }
    std::string defects;
    for (const Defect& d : prove(pages, facts->circuit())) defects += d.kind + ": " + d.message + "\n";
    CHECK(defects == "");
    const int wires = static_cast<int>(facts->circuit().wires.size());
    least = std::min(least, wires);
    most = std::max(most, wires);
    ++drawn;
    several += pages.size() > 1;
  }
  MESSAGE(drawn << " drawn, " << refused << " refused, " << least << " to " << most << " wires, " << several << " on several pages");
  CHECK(drawn >= 2000);
  CHECK(refused * 200 <= valid);   // what fits no page even when divided: one in 200 at most
  CHECK(least <= 20);
  CHECK(most >= 150);
  CHECK(several > 500);
}

TEST_CASE("on A4 the coach's contacts take several pages where one is too low") {
  constexpr unsigned many_contacts = 74;   // a seed whose signals alone are higher than the paper
  const fixture::Looks looks;
  fixture::Job plain = fixture::built(fixture::plain_job());
  auto facts = fixture::unsolved(by_chance::job(many_contacts, 0), *plain.catalogue);
  REQUIRE(facts.has_value());
  facts->spec.paper = "a4";
  facts->spec.paper_named = true;
  Diagnostics diagnostics;
  const auto pages = bench_sheet(*facts, *plain.catalogue, *looks.style, looks.measure, 0, diagnostics, as_placed);
  CHECK_FALSE(pages.empty());
  CHECK(prove(pages, facts->circuit()).empty());
}
