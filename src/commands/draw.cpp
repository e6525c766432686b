#include <cctype>
#include <filesystem>
#include <iostream>

#include "check/as_drawn.hpp"
#include "commands/commands.hpp"
#include "commands/list.hpp"
#include "export/export.hpp"
#include "prove/prove.hpp"
#include "render/render.hpp"
#include "render/web_font.hpp"
#include "sheets/highlight.hpp"
#include "sheets/sheets.hpp"

namespace towloom {
namespace fs = std::filesystem;
namespace {

using Pages = std::vector<Drawing>;
using Files = std::vector<std::pair<fs::path, std::string>>;

void name_sheets(const Pages& pages, std::vector<Defect>& defects) {
  for (const Drawing& page : pages)
    for (Defect& d : prove_geometry(page)) {
      d.message = "sheet " + page.sheet + ": " + d.message;
      defects.push_back(std::move(d));
    }
}

// Defects of a finished sheet are faults of this program, never of the job.
bool proved(const Pages& pages, const Pages& worksheets, const Circuit& circuit, const Facts* as_found) {
  Pages bench, found, others;
  std::vector<Defect> defects;
  for (const Drawing& page : pages) (page.sheet == "bench" ? bench : page.sheet == "found" ? found : others).push_back(page);
  name_sheets(others, defects);
  name_sheets(worksheets, defects);
  for (Defect& d : prove(bench, circuit)) defects.push_back(std::move(d));
  if (!found.empty())
    for (Defect& d : prove(found, as_found->circuit())) defects.push_back(std::move(d));
  for (const Defect& d : defects) std::cerr << "towloom: internal fault: " << d.kind << ": " << d.message << "\n";
  return defects.empty();
}

void print_stats(const Pages& pages) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const bool several = pages.size() > 1;
    std::cout << stats_table(pages[i].sheet + (several ? " " + std::to_string(i + 1) : ""), measure(pages[i]));
  }
}

void add_svg(Files& files, const fs::path& folder, const std::string& stem, const Pages& pages, const std::string& faces) {
  int number = 0;              // within its sheet
  for (size_t i = 0; i < pages.size(); ++i) {
    number = i > 0 && pages[i].sheet == pages[i - 1].sheet ? number + 1 : 1;
    const std::string name = stem + "-" + pages[i].sheet + (number > 1 ? "-" + std::to_string(number) : "");
    files.emplace_back(folder / (name + ".svg"), to_svg(pages[i], faces));
  }
}

std::string file_word(std::string text) {
  for (char& c : text)
    if (!std::isalnum(static_cast<unsigned char>(c))) c = '-';
  return text;
}

void add_tables(Files& files, const fs::path& folder, const std::string& stem, const Loaded& loaded, const Pages& pages, bool deck) {
  const Facts& facts = loaded.facts;
  files.emplace_back(folder / (stem + "-wires.csv"), wires_csv(facts, loaded.catalogue));
  files.emplace_back(folder / (stem + "-cuts.csv"), cuts_csv(facts, loaded.catalogue));
  files.emplace_back(folder / (stem + "-materials.csv"), materials_csv(facts, loaded.catalogue));
  files.emplace_back(folder / (stem + ".json"), to_report(facts, loaded.catalogue, loaded.sources, pages));
  if (deck) files.emplace_back(folder / (stem + ".cir"), netlist(facts.circuit(), loaded.catalogue, fullest_scene(facts), 0));
}

// One PDF of all pages, and each as SVG. False: said what is wrong.
bool add_pages(Files& files, const fs::path& folder, const std::string& stem, const std::string& pdf_name, const TitleRows& job, const Pages& all) {
  std::string problem;
  const std::string pdf =
      to_pdf(all, {job.title.value, job.by.value, "Job " + job.number.value, job.date.value}, problem);
  if (!problem.empty()) {
    std::cerr << "towloom: internal fault: PDF: " << problem << "\n";
    return false;
  }
  const std::string faces = embedded_faces(all, problem);
  if (!problem.empty()) {
    std::cerr << "towloom: internal fault: SVG: " << problem << "\n";
    return false;
  }
  files.emplace_back(folder / (pdf_name + ".pdf"), pdf);
  add_svg(files, folder, stem, all, faces);
  return true;
}

