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

// A lit bar of twenty lamps: the driver's page says of lamps that are alike how many there are.
TEST_CASE("a car of many lamps: every sheet of the set is without a defect") {
  const fixture::Looks looks;
  std::string more;
  for (int i = 1; i <= 20; ++i) more += "    more " + std::to_string(i) + ": {chmsl: LED 0.02 A, feed: WH/VT 0.5 mm2, node: STOP_SW}\n";
  fixture::Job job = fixture::built(fixture::changed(fixture::plain_job(), "    high stop: ", more + "    high stop: "));
  REQUIRE(job.spec.has_value());
  Diagnostics diagnostics;
  auto facts = find_facts(*job.spec, *job.catalogue, diagnostics);
  REQUIRE(facts.has_value());
  std::vector<Drawing> pages = bench_sheet(*facts, *job.catalogue, *looks.style, looks.measure, 40, diagnostics);
  REQUIRE_FALSE(pages.empty());
  fixture::add_other_sheets(*facts, *job.catalogue, looks, fixture::faults_of(*facts, *job.catalogue), pages);
  for (const Drawing& page : pages)
    for (const Defect& d : prove_geometry(page)) FAIL_CHECK(page.sheet << ": " << d.kind << ": " << d.message);
  int said = 0;
  for (const Drawing& page : pages)
    for (const Item& item : page.items)
      if (const auto* label = std::get_if<Label>(&item)) said += page.sheet == "customer" && label->text == "high stop (21):";
  CHECK(said == 1);
}
