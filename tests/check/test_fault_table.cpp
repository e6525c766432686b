// The symptom table as a whole: classes, what is skipped, what is said of its figures.
#include <algorithm>
#include <random>

#include "check/all_faults.hpp"
#include "solve/lamps.hpp"

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

// The table solves each network once and hands it to all scenes that have it. Here every scene is solved by itself,
// from 0 V, with its own fuses.
TEST_CASE("the table is what scene by scene gives") {
  const AllFaults& b = bench();
  const std::vector<WatchedLamp> lamps = watched_lamps(b.circuit);
  const Points points = number_points(b.circuit);
  std::mt19937 random(11);
  std::vector<std::size_t> rows(b.table.rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i] = i;
  std::shuffle(rows.begin(), rows.end(), random);
  int changed = 0, blown = 0;
  for (std::size_t i = 0; i < 25; ++i) {
    const FaultRow& row = b.table.rows[rows[i]];
    CAPTURE(row.fault.kind + " " + row.fault.at);
    blown += !row.blown.empty();
    for (std::size_t s = 0; s < b.states.scenes.size(); ++s) {
      CAPTURE(b.states.scenes[s].name);
      const Circuit faulty = after_fuses(with_fault(b.circuit, row.fault, b.catalogue), b.catalogue, b.states.scenes[s], b.states.solved[s]);
      const Solved solved = solve(faulty, b.catalogue, b.states.scenes[s]);
      for (std::size_t l = 0; l < lamps.size(); ++l) {
        const Seen now = lamp_state(faulty, b.catalogue, points, lamps[l].part, solved, lamps[l].element).seen;
        const auto symptom = std::find_if(row.symptoms.begin(), row.symptoms.end(), [&](const Symptom& x) {
          return x.scene == static_cast<int>(s) && x.lamp == static_cast<int>(l);
        });
        const Seen before = lamp_state(b.circuit, b.catalogue, points, lamps[l].part, b.states.solved[s], lamps[l].element).seen;
        CHECK(now == (symptom == row.symptoms.end() ? before : symptom->seen));
        changed += now != before;
      }
    }
  }
  CHECK(changed > 100);
  CHECK(blown > 0);
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
