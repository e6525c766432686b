// Pages that are drawn as found: whatever was seen at a car, the page reads back as the circuit that was solved.
#include <doctest/doctest.h>

#include "check/as_drawn.hpp"
#include "check/fixture.hpp"
#include "layout/style_fixture.hpp"
#include "prove/prove.hpp"
#include "sheets/sheets.hpp"

using namespace towloom;

namespace {

std::string job_text(const std::string& name) {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs" / (name + ".yaml"));
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

}  // namespace

TEST_CASE("every kind of fault is drawn as found without a defect") {
  const fixture::Looks looks;
  for (const std::string name : {"plain-hatchback", "mended-hatchback", "old-roadster"}) {
    const fixture::Checked c = fixture::checked(job_text(name));
    const Catalogue& catalogue = *c.job.catalogue;
    const AsFoundRow row;
    std::map<std::string, int> seen;   // kinds of faults
    for (const Fault& fault : list_faults(c.facts->circuit(), catalogue)) {
      if (++seen[fault.kind] > 2) continue;
      Observed o;
      o.row = &row;
      o.fault = fault;
      o.about = fault.at.substr(0, fault.at.find_first_of(". "));
      Facts found = *c.facts;
      found.found = true;
      found.sized.circuit = as_drawn(c.facts->circuit(), {o}, found.spec, catalogue);
      found.flags = {{1, o.about, o.about, describe(fault, catalogue), "as drawn", "test", "2026-11-26"}};
      Diagnostics diagnostics;
      INFO(name << ": " << describe(fault, catalogue));
      const auto pages = bench_sheet(found, catalogue, looks.look().style, looks.measure, 0, diagnostics, 0, "", 1);
      CHECK_FALSE(diagnostics.has_errors());
      REQUIRE(!pages.empty());
      CHECK(pages[0].sheet == "found");
      for (const Defect& d : prove(pages, found.circuit())) FAIL_CHECK(d.kind << ": " << d.message);
    }
    CHECK(seen.size() > 8);
  }
}
