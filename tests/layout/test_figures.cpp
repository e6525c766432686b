// How well the bench pages of the shown jobs read, in figures: each page against the goals of the design, with the
// exceptions named. An exception that is no longer needed fails too.
#include <algorithm>
#include <set>
#include <filesystem>

#include "layout/style_fixture.hpp"
#include "prove/prove.hpp"
#include "sheets/sheets.hpp"

using namespace towloom;
namespace fs = std::filesystem;

namespace {

struct Goal {
  const char* name;
  double (*excess)(const SheetStats&);   // over the goal; 0 and below: reached
};
const Goal goals[] = {
    {"crossings", [](const SheetStats& s) { return s.crossings - 1.05 * s.layered_crossings; }},   // anchors A4
    {"excess bends", [](const SheetStats& s) { return s.excess_bends - 0.10; }},
    {"detour", [](const SheetStats& s) { return s.worst_detour - 1.3; }},
    {"symmetry", [](const SheetStats& s) { return 0.98 - s.twin_symmetry; }},
    {"straight", [](const SheetStats& s) { return 0.45 - s.straight_share; }},
    {"fill", [](const SheetStats& s) { return std::max(0.55 - s.fill, s.fill - 0.855); }},
};

struct Exception {
  const char* page;
  const char* goal;
  double most;                   // over the goal
  const char* reason;
};
const Exception exceptions[] = {
    {"compact-crossover 1", "crossings", 0.31, "W18 and W20 of the charger cross once more than their order asks for"},
    {"compact-crossover 1", "excess bends", 0.061, "the charger's ground and supply leave it on the side that its neighbours stand on"},
    {"compact-sedan 1", "crossings", 1.96, "the converter's inputs pass its outputs once more than their order asks for"},
    {"led-estate 2", "fill", 0.08, "the left lamps alone do not fill A3"},
    {"large-pickup 2", "crossings", 2, "the brake units' returns lead back over the page to the battery's negative"},
    {"large-pickup 2", "excess bends", 0.0026, "the same"},
    {"low-coupe 1", "symmetry", 0.134, "one side has lamps more than the other, whose plug lies beside it"},
    {"low-coupe 3", "fill", 0.04, "the car's own side alone does not fill A3"},
    {"medium-wagon 2", "fill", 0.03, "supply and the car's own side do not fill A3"},
    {"mixed-roadster 1", "symmetry", 0.072, "the left relay stands one row nearer to the centre than its twin"},
    {"old-roadster 1", "crossings", 1.41, "the tail lamps' joint has a branch on each side of the splice before it"},
    {"pulsed-hatchback 1", "symmetry", 0.147, "the modules' and the lamps' grounds hang down on both sides, where mirror images would hang up on one"},
    {"tapped-pickup 1", "fill", 0.057, "a job without isolating parts leaves much of the sheet white"},
    {"small-sedan 2", "fill", 0.18, "supply and auxiliaries alone do not fill A3"},
};

const Exception* allowed(const std::string& page, const std::string& goal) {
  for (const Exception& e : exceptions)
    if (page == e.page && goal == e.goal) return &e;
  return nullptr;
}

}  // namespace

TEST_CASE("the bench pages of the shown jobs reach the figures of the design, but for the named ones") {
  const fixture::Looks looks;
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(fs::path(TOWLOOM_ROOT) / "specs" / "jobs"))
    if (entry.path().extension() == ".yaml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  REQUIRE(files.size() >= 17);
  std::set<std::string> drawn;
  for (const fs::path& file : files) {
    fixture::Job job = fixture::built(fixture::job_file(file.stem()));
    REQUIRE(job.spec.has_value());
    Diagnostics diagnostics;
    const auto facts = find_facts(*job.spec, *job.catalogue, diagnostics);
    INFO(file.stem().string() << "\n" << format_diagnostics(diagnostics, job.sources, false));
    CHECK(facts.has_value());
    if (!facts) continue;
    const auto pages = bench_sheet(*facts, *job.catalogue, *looks.style, looks.measure, 0, diagnostics);
    CHECK_FALSE(pages.empty());
    CHECK(prove(pages, facts->circuit()).empty());
    for (std::size_t p = 0; p < pages.size(); ++p) {
      const std::string page = file.stem().string() + " " + std::to_string(p + 1);
      drawn.insert(page);
      const SheetStats stats = measure(pages[p]);
      for (const Goal& goal : goals) {
        const double over = goal.excess(stats);
        const Exception* exception = allowed(page, goal.name);
        INFO((exception == nullptr ? "no exception is named" : exception->reason));
        INFO(page << ": " << std::string(goal.name) << " over the goal by " << over);
        if (exception == nullptr) CHECK(over <= 1e-9);
        else CHECK(over <= exception->most);
        if (exception != nullptr) CHECK(over > 1e-9);   // else it is no exception any more
      }
    }
  }
  for (const Exception& e : exceptions) {
    INFO(std::string(e.page));
    CHECK(drawn.count(e.page) == 1);   // an exception for a page that is not drawn any more
  }
}
