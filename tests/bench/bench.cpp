// Measures, not a test: ratios of one run, so that a slow or shared machine does not mislead.
//   ninja bench && ./bench PROJECT_FOLDER [JOB...]: of these jobs the faults alone
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <filesystem>

#include "bench/measured.hpp"
#include "ngspice/batch.hpp"

using namespace towloom;
using measured::catalogue_of, measured::facts_of, measured::seconds, measured::cpu_seconds, measured::text_of;
namespace fs = std::filesystem;

namespace {

double ngspice_seconds(const std::vector<std::string>& decks) {
  const fs::path folder = fs::temp_directory_path() / ("towloom-bench-" + std::to_string(getpid()));
  const std::string command = "ngspice -b '" + ngspice::write_batch(decks, folder).string() + "' > /dev/null 2>&1";
  double out = 0;
  int status = 0;
  out = seconds([&] { status = std::system(command.c_str()); });
  fs::remove_all(folder);
  return status == 0 ? out : -1;
}

void against_ngspice(const Facts& facts, const Catalogue& catalogue) {
  std::vector<std::string> decks;
  for (std::size_t s = 0; s < facts.states.scenes.size(); ++s)
    for (int p = 0; p < facts.states.solved[s].phases; ++p) decks.push_back(netlist(facts.circuit(), catalogue, facts.states.scenes[s], p));
  const double ours = seconds([&] {
    for (const Scene& scene : facts.states.scenes) (void)solve(facts.circuit(), catalogue, scene);
  });
  const double start = ngspice_seconds({}), theirs = ngspice_seconds(decks);
  if (theirs < 0 || start < 0) {
    std::printf("ngspice: not here, or it failed\n");
    return;
  }
  std::printf("%zu scenes, %zu phases: ours %.2f ms; one ngspice process %.1f ms, %.1f ms of it start-up\n", facts.states.scenes.size(),
              decks.size(), 1e3 * ours, 1e3 * theirs, 1e3 * start);
  std::printf("  ratio with start-up 1/%.0f, without 1/%.0f\n", theirs / ours, (theirs - start) / ours);
}

// One row a job: all single faults in the towing scenes and in all scenes.
void faults_of(const std::string& job, const Facts& facts, const Catalogue& catalogue) {
  States tow;
  for (std::size_t s = 0; s < facts.states.scenes.size(); ++s) {
    if (facts.states.scenes[s].kind != "towing") continue;
    tow.scenes.push_back(facts.states.scenes[s]);
    tow.solved.push_back(facts.states.solved[s]);
  }
  const std::vector<Fault> faults = list_faults(facts.circuit(), catalogue);
  std::printf("%-20s %5zu wires %5zu faults", job.c_str(), facts.circuit().wires.size(), faults.size());
  for (const States* states : {const_cast<const States*>(&tow), &facts.states}) {
    FaultTable table;
    const auto solve_all_of_them = [&] { table = solve_faults(facts.circuit(), catalogue, *states, faults); };
    double wall = 0;
    const double all = cpu_seconds([&] { wall = seconds(solve_all_of_them); });
    std::printf(" | %4zu scenes %6.0f ms CPU %6.0f ms wall, %6d solved %6d skipped, %3d faults shared, %4zu classes", states->scenes.size(), 1e3 * all, 1e3 * wall, table.solved, table.skipped,
                table.shared, table.classes.size());
  }
  std::printf("\n");
  std::fflush(stdout);
}

// The plain job with more high stop lamps, each in its own housing.
std::string enlarged(const std::string& plain, int lamps) {
  const std::string before = "    high stop: ";
  std::string more;
  for (int i = 1; i <= lamps; ++i)
    more += "    more " + std::to_string(i) + ": {chmsl: LED 0.02 A, feed: WH/VT 0.5 mm2, node: STOP_SW}\n";
  std::string out = plain;
  return out.insert(out.find(before), more);
}

void growth(const std::string& plain, Catalogue& catalogue) {
  double before_s = 0, before_n = 0;
  for (const int lamps : {0, 25, 75, 175, 475}) {
    std::optional<Facts> facts;
    const double s = cpu_seconds([&] { facts = facts_of(enlarged(plain, lamps), catalogue); });
    if (!facts) return;
    const double n = static_cast<double>(facts->circuit().wires.size());
    std::printf("%4.0f wires: read, build, size, solve, check %.0f ms CPU", n, 1e3 * s);
    if (before_n > 0) std::printf(", grows with n^%.2f", std::log(s / before_s) / std::log(n / before_n));
    std::printf("\n");
    before_s = s;
    before_n = n;
  }
}

}  // namespace

int main(int count, char** words) {
  const fs::path root = count > 1 ? words[1] : ".";
  const std::vector<std::string> only(words + std::min(count, 2), words + count);
  Sources sources;
  Diagnostics diagnostics;
  auto catalogue = read_catalogue(root / "specs", sources, diagnostics);
  const std::string plain = text_of(root / "specs" / "jobs" / "plain-hatchback.yaml");
  const auto facts = catalogue ? facts_of(plain, *catalogue) : std::nullopt;
  if (!facts) return 2;
  if (only.empty()) against_ngspice(*facts, *catalogue);
  std::vector<fs::path> jobs;
  for (const auto& entry : fs::directory_iterator(root / "specs" / "jobs"))
    if (entry.path().extension() == ".yaml" && (only.empty() || std::find(only.begin(), only.end(), entry.path().stem()) != only.end()))
      jobs.push_back(entry.path());
  std::sort(jobs.begin(), jobs.end());
  for (const fs::path& job : jobs) {
    auto its = catalogue_of(text_of(job), root);
    if (!its) return 2;
    if (const auto one = facts_of(text_of(job), *its)) faults_of(job.stem().string(), *one, *its);
  }
  if (only.empty()) growth(plain, *catalogue);
  return 0;
}
