// What stands in a reference, the sheet and the zone where its wire goes on, is true of the sheet that it names.
#include <algorithm>
#include <map>

#include "layout/enlarged.hpp"
#include "layout/style_fixture.hpp"
#include "layout/unsolved.hpp"
#include "sheets/sheets.hpp"

using namespace towloom;

namespace {

// As the heads of the columns say it.
const char* zone_head(Zone zone) {
  switch (zone) {
    case Zone::coach: case Zone::cord: return "COACH";
    case Zone::inlet: return "CAR INLET";
    case Zone::pocket: return "REAR POCKETS";
    case Zone::lamp: return "LAMPS";
    case Zone::run: case Zone::source: return "RUNS";
  }
  return "";
}

template <class T>
std::vector<const T*> all(const Drawing& page) {
  std::vector<const T*> out;
  for (const Item& item : page.items)
    if (const auto* found = std::get_if<T>(&item)) out.push_back(found);
  return out;
}

// How many references lead on.
int check_references(const std::vector<Drawing>& pages, const Circuit& circuit) {
  int out = 0;
  for (std::size_t p = 0; p < pages.size(); ++p)
    for (const PartFigure* reference : all<PartFigure>(pages[p])) {
      if (reference->kind != "reference") continue;
      REQUIRE(reference->pins.size() == 1);
      const Point pin = reference->pins[0].at;
      const auto runs = all<WireRun>(pages[p]);
      const auto run = std::find_if(runs.begin(), runs.end(), [&](const WireRun* r) { return r->path.front() == pin || r->path.back() == pin; });
      REQUIRE(run != runs.end());
      INFO((*run)->wire << " on sheet " << p + 1 << ": " << reference->value);
      const std::string terminal = (*run)->path.front() == pin ? (*run)->from : (*run)->to;   // that it goes on to
      const auto wire = std::find_if(circuit.wires.begin(), circuit.wires.end(), [&](const Wire& w) { return w.id == (*run)->wire; });
      REQUIRE(wire != circuit.wires.end());
      const TerminalRef end = (*run)->path.front() == pin ? wire->from : wire->to;
      CHECK(terminal == circuit.name(end));
      const Part& part = circuit.part(end.part);
      // The sheet and the zone that it names.
      const std::size_t blank = reference->value.find(' ');
      REQUIRE(blank != std::string::npos);
      const auto sheet = static_cast<std::size_t>(std::stoul(reference->value.substr(0, blank)));
      CHECK(reference->value.substr(blank + 1) == zone_head(part.zone));
      REQUIRE(sheet >= 1);
      REQUIRE(sheet <= pages.size());
      CHECK(sheet != p + 1);
      // There the wire ends at that part, and a reference leads back here.
      const Drawing& there = pages[sheet - 1];
      const auto others = all<WireRun>(there);
      const auto other = std::find_if(others.begin(), others.end(), [&](const WireRun* r) { return r->wire == (*run)->wire; });
      REQUIRE(other != others.end());
      const Point arrives = (*run)->path.front() == pin ? (*other)->path.front() : (*other)->path.back();
      const Point leaves = (*run)->path.front() == pin ? (*other)->path.back() : (*other)->path.front();
      bool part_found = false, back_found = false;
      for (const PartFigure* figure : all<PartFigure>(there))
        for (const Pin& at : figure->pins) {
          part_found = part_found || (figure->part == part.id && at.at == arrives);
          back_found = back_found || (figure->kind == "reference" && at.at == leaves && figure->value.rfind(std::to_string(p + 1) + " ", 0) == 0);
        }
      // A joint of many wires stands on several sheets: any of them will do.
      CHECK((part_found || part.kind == "splice" || part.kind == "joint"));
      CHECK(back_found);
      ++out;
    }
  return out;
}

std::vector<Drawing> drawn_on(Facts& facts, const char* paper, const fixture::Job& job, const fixture::Looks& looks) {
  facts.spec.paper = paper;
  facts.spec.paper_named = true;
  Diagnostics diagnostics;
  return bench_sheet(facts, *job.catalogue, *looks.style, looks.measure, 0, diagnostics, -1);
}

}  // namespace

TEST_CASE("every reference names the sheet and the zone where its wire goes on, and is answered there") {
  const fixture::Looks looks;
  for (const char* name : {"low-coupe", "led-estate", "mixed-roadster", "large-pickup"})
    for (const char* paper : {"a4", "letter", "a3"}) {
      INFO(name << " on " << paper);
      fixture::Job job = fixture::built(fixture::job_file(name));
      REQUIRE(job.spec.has_value());
      Diagnostics diagnostics;
      auto facts = find_facts(*job.spec, *job.catalogue, diagnostics);
      REQUIRE(facts.has_value());
      CHECK(check_references(drawn_on(*facts, paper, job, looks), facts->circuit()) >= 10);
    }
  fixture::Job plain = fixture::built(fixture::plain_job());
  auto large = fixture::unsolved(fixture::enlarged(fixture::plain_job(), 36), *plain.catalogue);
  REQUIRE(large.has_value());
  CHECK(check_references(drawn_on(*large, "a3", plain, looks), large->circuit()) >= 60);
}
