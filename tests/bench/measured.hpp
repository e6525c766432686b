// What the measuring programs share: a job from a text to its facts, and time.
#pragma once

#include <chrono>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>
#include <string>

#include "catalogue/settle.hpp"
#include "check/check.hpp"
#include "yaml/node.hpp"

namespace towloom::measured {

template <class Work>
double seconds(const Work& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// Of this process alone: what others do on the machine does not count.
template <class Work>
double cpu_seconds(const Work& work) {
  const std::clock_t start = std::clock();
  work();
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

inline std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

// The catalogue with what a job defines itself.
inline std::optional<Catalogue> catalogue_of(const std::string& text, const std::filesystem::path& root) {
  Sources sources;
  Diagnostics diagnostics;
  const int file = sources.add("job.yaml", text);
  const auto tree = read_yaml(file, sources, diagnostics);
  const auto spec = tree ? read_job(*tree, file, diagnostics) : std::nullopt;
  std::vector<PlacedText> own;
  if (spec)
    for (const PlacedText& folder : spec->catalogues) own.push_back({(root / "specs" / "jobs" / folder.value).string(), folder.place});
  return read_catalogue(root / "specs", sources, diagnostics, own, spec ? spec->definitions : std::vector<Node>{});
}

// As far as the circuit, in one size of wire; or solved and checked.
inline std::optional<Facts> facts_of(const std::string& text, Catalogue& catalogue, bool solved = true) {
  Sources sources;
  Diagnostics diagnostics;
  const int file = sources.add("job.yaml", text);
  const auto tree = read_yaml(file, sources, diagnostics);
  auto spec = tree ? read_job(*tree, file, diagnostics) : std::nullopt;
  std::optional<Facts> facts;
  if (spec && settle_job(*spec, catalogue, diagnostics)) {
    if (solved) {
      facts = find_facts(*spec, catalogue, diagnostics);
    } else if (auto circuit = build(*spec, catalogue, diagnostics)) {
      facts.emplace();
      facts->spec = *spec;
      facts->sized.circuit = std::move(*circuit);
      for (Wire& w : facts->sized.circuit.wires)
        if (!w.size && w.fixed_ohm < 0) w.size = WireSizeName{"16", WireSizeName::System::awg};
    }
  }
  if (!facts) std::fputs(format_diagnostics(diagnostics, sources, false).c_str(), stderr);
  return facts;
}

}  // namespace towloom::measured
