// The bench sheet: the schematic that a fitter wires the car from.
#include <algorithm>
#include <cmath>

#include "sheets/bench_draft.hpp"

namespace towloom {
namespace {

constexpr int most_widening = 3;   // tries with wider gaps

// Cells under a part's labels: no wire passes there, nor where the text is read.
std::vector<GridBox> label_cells(const Standing& s) {
  std::vector<GridBox> out;
  for (const GridBox& b : s.outline.label_cells) out.push_back({s.at.x + b.left, s.at.y + b.top, s.at.x + b.right, s.at.y + b.bottom});
  return out;
}

Grid make_grid(const Circuit& circuit, const Look& look, const Placement& place, int width, int height) {
  Grid grid{width, height, {}, {}};
  for (const Housing& h : place.housings) {   // their names stand over their frames
    const double middle = (h.left + h.right) / 2, half = look.width(capitals(h.name), true) / 2;
    grid.blocked.push_back({static_cast<int>(std::ceil(middle - half - 0.3)), static_cast<int>(std::ceil(h.top - 1.7)), static_cast<int>(std::floor(middle + half + 0.3)),
                            static_cast<int>(std::floor(h.top - 0.3))});
  }
  for (const Standing& s : place.parts) {
    grid.blocked.push_back(s.body);
    for (const GridBox& b : label_cells(s)) grid.blocked.push_back(b);
    for (const PinSpot& p : s.pins) grid.terminals.push_back(p.at);
  }
  // No wire runs through a cut mark: one module before the end of the car's side.
  for (const CutPoint& cut : circuit.cuts) {
    const auto end = place.ends.find({cut.car_side.v, false});
    if (end == place.ends.end()) continue;
    const GridPoint at = end->second.at;
    for (int y : {at.y - 1, at.y + 1}) grid.blocked.push_back({at.x - 1, y, at.x - 1, y});
  }
  return grid;
}

std::vector<Routed> route_wires(const Circuit& circuit, const Look& look, const Placement& place, int width, int height) {
  std::vector<RouteRequest> requests;
  for (std::size_t w = 0; w < circuit.wires.size(); ++w) {
    const PinSpot &from = place.ends.at({static_cast<int>(w), true}), &to = place.ends.at({static_cast<int>(w), false});
    requests.push_back({circuit.wires[w].id, from.at, to.at, from.way, to.way});
  }
  return route(make_grid(circuit, look, place, width, height), requests);
}

struct Set {                     // what all pages share
  const Facts& facts;
  const Catalogue& catalogue;
  const Style& style;
  const TextMeasure& measure;
  int pages, faces;              // of the whole set; the first of the pin faces
  const std::string& caption;    // what is highlighted; "" = nothing
};

Drawing blank(const Set& set) {
  Drawing drawing;
  drawing.sheet = "bench";
  drawing.job = set.facts.spec.job.number.value;
  drawing.title = word(set.style, "bench-sheet") + ", job " + drawing.job;
  drawing.description = "Schematic: coach outlet, cord, inlet, runs, rear pockets and lamps from left to right; right side of the "
                        "vehicle above, left side below.";
  const auto paper = set.style.papers.at(set.facts.spec.paper);
  drawing.width = mm(paper.first);
  drawing.height = mm(paper.second);
  return drawing;
}

// What the sheet says of itself, in as many lines as the width asks for.
std::vector<std::string> notes_of(const Set& set, const Circuit& circuit, const std::string& index, Mm100 width) {
  std::vector<std::string> sentences;
  const auto has = [&](const char* kind) { return std::any_of(circuit.parts.begin(), circuit.parts.end(), [&](const Part& p) { return p.kind == kind; }); };
  if (!index.empty()) sentences.push_back(index);
  if (has("contact")) sentences.push_back(word(set.style, "order-not-face") + " " + std::to_string(set.faces) + ".");
  if (!circuit.cuts.empty()) sentences.push_back(word(set.style, "cut-here"));
  const bool unsurveyed = std::any_of(circuit.wires.begin(), circuit.wires.end(), [](const Wire& w) { return w.status == Status::factory && w.group != "coach" && w.colour.empty(); });
  if (unsurveyed) sentences.push_back(word(set.style, "no-letters"));
  if (has("lamp")) sentences.push_back(word(set.style, "volts-at-lamps") + " ± " + format_fixed(set.catalogue.rule("reading_band_v").value, 1) + " V.");
  if (has("turn-switch")) sentences.push_back(word(set.style, "switches-at-rest"));
  std::vector<std::string> out;
  for (const std::string& sentence : sentences) {
    const std::string longer = out.empty() ? "" : out.back() + " " + sentence;
    if (!out.empty() && set.measure.reserve(longer, text_size(set.style, "small"), Weight::regular) <= width) out.back() = longer;
    else out.push_back(sentence);
  }
  return out;
}

// One page, or nothing and what is in the way.
std::optional<Drawing> draw_page(const Set& set, const PageCircuit& page, int number, const std::string& index, std::set<std::string> shown, std::string& problem) {
  for (int widen = 0; widen <= most_widening; ++widen) {
    Drawing drawing = blank(set);
    const std::string document = word(set.style, "bench-sheet") + (page.group == "group-all" ? "" : ": " + word(set.style, page.group));
    const Frame frame = add_frame(drawing, set.facts, set.catalogue, {document, word(set.style, "scene-own-tail"), set.caption.empty() ? "" : word(set.style, "strip-highlight"), set.caption, number, set.pages}, set.style, set.measure);
    const auto modules = [](Mm100 v) { return to_mm(v) / BenchDraft::module; };
    const std::vector<std::string> notes = notes_of(set, page.circuit, index, frame.space.w - mm(4));
    // Zone heads above, notes below.
    const SheetRoom room{static_cast<int>(std::ceil(modules(frame.space.x) - 0.2)), static_cast<int>(std::ceil(modules(frame.space.y) + 3.4)),
                         static_cast<int>(modules(frame.space.right())), static_cast<int>(modules(frame.space.bottom()) - 0.2 - note_pitch * static_cast<double>(notes.size()))};
    std::string too_small;
    const auto place = place_bench(page.circuit, {set.style, set.measure}, room, widen, too_small);
    if (!place) {
      if (problem.empty()) problem = too_small;   // what the narrower try lacked is the better answer
      return std::nullopt;
    }
    const auto routed = route_wires(page.circuit, {set.style, set.measure}, *place, drawing.width / mm(BenchDraft::module), drawing.height / mm(BenchDraft::module));
    problem.clear();
    for (std::size_t w = 0; w < routed.size(); ++w)
      if (routed[w].path.empty())
        problem += (problem.empty() ? "no way was found for wire " : ", ") + routed[w].id + " from " + page.circuit.name(page.circuit.wires[w].from) + " to " +
                   page.circuit.name(page.circuit.wires[w].to);
    if (!problem.empty()) continue;
    const BenchDraft draft{set.facts, set.catalogue, set.style, set.measure, page, *place, drawing, notes, shown};
    draw_zones(draft, frame);
    draw_wires(draft, routed);
    draw_parts(draft);
    label_parts(draft);
    label_wires(draft, routed, frame);
    return drawing;
  }
  return std::nullopt;
}

// The references of a page name the sheet and the zone where their wires go on.
void name_references(std::vector<PageCircuit>& pages, const Style& style) {
  for (PageCircuit& page : pages)
    for (std::size_t p = 0; p < page.circuit.parts.size(); ++p) {
      Part& part = page.circuit.parts[p];
      if (part.kind == "reference") part.value = std::to_string(page.leads_to[p] + 1) + " " + word(style, part.place);
    }
}

}  // namespace

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
                                 int other_pages, Diagnostics& diagnostics, const std::string& caption) {
  std::string problem;
  for (const Apart apart : {Apart::nothing, Apart::auxiliaries, Apart::lamps, Apart::all}) {
    std::vector<PageCircuit> pages = split(facts.circuit(), apart);
    name_references(pages, style);
    const Set set{facts, catalogue, style, measure, other_pages + static_cast<int>(pages.size()), static_cast<int>(pages.size()) + 1, caption};
    std::vector<Drawing> out;
    std::set<std::string> shown;
    std::string index;
    for (std::size_t p = 1; p < pages.size(); ++p)
      index += (p > 1 ? ", " : "") + word(style, "sheet") + " " + std::to_string(p + 1) + ": " + word(style, pages[p].group) + (p + 1 == pages.size() ? "." : "");
    for (std::size_t p = 0; p < pages.size(); ++p) {
      std::string why;
      auto drawing = draw_page(set, pages[p], static_cast<int>(p) + 1, p == 0 ? index : "", shown, why);
      if (!drawing) {
        if (problem.empty() || apart == Apart::all) problem = why;
        break;
      }
      out.push_back(std::move(*drawing));
      for (const Part& part : pages[p].circuit.parts) shown.insert(part.id);
    }
    if (out.size() == pages.size()) return out;
  }
  diagnostics.error("bench-sheet", facts.spec.job.title.place, "the bench sheet does not fit " + facts.spec.paper + " paper: " + problem,
                    facts.spec.paper == "a3" ? "" : "draw it on a3");
  return {};
}

}  // namespace towloom
