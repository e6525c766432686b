// The symptom table as a whole: classes, what is skipped, what is said of its figures.
#include <algorithm>
#include <random>

#include "check/all_faults.hpp"

using namespace towloom;
using namespace towloom::fixture;

TEST_CASE("classes hold every fault once, and the same picture never twice") {
  const AllFaults& b = bench();
  std::vector<int> times(b.table.rows.size(), 0);
  for (const FaultClass& c : b.table.classes)
    for (const int f : c.faults) {
      ++times[static_cast<std::size_t>(f)];
      CHECK(b.table.rows[static_cast<std::size_t>(f)].symptoms == c.symptoms);
    }
  CHECK(std::all_of(times.begin(), times.end(), [](int n) { return n == 1; }));
  for (std::size_t i = 0; i < b.table.classes.size(); ++i)
    for (std::size_t j = i + 1; j < b.table.classes.size(); ++j)
      CHECK(b.table.classes[i].symptoms != b.table.classes[j].symptoms);
  // In series in one path: the lamps cannot tell a broken core from a contact that does not touch.
  CHECK(b.row("wire-open", "C3").symptoms == b.row("contact-open", "J1.3").symptoms);
}

TEST_CASE("scenes skipped because the fault leaves them alone are the same when solved") {
  const AllFaults& b = bench();
  CHECK(b.table.skipped > 1000);
  std::mt19937 random(7);
  std::vector<Fault> sample = b.faults;
  std::shuffle(sample.begin(), sample.end(), random);
  sample.resize(60);
  const FaultTable quick = solve_faults(b.circuit, b.catalogue, b.states, sample);
  const FaultTable whole = solve_faults(b.circuit, b.catalogue, b.states, sample, false);
  CHECK(quick.skipped > 300);
  CHECK(whole.skipped == 0);
  for (std::size_t i = 0; i < sample.size(); ++i) {
    CAPTURE(sample[i].kind + " " + sample[i].at);
    CHECK(quick.rows[i].symptoms == whole.rows[i].symptoms);
    CHECK(quick.rows[i].unsolved == 0);
  }
}

TEST_CASE("every fault has an operating point in every scene, and the text names each once") {
  const AllFaults& b = bench();
  CHECK(b.table.rows.size() > 200);
  const std::string text = faults_text(*b.job.facts, b.catalogue, b.table);
  for (const FaultRow& r : b.table.rows) {
    CHECK(r.unsolved == 0);
    const std::string line = "\n    - " + describe(r.fault, b.catalogue);
    CAPTURE(line);
    int times = 0;
    for (std::size_t at = text.find(line); at != std::string::npos; at = text.find(line, at + 1))
      times += text[at + line.size()] == '\n' || text[at + line.size()] == ',';
    CHECK(times == 1);
  }
  CHECK(text.find("from memory") != std::string::npos);   // the coach's fuse is assumed
}
