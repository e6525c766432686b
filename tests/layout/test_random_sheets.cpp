// Whole sets of jobs by chance: more lamps, longer names, more fuses than the shown jobs have.
#include "layout/all_sheets.hpp"
#include "random/jobs.hpp"

using namespace towloom;

TEST_CASE("jobs by chance: every sheet of the set is without a defect") {
  const fixture::Looks looks;
  const char* papers[] = {"a4", "letter", "a3"};
  int drawn = 0;
  std::vector<unsigned> seeds = {33, 72};   // sixteen lamps, and a long list of fuses: both took a second driver's page
  for (unsigned seed = 1; seed <= 24; ++seed) seeds.push_back(seed);
  for (const unsigned seed : seeds) {
    const char* paper = papers[seed % 3];
    INFO("seed " << seed << " on " << paper);
    fixture::Job job = fixture::built(by_chance::job(seed, seed % 8 == 1 ? 6 : 0));
    if (!job.spec || !job.circuit) continue;
    Diagnostics diagnostics;
    auto facts = find_facts(*job.spec, *job.catalogue, diagnostics);
    if (!facts) continue;      // no wire keeps its drop
    facts->spec.paper = paper;
    facts->spec.paper_named = true;
    std::vector<Drawing> pages = bench_sheet(*facts, *job.catalogue, *looks.style, looks.measure, 40, diagnostics);
    if (pages.empty()) continue;
    fixture::add_other_sheets(*facts, *job.catalogue, looks, fixture::faults_of(*facts, *job.catalogue), pages);
    for (const Drawing& page : pages)
      for (const Defect& d : prove_geometry(page)) FAIL_CHECK(page.sheet << ": " << d.kind << ": " << d.message);
    ++drawn;
  }
  CHECK(drawn >= 18);
}
