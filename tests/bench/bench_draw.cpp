// Measures, not a test: the bench sheet's PDF and SVG against the dot command, which lays out and writes a PDF of
// the same graph; and how drawing grows with the number of wires. Ratios of one run.
//   ninja bench_draw && ./bench_draw PROJECT_FOLDER
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>

#include "bench/measured.hpp"
#include "layout/enlarged.hpp"
#include "render/render.hpp"
#include "sheets/sheets.hpp"

using namespace towloom;
using measured::facts_of, measured::seconds, measured::text_of;
namespace fs = std::filesystem;

namespace {

constexpr int rounds = 5;        // the median of so many

double median_ms(const auto& work) {
  std::vector<double> out;
  for (int i = 0; i < rounds; ++i) {
    out.push_back(1e3 * seconds(work));
  }
  std::sort(out.begin(), out.end());
  return out[out.size() / 2];
}

std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '>' ? "&gt;" : std::string(1, c);
  return out;
}

// The same parts and wires: a part is a table with a cell for each terminal, a wire bears its number and letters.
std::string as_dot(const Circuit& c) {
  std::string out = "digraph sheet {\n  rankdir=LR; splines=spline; node [shape=none]; edge [dir=none];\n";
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    out += "  p" + std::to_string(p) + " [label=<<TABLE BORDER=\"0\" CELLBORDER=\"1\" CELLSPACING=\"0\"><TR><TD>" + escaped(c.parts[p].id) + "</TD></TR>";
    for (std::size_t t = 0; t < c.parts[p].terminals.size(); ++t)
      out += "<TR><TD PORT=\"t" + std::to_string(t) + "\">" + escaped(c.parts[p].terminals[t]) + "</TD></TR>";
    out += "</TABLE>>];\n";
  }
  const auto end = [](TerminalRef t) { return "p" + std::to_string(t.part.v) + ":t" + std::to_string(t.index); };
  for (const Wire& w : c.wires) out += "  " + end(w.from) + " -> " + end(w.to) + " [label=\"" + w.id + " " + w.colour + "\"];\n";
  return out + "}\n";
}

double dot_ms(const Circuit& circuit) {
  const fs::path folder = fs::temp_directory_path() / ("towloom-bench-draw-" + std::to_string(getpid()));
  fs::create_directories(folder);
  std::ofstream(folder / "sheet.gv") << as_dot(circuit);
  const std::string command = "dot -Tpdf '" + (folder / "sheet.gv").string() + "' -o '" + (folder / "sheet.pdf").string() + "' 2> /dev/null";
  bool failed = false;
  const double out = median_ms([&] { failed = std::system(command.c_str()) != 0 || failed; });
  fs::remove_all(folder);
  return failed ? -1 : out;
}

struct Drawn {
  std::size_t pages = 0, bytes = 0;
  int crossings = 0;
};
Drawn draw(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure_text) {
  Diagnostics diagnostics;
  const auto pages = bench_sheet(facts, catalogue, style, measure_text, 0, diagnostics);
  for (const Diagnostic& d : diagnostics.all()) std::fprintf(stderr, "%s\n", d.message.c_str());
  Drawn out{pages.size(), 0, 0};
  std::string error;
  out.bytes += to_pdf(pages, {"bench", "", "", "2026-11-25"}, error).size();
  for (const Drawing& page : pages) out.bytes += to_svg(page).size();
  return out;
}

void against_dot(const fs::path& root, Catalogue& catalogue, const Style& style, const TextMeasure& measure_text) {
  std::printf("bench sheet to PDF and SVG, in process; the dot command with its start, PDF only; medians of %d\n", rounds);
  for (const char* name : {"plain-hatchback", "compact-sedan", "large-pickup", "medium-wagon"}) {
    const auto facts = facts_of(text_of(root / "specs" / "jobs" / (std::string(name) + ".yaml")), catalogue);
    if (!facts) continue;
    Drawn drawn;
    const double ours = median_ms([&] { drawn = draw(*facts, catalogue, style, measure_text); }), theirs = dot_ms(facts->circuit());
    std::printf("  %-16s %3zu wires, %zu pages: ours %.1f ms, dot %.1f ms: %.2f x\n", name, facts->circuit().wires.size(), drawn.pages, ours, theirs, ours / theirs);
  }
}

void growth(const std::string& plain, Catalogue& catalogue, const Style& style, const TextMeasure& measure_text) {
  double before_ms = 0, before_n = 0;
  for (const int lamps : {0, 12, 36, 100, 230}) {
    auto facts = facts_of(fixture::enlarged(plain, lamps), catalogue, false);
    if (!facts) return;
    facts->spec.paper = "a3";
    Drawn drawn;
    const double ms = 1e3 * seconds([&] { drawn = draw(*facts, catalogue, style, measure_text); });
    const double n = static_cast<double>(facts->circuit().wires.size());
    std::printf("%5.0f wires, %zu pages: %.0f ms", n, drawn.pages, ms);
    if (drawn.pages == 0) std::printf(" to find that it does not fit");
    if (before_n > 0) std::printf(", grows with n^%.2f", std::log(ms / before_ms) / std::log(n / before_n));
    std::printf("\n");
    before_ms = ms;
    before_n = n;
  }
}

}  // namespace

int main(int count, char** words) {
  const fs::path root = count > 1 ? words[1] : ".";
  Sources sources;
  Diagnostics diagnostics;
  auto catalogue = read_catalogue(root / "specs", sources, diagnostics);
  const auto style = read_style(root / "styles", "workshop", sources, diagnostics);
  const TextMeasure measure_text;
  if (!catalogue || !style || !measure_text.ok()) return 2;
  against_dot(root, *catalogue, *style, measure_text);
  growth(text_of(root / "specs" / "jobs" / "plain-hatchback.yaml"), *catalogue, *style, measure_text);
  return 0;
}
