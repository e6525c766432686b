// The bench sheet: the schematic that a fitter wires the car from. Taken apart into as few pages as the paper allows.
#include <algorithm>
#include <map>

#include "sheets/bench_page.hpp"

namespace towloom {
namespace {

// The references of a page name the sheet and the zone where their wires go on.
void name_references(std::vector<PageCircuit>& pages, const Style& style) {
  for (PageCircuit& page : pages)
    for (std::size_t p = 0; p < page.circuit.parts.size(); ++p) {
      Part& part = page.circuit.parts[p];
      if (part.kind == "reference") part.value = std::to_string(page.leads_to[p] + 1) + " " + word(style, part.place);
    }
}

// What stands on the other pages.
std::string index_of(const std::vector<PageCircuit>& pages, const Style& style) {
  std::string out;
  for (std::size_t p = 1; p < pages.size(); ++p)
    out += (p > 1 ? ", " : "") + word(style, "sheet") + " " + std::to_string(p + 1) + ": " + group_text(pages[p], style) + (p + 1 == pages.size() ? "." : "");
  return out;
}

// On the first paper that holds the page with all its labels; else on the one where it is best.
std::optional<BenchPage> on_smallest(const BenchSet& set, const PageCircuit& page, PageHead head, const std::vector<std::string>& papers, KnownOrders& known, std::string& problem) {
  std::optional<BenchPage> best;
  for (const std::string& paper : papers) {
    head.paper = paper;
    std::string why;
    auto found = draw_page(set, page, head, known, why);
    if (!found) problem = why;
    else if (!best || found->label_faults < best->label_faults) best = std::move(found);
    if (best && best->label_faults == 0) break;
  }
  return best;
}

}  // namespace

std::string group_text(const PageCircuit& page, const Style& style) {
  const std::string part = page.parts > 1 ? " " + std::to_string(page.part) + " " + word(style, "of") + " " + std::to_string(page.parts) : "";
  return page.group == "group-all" ? "" : word(style, page.group) + part;
}

bool BenchDraft::write(const std::string& text, double x, double y, Anchor anchor, const char* size, Weight weight,
                       const char* ink_name, const std::string& about, double room, bool decoration) const {
  if (text.empty()) return false;
  Label label;
  label.text = text;
  label.at = at(x, y);
  label.anchor = anchor;
  label.size = text_size(style, size);
  label.weight = weight;
  label.colour = ink(style, ink_name);
  label.about = about;
  label.decoration = decoration;
  measure.place(label);
  if (label.room.w > mm(room * module)) return false;
  drawing.items.emplace_back(std::move(label));
  return true;
}

std::vector<Drawing> bench_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure,
                                 int other_pages, Diagnostics& diagnostics, int effort, const std::string& caption) {
  const Spec& spec = facts.spec;
  const bool chosen = spec.paper_named || style.series.empty() || spec.paper != style.series.front();
  const std::vector<std::string> papers = chosen ? std::vector<std::string>{spec.paper} : style.series;
  std::string problem;
  // Taken apart step by step: what fits no paper is divided further.
  std::vector<PageCircuit> taken;
  std::string last;              // group of the page that did not fit
  std::map<std::pair<std::vector<int>, std::vector<int>>, KnownOrders> known;   // by parts and wires of a page
  for (std::optional<Apart> apart = Apart{}; apart;) {
    std::vector<PageCircuit> pages = split(facts.circuit(), *apart);
    const bool divided = !std::equal(taken.begin(), taken.end(), pages.begin(), pages.end(), [](const PageCircuit& a, const PageCircuit& b) { return a.part_of == b.part_of; });
    taken = pages;
    if (!divided) {
      apart = further(*apart, last);
      continue;
    }
    name_references(pages, style);
    const BenchSet set{facts, catalogue, style, measure, other_pages + static_cast<int>(pages.size()), static_cast<int>(pages.size()) + 1, effort, caption};
    std::vector<Drawing> out;
    PageHead head;
    for (std::size_t p = 0; p < pages.size(); ++p) {
      head.number = static_cast<int>(p) + 1;
      head.index = p == 0 ? index_of(pages, style) : "";
      auto page = on_smallest(set, pages[p], head, papers, known[{pages[p].part_of, pages[p].wire_of}], problem);
      if (!page) break;
      out.push_back(std::move(page->drawing));
      for (const Part& part : pages[p].circuit.parts) head.shown.insert(part.id);
    }
    if (out.size() == pages.size()) return out;
    last = pages[out.size()].group;
    apart = further(*apart, last);
  }
  diagnostics.error("bench-sheet", spec.job.title.place, "the bench sheet does not fit " + papers.back() + " paper: " + problem,
                    papers.back() == "a3" ? "" : "draw it on a3");
  return {};
}

}  // namespace towloom
