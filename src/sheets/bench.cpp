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

Grid make_grid(const Placement& place, int width, int height) {
  Grid grid{width, height, {}, {}};
  for (const Standing& s : place.parts) {
    grid.blocked.push_back(s.body);
    for (const GridBox& b : label_cells(s)) grid.blocked.push_back(b);
    for (const PinSpot& p : s.pins) grid.terminals.push_back(p.at);
  }
  return grid;
}

std::vector<Routed> route_wires(const Circuit& circuit, const Placement& place, int width, int height) {
  std::vector<RouteRequest> requests;
  for (std::size_t w = 0; w < circuit.wires.size(); ++w) {
    const PinSpot &from = place.ends.at({static_cast<int>(w), true}), &to = place.ends.at({static_cast<int>(w), false});
    requests.push_back({circuit.wires[w].id, from.at, to.at, from.way, to.way});
  }
  return route(make_grid(place, width, height), requests);
}

std::string scene_text(const Facts&) { return "own signal + tail, engine off"; }

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
                                 int pages, Diagnostics& diagnostics) {
  Drawing drawing;
  drawing.sheet = "bench";
  drawing.job = facts.spec.job.number.value;
  drawing.title = "Bench sheet, job " + facts.spec.job.number.value;
  drawing.description = "Schematic: coach outlet, cord, inlet, runs, rear pockets and lamps from left to right; right side of the "
                        "vehicle above, left side below.";
  const auto paper = style.papers.at(facts.spec.paper);
  drawing.width = mm(paper.first);
  drawing.height = mm(paper.second);
  const Frame frame = add_frame(drawing, facts, catalogue, {"Bench sheet", scene_text(facts), "", "", 1, pages}, style, measure);
  const auto modules = [](Mm100 v) { return to_mm(v) / BenchDraft::module; };
  // Zone heads above, two lines of notes below.
  const SheetRoom room{static_cast<int>(std::ceil(modules(frame.space.x) - 0.2)), static_cast<int>(std::ceil(modules(frame.space.y) + 3.4)),
                       static_cast<int>(modules(frame.space.right())), static_cast<int>(modules(frame.space.bottom()) - 3.2)};
  std::string problem;
  for (int widen = 0; widen <= most_widening; ++widen) {
    std::string too_small;
    const auto place = place_bench(facts.circuit(), {style, measure}, room, widen, too_small);
    if (problem.empty()) problem = too_small;
    if (!place) break;   // what the narrower try lacked is the better answer
    problem.clear();
    const auto routed = route_wires(facts.circuit(), *place, drawing.width / mm(BenchDraft::module), drawing.height / mm(BenchDraft::module));
    for (std::size_t w = 0; w < routed.size(); ++w)
      if (routed[w].path.empty())
        problem += (problem.empty() ? "no way was found for wire " : ", ") + routed[w].id + " from " + facts.circuit().name(facts.circuit().wires[w].from) +
                   " to " + facts.circuit().name(facts.circuit().wires[w].to);
    if (!problem.empty()) continue;
    const BenchDraft draft{facts, catalogue, style, measure, *place, drawing};
    draw_zones(draft, frame);
    draw_wires(draft, routed);
    draw_parts(draft);
    label_parts(draft);
    label_wires(draft, routed, frame);
    return {std::move(drawing)};
  }
  diagnostics.error("bench-sheet", facts.spec.job.title.place, "the bench sheet does not fit " + facts.spec.paper + " paper: " + problem,
                    facts.spec.paper == "a3" ? "" : "draw it on a3");
  return {};
}

}  // namespace towloom
