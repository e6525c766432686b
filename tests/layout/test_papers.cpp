// Every shown job on every paper that a workshop prints on: what does not fit one sheet goes on over several.
#include <algorithm>
#include <filesystem>

#include "layout/all_sheets.hpp"

using namespace towloom;
namespace fs = std::filesystem;

TEST_CASE("every shown job fits A4, letter and A3, each sheet without a defect") {
  const fixture::Looks looks;
  int jobs = 0, over_several = 0;
  for (const auto& entry : fs::directory_iterator(fs::path(TOWLOOM_ROOT) / "specs" / "jobs")) {
    if (entry.path().extension() != ".yaml") continue;
    ++jobs;
    fixture::Job job = fixture::built(fixture::job_file(entry.path().stem()));
    REQUIRE(job.spec.has_value());
    Diagnostics diagnostics;
    auto facts = find_facts(*job.spec, *job.catalogue, diagnostics);
    REQUIRE(facts.has_value());
    const Catalogue& catalogue = *job.catalogue;
    const auto faults = fixture::faults_of(*facts, catalogue);
    for (const char* paper : {"a4", "letter", "a3"}) {
      INFO(entry.path().stem().string() << " on " << paper);
      facts->spec.paper = paper;
      facts->spec.paper_named = true;
      std::vector<Drawing> pages = bench_sheet(*facts, catalogue, *looks.style, looks.measure, 40, diagnostics);
      REQUIRE_FALSE(pages.empty());
      CHECK(prove(pages, facts->circuit()).empty());
      over_several += pages.size() > 1;
      const auto [width, height] = looks.style->papers.at(paper);   // mm
      for (const Drawing& page : pages) CHECK((page.width == mm(width) && page.height == mm(height)));
      fixture::add_other_sheets(*facts, catalogue, looks, faults, pages);
      for (std::size_t p = 0; p < pages.size(); ++p)
        for (const Defect& d : prove_geometry(pages[p])) FAIL_CHECK(pages[p].sheet << ": " << d.kind << ": " << d.message);
    }
  }
  CHECK(jobs >= 28);
  CHECK(over_several > jobs);   // most are divided on the smaller papers
}
