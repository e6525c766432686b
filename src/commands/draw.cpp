#include <filesystem>
#include <iostream>

#include "base/file.hpp"
#include "commands/commands.hpp"
#include "export/export.hpp"
#include "prove/prove.hpp"
#include "render/render.hpp"
#include "sheets/sheets.hpp"

namespace towloom {
namespace fs = std::filesystem;
namespace {

using Pages = std::vector<Drawing>;
using Files = std::vector<std::pair<fs::path, std::string>>;

// Defects of a finished sheet are faults of this program, never of the job.
bool proved(const Pages& pages, const Circuit& circuit) {
  Pages bench;
  std::vector<Defect> defects;
  for (const Drawing& page : pages) {
    if (page.sheet == "bench") {
      bench.push_back(page);
      continue;
    }
    for (Defect& d : prove_geometry(page)) defects.push_back(std::move(d));
  }
  for (Defect& d : prove(bench, circuit)) defects.push_back(std::move(d));
  for (const Defect& d : defects) std::cerr << "towloom: internal fault: " << d.kind << ": " << d.message << "\n";
  return defects.empty();
}

void print_stats(const Pages& pages) {
  for (const Drawing& page : pages) {
    const SheetStats s = measure(page);
    std::cout << page.sheet << ": wires " << s.wires << ", crossings " << s.crossings << ", bends " << s.bends
              << " (" << format_fixed(s.bends_per_wire, 2) << " a wire), straight "
              << format_fixed(100 * s.straight_share, 0) << " %, overlaps " << s.overlaps << ", symbol hits "
              << s.symbol_hits << ", pin misses " << s.pin_misses << ", label overlaps " << s.label_overlaps
              << ", false junctions " << s.false_junctions << ", length ratio "
              << format_fixed(s.length_ratio, 3) << ", worst detour " << format_fixed(s.worst_detour, 2)
              << ", least gap " << format_fixed(s.min_gap_mm, 2) << " mm, twin symmetry "
              << format_fixed(s.twin_symmetry, 3) << ", fill " << format_fixed(100 * s.fill, 0) << " %\n";
  }
}

void add_svg(Files& files, const fs::path& folder, const std::string& stem, const Pages& pages) {
  int number = 0;              // within its sheet
  for (size_t i = 0; i < pages.size(); ++i) {
    number = i > 0 && pages[i].sheet == pages[i - 1].sheet ? number + 1 : 1;
    const std::string name = stem + "-" + pages[i].sheet + (number > 1 ? "-" + std::to_string(number) : "");
    files.emplace_back(folder / (name + ".svg"), to_svg(pages[i]));
  }
}

void add_tables(Files& files, const fs::path& folder, const std::string& stem, const Loaded& loaded, const Pages& pages, bool deck) {
  const Facts& facts = loaded.facts;
  files.emplace_back(folder / (stem + "-wires.csv"), wires_csv(facts, loaded.catalogue));
  files.emplace_back(folder / (stem + "-cuts.csv"), cuts_csv(facts, loaded.catalogue));
  files.emplace_back(folder / (stem + "-materials.csv"), materials_csv(facts, loaded.catalogue));
  files.emplace_back(folder / (stem + ".json"), to_report(facts, loaded.catalogue, loaded.sources, pages));
  if (deck) files.emplace_back(folder / (stem + ".cir"), netlist(facts.circuit(), loaded.catalogue, fullest_scene(facts), 0));
}

int write(const Loaded& loaded, const Arguments& arguments, const Pages& all) {
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
  add_svg(files, folder, stem, all);
  add_tables(files, folder, stem, loaded, all, arguments.deck);
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

}  // namespace

int draw_command(const Arguments& arguments) {
  auto loaded = load(arguments);
  if (!loaded) return bad_input;
  if (!arguments.paper.empty()) loaded->facts.spec.paper = arguments.paper;
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
  Pages pages;
  if (style) pages = sheet_set(loaded->facts, loaded->catalogue, *style, text, diagnostics);
  print(diagnostics, loaded->sources);
  if (!style || diagnostics.has_errors()) return bad_input;
  if (!proved(pages, loaded->facts.circuit())) return internal;
  if (arguments.stats) print_stats(pages);
  return write(*loaded, arguments, pages);
}

}  // namespace towloom