int write(const Loaded& loaded, const Arguments& arguments, const Pages& all, const Pages& worksheets) {
  const fs::path folder = arguments.output.empty() ? "out" : arguments.output;
  // A highlighted set stands beside the plain one.
  const std::string stem = fs::path(arguments.files.front()).stem().string() + (arguments.highlight.empty() ? "" : "-" + file_word(arguments.highlight));
  const TitleRows& job = loaded.facts.spec.job;
  Files files;
  if (!add_pages(files, folder, stem, stem, job, all)) return internal;
  if (!worksheets.empty() && !add_pages(files, folder, stem, stem + "-worksheets", job, worksheets)) return internal;
  add_tables(files, folder, stem, loaded, all, arguments.deck);
  return save(folder, files);
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

// What --highlight asks for, or nothing: then it has said what there is.
std::optional<LivePath> wanted_path(const Facts& facts, const std::string& function) {
  auto path = live_path(facts, function);
  if (path) return path;
  const std::vector<std::string> known = live_functions(facts);
  const std::string near = did_you_mean(function, known);
  std::string list;
  for (const std::string& name : known) list += (list.empty() ? "" : ", ") + name;
  std::cerr << "towloom: error: --highlight: nothing carries current for '" << function << "'\n  "
            << (near.empty() ? "" : "did you mean '" + near + "'? ") << "known here: " << list << "\n";
  return std::nullopt;
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
    loaded->facts.spec.paper_place = {};
    loaded->facts.spec.paper_named = true;
  }
  const Diagnostics findings = as_diagnostics(loaded->facts.findings);
  print(findings, loaded->sources);
  if (arguments.strict && findings.has_errors()) return faults;

  Diagnostics diagnostics;
  const TextMeasure text;
  if (!text.ok()) {
    std::cerr << "towloom: error: " << text.error() << "\n";
    return bad_input;
  }
  const Facts& facts = loaded->facts;
  std::optional<LivePath> path;
  if (!arguments.highlight.empty() && !(path = wanted_path(facts, arguments.highlight))) return bad_input;
  const auto style = read_style(fs::path(loaded->data) / "styles", arguments.style.empty() ? "workshop" : arguments.style, loaded->sources, diagnostics);
  const std::string caption = !path || !style ? "" : arguments.highlight == path->scene ? path->scene : arguments.highlight + ", " + word(*style, "highlight-in") + " " + path->scene;
  Pages pages;
  const auto drawn = facts_as_found(facts, loaded->catalogue);
  const auto solved = solve_as_found(facts, loaded->catalogue, diagnostics);
  const FoundPages found{drawn ? &*drawn : nullptr, solved ? &*solved : nullptr};
  if (style && style->papers.count(facts.spec.paper) == 0)
    diagnostics.error("paper", facts.spec.paper_place, "no paper is called '" + facts.spec.paper + "'", papers_of(*style, facts.spec.paper));
  if (style && !diagnostics.has_errors()) pages = sheet_set(facts, loaded->catalogue, *style, text, diagnostics, *effort, caption, found);
  print(diagnostics, loaded->sources);
  if (!style || diagnostics.has_errors()) return bad_input;
  Pages worksheets;
  if (arguments.worksheets) worksheets = worksheet_set(facts, loaded->catalogue, *style, text, pages);
  if (!proved(pages, worksheets, facts.circuit(), found.drawn)) return internal;
  if (path)
    for (Drawing& page : pages)
      if (page.sheet != "found") highlight(page, facts.circuit(), *path, *style);
  if (arguments.stats) print_stats(pages);
  return write(*loaded, arguments, pages, worksheets);
}

}  // namespace towloom
