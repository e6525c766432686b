// Advice held against the trade's decision table: car classes by coach by method. The table's own letters stand here:
// Y works, y works with something more, N does not. Held: N or not, and whether a converter is asked for.
#include "check/classes.hpp"
#include "check/fixture.hpp"
#include "check/survey.hpp"

using namespace towloom;
using fixture::advice;
using fixture::CarClass;
using fixture::cars;
using fixture::needs;
using fixture::survey;

namespace {

const char* const methods[] = {"single-diode",       "two-way-diodes",     "added-bulbs",    "removable-lamps", "relay-change-over",
                               "battery-fed-relays", "powered-module",     "field-effect",   "dedicated-strips"};

struct Row {
  const char* car;
  bool separate;
  const char* works;       // M1 to M9
  const char* converter;   // C where the table asks for a converter, - where not, . where nothing is held
};

// Columns: M1 single diode, M2 two-way diodes, M3 added bulbs, M4 removable lamps, M5 relay change-over, M6 battery-fed
// relays, M7 powered module, M8 field-effect, M9 strips.
const Row rows[] = {
    {"K1", false, "NYYYYYYYY", ".--------"},
    {"K1", true, "Nyyyyyyyy", ".CCCCC.CC"},   // the powered module may have the converter built in
    {"K2", false, "NyYYyyyyY", ".--------"},
    {"K2", true, "NYyyYYYYy", ".-CC----C"},
    {"K3", false, "NyyYYYYYY", ".--------"},
    {"K3", true, "Nyyyyyyyy", ".CCCCC.CC"},
    {"K4", false, "NyyYyyyyY", ".--------"},
    {"K4", true, "NyyyYYYYy", ".-CC----C"},
    {"K5", false, "NNyYNNyNY", "..--....-"},
    {"K6", false, "NNyYNNNNY", "..--....-"},
    {"K7", false, "NNYYNyNNY", "..--....-"},
};

// Where the solved answer is another one than the table's, and why.
std::string disagreement(const Row& row, const std::string& method) {
  // Solved: behind the block's diode the car's own tail pulses give less than a tenth of the light.
  if (std::string(row.car) == "K5" && method == "powered-module") return "N";
  return "";
}

// The table has one column where the catalogue has methods for several outlets or ways of switching: the best of them.
const Candidate& best_of(const std::vector<Candidate>& all, const std::string& method) {
  std::vector<std::string> family = {method};
  if (method == "powered-module") family = {method, "powered-module-separate", "powered-combining-module"};
  if (method == "battery-fed-relays") family = {method, "return-side-relays"};   // K7: relays in the lamps' returns
  const auto at = std::find_if(all.begin(), all.end(), [&](const Candidate& c) { return std::find(family.begin(), family.end(), c.method->name) != family.end(); });
  REQUIRE(at != all.end());   // the list is best first
  return *at;
}

}  // namespace

TEST_CASE("the decision table of car classes, coaches and methods") {
  for (const Row& row : rows) {
    CAPTURE(row.car);
    CAPTURE(row.separate);
    const auto car = std::find_if(std::begin(cars), std::end(cars), [&](const CarClass& c) { return std::string(c.name) == row.car; });
    fixture::Job job;
    const auto all = advice(survey(*car, row.separate), job);
    for (int m = 0; m < 9; ++m) {
      const Candidate& c = best_of(all, methods[m]);
      CAPTURE(methods[m]);
      CAPTURE(c.why);
      std::string expected(1, row.works[m]);
      if (const std::string other = disagreement(row, methods[m]); !other.empty()) expected = other;
      CHECK((c.advice == Advice::does_not) == (expected == "N"));
      if (c.advice == Advice::does_not) continue;
      if (row.converter[m] == 'C') CHECK(needs(c, "converter"));
      if (row.converter[m] == '-') CHECK_FALSE(needs(c, "converter"));
    }
  }
}

// Trade: combined filament car behind a combined coach with a brake that presses the pedal: diodes with a stop-lamp
// cut-off; the relay change-over saves the cut-off.
TEST_CASE("a pressed pedal asks the diodes for a cut-off, not the change-over relays") {
  fixture::Job job;
  const auto all = advice(survey(cars[0], false, "extras:\n  pedal brake: {fuse: 15 A, at: left rear}\n"), job);
  CHECK(needs(fixture::candidate(all, "two-way-diodes"), "cut-off"));
  CHECK(fixture::candidate(all, "two-way-diodes").advice == Advice::with_extras);
  CHECK(fixture::candidate(all, "relay-change-over").advice == Advice::works);
  CHECK_FALSE(needs(fixture::candidate(all, "relay-change-over"), "cut-off"));
  CHECK_FALSE(needs(fixture::candidate(all, "dedicated-strips"), "cut-off"));
}

// Survey S03: its runs end at the tailgate, where strips were fitted; the lamps themselves are reached by none. Trade table
// 3.2: lamps that flash by pulses or share one bulb want lamps of their own.
TEST_CASE("a survey whose runs do not reach the lamps is advised with a run assumed, and says so") {
  const auto job = fixture::checked(fixture::job_file("compact-crossover"));
  const Spec& spec = *job.job.spec;
  std::vector<std::string> to;
  for (const RunRow& run : assumed_runs(spec)) to.push_back(run.from.value + " to " + run.to.value);
  CHECK(to == std::vector<std::string>{"left of tailgate to left rear", "right of tailgate to right rear"});
  const std::vector<Candidate> ranked = advise(spec, *job.job.catalogue);
  REQUIRE(!ranked.empty());
  CHECK(ranked[0].method->name == "dedicated-strips");
  CHECK(ranked[0].advice == Advice::works);
}
