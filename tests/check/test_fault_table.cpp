// The symptom table as a whole: classes, what is skipped, what is said of its figures.
#include <algorithm>
#include <random>

#include "check/all_faults.hpp"
#include "check/scene_by_scene.hpp"
#include "solve/alike.hpp"
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

TEST_CASE("the table is what scene by scene gives, with relays, modules and pulse-fed lamps too") {
  const AllFaults& b = bench();
  CHECK(b.table.skipped > 1000);
  CHECK(SceneByScene{b.circuit, b.catalogue, b.states}.compare(b.table, 7, 600) > 100);
  // Relays that part the stop lamps; field-effect modules beside relays; a converter with its supply; pulse-fed lamps.
  for (const char* name : {"mended-hatchback", "mixed-roadster", "box-van", "compact-crossover"}) {
    CAPTURE(name);
    const Checked job = checked(job_file(name));
    const Catalogue& catalogue = *job.job.catalogue;
    const Circuit& circuit = job.facts->circuit();
    const FaultTable table = solve_faults(circuit, catalogue, job.facts->states, list_faults(circuit, catalogue));
    CHECK(SceneByScene{circuit, catalogue, job.facts->states}.compare(table, 3, 250) > 25);
  }
}

TEST_CASE("faults that make the same of the circuit share one answer, which is the own answer of each") {
  // Units whose supply floats in some scenes; field-effect modules beside relays; a converter with its supply; pulse-fed lamps.
  for (const char* name : {"plain-hatchback", "low-coupe", "mixed-roadster", "box-van", "compact-crossover"}) {
    CAPTURE(name);
    const Checked job = checked(job_file(name));
    const Catalogue& catalogue = *job.job.catalogue;
    const Circuit& circuit = job.facts->circuit();
    const FaultTable table = solve_faults(circuit, catalogue, job.facts->states, list_faults(circuit, catalogue));
    CHECK(table.shared > 50);
    std::mt19937 random(5);
    for (int i = 0; i < 20; ++i) {
      const FaultRow& row = table.rows[random() % table.rows.size()];
      CAPTURE(row.fault.kind + " " + row.fault.at);
      const FaultTable alone = solve_faults(circuit, catalogue, job.facts->states, {row.fault});
      CHECK(alone.shared == 0);
      CHECK(alone.rows[0].symptoms == row.symptoms);
      CHECK(alone.rows[0].blown == row.blown);
      CHECK(alone.rows[0].unsolved == row.unsolved);
    }
  }
}

// Electrical reference 10: a break in a lamp's one way is the same wherever it is, a short before or behind the fuse is not.
TEST_CASE("what is alike and what is not") {
  const AllFaults& b = bench();
  const Sound sound(b.circuit, b.catalogue, b.states);
  const auto essence = [&](const std::string& kind, const std::string& at) {
    return find_essence(sound, Solver(sound.solver, b.row(kind, at).fault.changes), {});
  };
  CHECK(essence("wire-open", "C3") == essence("contact-open", "J1.3"));
  CHECK(essence("wire-open", "C3") == essence("contact-open", "J2.3"));
  CHECK(essence("contact-poor", "J1.3") == essence("contact-poor", "J2.3"));
  CHECK(essence("wire-open", "C3") != essence("contact-poor", "J1.3"));
  CHECK(essence("contact-open", "J1.3") != essence("contact-open", "J1.4"));
  CHECK(essence("contact-poor", "J1.3") != essence("contact-corroded", "J1.3"));
}

TEST_CASE("a sample of rows is in every scene what that scene gives by itself") {
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

// SAE J588e 4.5 and NHTSA's letters of 1976 and 1991 (electrical reference 5.2 and 10, trade reference 4 row 20): a
// flasher of fixed load shows a lamp that is out by its rate, one of variable load does not.
TEST_CASE("a lost turn lamp makes a flasher of fixed load run fast") {
  const auto shown = [](const std::string& flasher, const std::string& monitoring, const std::string& fault) {
    std::string text = plain_job();
    const auto put = [&](const std::string& before, const std::string& line) { text.insert(text.find(before), line); };
    if (!flasher.empty()) put("  signals: combined", "  flasher: {kind: " + flasher + ", cycles: [333/333 ms]}\n");
    if (!monitoring.empty()) {
      const std::size_t at = text.find("  monitoring: ");
      REQUIRE(at != std::string::npos);
      text.replace(at, text.find('\n', at) - at, "  monitoring: " + monitoring);
    }
    const Checked job = checked(text);
    std::vector<Fault> faults = list_faults(job.facts->circuit(), *job.job.catalogue);
    std::erase_if(faults, [&](const Fault& f) { return f.kind != "lamp-open" || f.at != fault; });
    REQUIRE(faults.size() == 1);
    return faults_text(*job.facts, *job.job.catalogue, solve_faults(job.facts->circuit(), *job.job.catalogue, job.facts->states, faults));
  };
  const std::string turn = "E1", tail = "E3";
  CHECK(shown("fixed load", "", turn).find("the coach's turn signals flash fast, about 2 times, or stay steady\n") != std::string::npos);
  CHECK(shown("variable load", "", turn).find("turn signals") == std::string::npos);
  CHECK(shown("variable load", "", turn).find("it gives no sign of a lamp that is out") != std::string::npos);
  CHECK(shown("", "", turn).find("the coach's turn signals may flash fast") != std::string::npos);
  CHECK(shown("variable load", "flasher", turn).find("the car's turn signals flash fast, about 2 times, or stay steady\n") != std::string::npos);
  CHECK(shown("fixed load", "flasher", tail).find("turn signals") == std::string::npos);
}
