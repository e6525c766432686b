// Measures, not a test: prints ratios of one run, so that a slow or shared machine does not mislead.
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "check/check.hpp"
#include "solve/faults.hpp"
#include "yaml/node.hpp"

using namespace towloom;

namespace {

template <class Work>
double seconds(const Work& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

}  // namespace

int main(int count, char** words) {
  const std::filesystem::path root = count > 1 ? words[1] : ".";
  Sources sources;
  Diagnostics diagnostics;
  const auto catalogue = read_catalogue(root / "specs", sources, diagnostics);
  const int file = sources.add("job.yaml", text_of(root / "specs" / "jobs" / "plain-hatchback.yaml"));
  const auto tree = read_yaml(file, sources, diagnostics);
  const auto spec = tree ? read_job(*tree, file, diagnostics) : std::nullopt;
  const auto facts = catalogue && spec ? find_facts(*spec, *catalogue, diagnostics) : std::nullopt;
  if (!facts) {
    std::fputs(format_diagnostics(diagnostics, sources, false).c_str(), stderr);
    return 2;
  }
  const Circuit& circuit = facts->circuit();
  States states;
  const double scenes = seconds([&] { states = solve_all(circuit, *catalogue, *spec); });
  FaultTable table;
  const std::vector<Fault> faults = list_faults(circuit, *catalogue);
  const double all = seconds([&] { table = solve_faults(circuit, *catalogue, states, faults); });
  std::printf("scenes: %zu, %.1f ms\n", states.scenes.size(), 1e3 * scenes);
  std::printf("faults: %zu, %d scenes solved, %d skipped, %zu classes, %.1f ms, %.1f times all scenes\n", faults.size(), table.solved,
              table.skipped, table.classes.size(), 1e3 * all, all / scenes);
  return 0;
}
