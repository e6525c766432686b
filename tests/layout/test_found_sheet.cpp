// Pages that are drawn as found: whatever was seen at a car, the page reads back as the circuit that was solved.
#include <doctest/doctest.h>

#include <set>

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

// From the survey of the inherited hatchback: what its owner saw and read, row by row.
TEST_CASE("the sheet of what was found says what each observation changes and what explains each reading") {
  const fixture::Looks looks;
  const fixture::Checked c = fixture::checked(job_text("inherited-hatchback"));
  Diagnostics diagnostics;
  const auto found = solve_as_found(*c.facts, *c.job.catalogue, diagnostics);
  REQUIRE(found.has_value());
  const auto pages = observed_sheet(*found, *c.job.catalogue, looks.look().style, looks.measure, 0, 0);
  REQUIRE(pages.size() == 1);
  for (const Defect& d : prove_geometry(pages[0])) FAIL_CHECK(d.kind << ": " << d.message);
  std::set<std::string> texts;
  for (const Item& item : pages[0].items)
    if (const auto* label = std::get_if<Label>(&item)) texts.insert(label->text);
  // The open ground cannot show while the cord's ground core ends elsewhere; the tap costs the left lamp its volts; a
  // fuse that is not there dims nothing.
  for (const char* words : {"A", "B", "C", "D", "E", "F", "on plastic", "ground G-X open", "diode D4 A reversed", "no lamp, alone or with the others", "13.4 V", "8.3 V", "J2 TM (1), car side"})
    CHECK_MESSAGE(texts.count(words) == 1, words);
}
