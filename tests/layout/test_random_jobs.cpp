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

struct Tally { int valid = 0, drawn = 0, refused = 0, several = 0, least = 1000, most = 0; };

// Draws the job of `seed` on this paper and reads it back; `more`: lamps beyond the usual number.
void draw_by_chance(unsigned seed, int more, const char* paper, const fixture::Looks& looks, fixture::Job& plain, Tally& tally) {
  auto facts = fixture::unsolved(by_chance::job(seed, more), *plain.catalogue);
  if (!facts) return;
  facts->spec.paper = paper;
  facts->spec.paper_named = true;
  INFO("seed " << seed << ", " << more << " more, on " << paper);
  ++tally.valid;
  Diagnostics diagnostics;
  const auto pages = bench_sheet(*facts, *plain.catalogue, *looks.style, looks.measure, 0, diagnostics, as_placed);
  if (pages.empty()) {         // one clear error, never a drawing with a defect
    CHECK(diagnostics.all().size() == 1);
    MESSAGE(seed << " on " << paper << ": " << diagnostics.all().front().message);
    ++tally.refused;
    return;
  }
  std::string defects;
  for (const Defect& d : prove(pages, facts->circuit())) defects += d.kind + ": " + d.message + "\n";
  CHECK(defects == "");
  const int wires = static_cast<int>(facts->circuit().wires.size());
  tally.least = std::min(tally.least, wires);
  tally.most = std::max(tally.most, wires);
  ++tally.drawn;
  tally.several += pages.size() > 1;
}

void report(const Tally& t) {
  MESSAGE(t.drawn << " drawn, " << t.refused << " refused, " << t.least << " to " << t.most << " wires, " << t.several << " on several pages");
}

}  // namespace

TEST_CASE("2,000 jobs by chance: each is drawn, and read back from its geometry it is the circuit") {
  const fixture::Looks looks;
  fixture::Job plain = fixture::built(fixture::plain_job());
  Tally tally;
  for (unsigned seed = 1; seed <= seeds; ++seed) {
    const int more = seed % 16 == 0 ? static_cast<int>(seed / 16 % 13) : seed % 16 == 8 ? -1 - static_cast<int>(seed / 16 % 2) : 0;   // some are large, some small
    draw_by_chance(seed, more, seed % 3 == 0 ? "tabloid" : "a3", looks, plain, tally);
  }
  report(tally);
  CHECK(tally.drawn >= 2000);
  CHECK(tally.refused * 200 <= tally.valid);   // what fits no page even when divided: one in 200 at most
  CHECK(tally.least <= 20);
  CHECK(tally.most >= 150);
  CHECK(tally.several > 500);
}

TEST_CASE("jobs by chance on the paper of an office printer go over several sheets") {
  const fixture::Looks looks;
  fixture::Job plain = fixture::built(fixture::plain_job());
  Tally tally;
  for (unsigned seed = 1; seed <= 400; ++seed) draw_by_chance(seed, 0, seed % 2 == 0 ? "a4" : "letter", looks, plain, tally);
  report(tally);
  CHECK(tally.drawn >= 390);
  CHECK(tally.refused * 200 <= tally.valid);
  CHECK(tally.several > 300);
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
