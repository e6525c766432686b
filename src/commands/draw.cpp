#include <filesystem>
#include <iostream>

#include "base/file.hpp"
#include "commands/commands.hpp"
#include "prove/prove.hpp"
#include "render/render.hpp"
#include "sheets/sheets.hpp"

namespace towloom {
namespace fs = std::filesystem;
namespace {

using Pages = std::vector<Drawing>;
using Files = std::vector<std::pair<fs::path, std::string>>;

// Defects of a finished sheet are faults of this program, never of the job.
bool proved(const Pages& bench, const Pages& others, const Circuit& circuit) {
  std::vector<Defect> defects = prove(bench, circuit);
  for (const Drawing& page : others)
    for (Defect& d : prove_geometry(page)) defects.push_back(std::move(d));
  for (const Defect& d : defects) std::cerr << "towloom: internal fault: " << d.kind << ": " << d.message << "\n";
  return defects.empty();
}

void print_stats(const Pages& pages) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const bool several = pages.size() > 1;
    std::cout << stats_table(pages[i].sheet + (several ? " " + std::to_string(i + 1) : ""), measure(pages[i]));
  }
}

void add_svg(Files& files, const fs::path& folder, const std::string& stem, const Pages& pages) {
  for (size_t i = 0; i < pages.size(); ++i) {
    std::string name = stem + "-" + pages[i].sheet;
    if (i > 0 && pages[i].sheet == pages[i - 1].sheet) name += "-" + std::to_string(i + 1);
    files.emplace_back(folder / (name + ".svg"), to_svg(pages[i]));
  }
}

int write(const Loaded& loaded, const Arguments& arguments, const Pages& bench, const Pages& faces) {
  Pages all = bench;
  all.insert(all.end(), faces.begin(), faces.end());
  const TitleRows& job = loaded.facts.spec.job;
  std::string problem;
  const std::string pdf =
      to_pdf(all, {job.title.value, job.by.value, "Job " + job.number.value, job.date.value}, problem);
  if (!problem.empty()) {
    std::cerr << "towloom: internal fault: PDF: " << problem << "\n";
    return internal;
  }
  const fs::path folder = arguments.output.empty() ? "out" : arguments.output;
  const std::string stem = fs::path(arguments.files.front()).stem().string();
  Files files{{folder / (stem + ".pdf"), pdf}};
  add_svg(files, folder, stem, bench);
  add_svg(files, folder, stem, faces);
  std::error_code refused;
  fs::create_directories(folder, refused);
  problem = refused ? folder.string() + ": " + refused.message() : write_files(files);
  if (!problem.empty()) {
    std::cerr << "towloom: error: cannot write: " << problem << "\n";
    return cannot_write;
  }
  for (const auto& [path, bytes] : files) std::cout << path.string() << "\n";
  return clean;
}

constexpr int most_effort = 10000;

std::optional<int> effort_of(const Arguments& arguments) {
  int out = 0;
  for (const char c : arguments.effort) {
    if (c < '0' || c > '9') return std::nullopt;
    out = out * 10 + (c - '0');
    if (out > most_effort) return std::nullopt;
  }
  return out;
}

}  // namespace

int draw_command(const Arguments& arguments) {
  const auto effort = effort_of(arguments);
  if (!effort) {
    std::cerr << "towloom: error: --effort takes a whole number from 0 to " << most_effort << ", not '" << arguments.effort << "'\n";
    return bad_input;
  }
  auto loaded = load(arguments);
  if (!loaded) return bad_input;
  if (!arguments.paper.empty()) {
    loaded->facts.spec.paper = arguments.paper;
    loaded->facts.spec.paper_named = true;
  }
  const Diagnostics found = as_diagnostics(loaded->facts.findings);
  print(found, loaded->sources);
  if (arguments.strict && found.has_errors()) return faults;

  Diagnostics diagnostics;
  const TextMeasure text;
  if (!text.ok()) {
    std::cerr << "towloom: error: " << text.error() << "\n";
    return bad_input;
  }
  const auto style = read_style(fs::path(loaded->data) / "styles", "workshop", loaded->sources, diagnostics);
  Pages bench, faces;
  if (style) {
    faces = faces_sheet(loaded->facts, loaded->catalogue, *style, text, 1);
    bench = bench_sheet(loaded->facts, loaded->catalogue, *style, text, static_cast<int>(faces.size()), diagnostics, *effort);
    if (bench.size() > 1) faces = faces_sheet(loaded->facts, loaded->catalogue, *style, text, static_cast<int>(bench.size()));
  }
  print(diagnostics, loaded->sources);
  if (!style) return bad_input;
  if (diagnostics.has_errors()) return bad_input;
  if (!proved(bench, faces, loaded->facts.circuit())) return internal;
  if (arguments.stats) print_stats(bench), print_stats(faces);
  return write(*loaded, arguments, bench, faces);
}

}  // namespace towloom
