// The shipped catalogue, and a job from a text.
#pragma once

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "catalogue/names.hpp"
#include "catalogue/settle.hpp"
#include "circuit/circuit.hpp"

namespace towloom::fixture {

inline std::string job_file(const std::string& name) {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs" / (name + ".yaml"));
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}
inline std::string plain_job() { return job_file("plain-hatchback"); }

// The text with its one occurrence of `old` replaced.
inline std::string changed(std::string text, const std::string& old, const std::string& now) {
  const auto at = text.find(old);
  REQUIRE_MESSAGE(at != std::string::npos, "not in the job: " << old);
  return text.replace(at, old.size(), now);
}

// The text without its extras.
inline std::string bare(std::string text) {
  const auto from = text.find("extras:\n"), to = text.find("runs:\n");
  REQUIRE(from < to);
  return text.erase(from, to - from);
}

struct Job {
  Sources sources;
  Diagnostics diagnostics;
  std::optional<Catalogue> catalogue;
  std::optional<Spec> spec;
  std::optional<Circuit> circuit;
};

inline Job built(const std::string& text) {
  Job job;
  const int file = job.sources.add("job.yaml", text);
  const auto root = read_yaml(file, job.sources, job.diagnostics);
  if (root) job.spec = read_rows(*root, file, job.diagnostics);
  const std::filesystem::path specs = std::filesystem::path(TOWLOOM_ROOT) / "specs";
  std::vector<PlacedText> own;   // as seen from the shown jobs
  if (job.spec)
    for (const PlacedText& folder : job.spec->catalogues) own.push_back({(specs / "jobs" / folder.value).string(), folder.place});
  job.catalogue = read_catalogue(specs, job.sources, job.diagnostics, own, job.spec ? job.spec->definitions : std::vector<Node>{});
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  REQUIRE(job.catalogue.has_value());
  REQUIRE(job.spec.has_value());
  settle_job(*job.spec, *job.catalogue, job.diagnostics);   // in the order of the commands: all that is wrong in one run
  if (job.diagnostics.has_errors())
    check_names(*job.spec, *job.catalogue, job.diagnostics);
  else
    job.circuit = build(*job.spec, *job.catalogue, job.diagnostics);
  return job;
}

// Solved without sizing: every wire whose size the job leaves open is 14 AWG.
inline Job built_of_14(const std::string& text) {
  Job job = built(text);
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  REQUIRE(job.circuit.has_value());
  for (Wire& w : job.circuit->wires)
    if (!w.size) w.size = WireSizeName{"14", WireSizeName::System::awg};
  return job;
}

inline bool reported(const Job& job, const std::string& code, const std::string& words) {
  for (const Diagnostic& d : job.diagnostics.all())
    if (d.code == code && d.message.find(words) != std::string::npos && d.place.known()) return true;
  return false;
}

}  // namespace towloom::fixture
