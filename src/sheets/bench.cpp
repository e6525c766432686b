// The bench sheet: the schematic that a fitter wires the car from.
#include <algorithm>

#include "sheets/bench_draft.hpp"

namespace towloom {
namespace {

Grid make_grid(const Placement& place, int width, int height) {
  Grid grid{width, height, {}, {}};
  for (const Standing& s : place.parts) {
    grid.blocked.push_back(s.body);
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
  std::string problem;
  const auto place = place_bench(facts.circuit(), problem);
  if (!place) {
    diagnostics.error("bench-sheet", facts.spec.job.title.place, "the bench sheet cannot be laid out: " + problem,
                      "this version draws one lamp unit a side, with what hangs on it");
    return {};
  }
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
  if (mm(place->columns.end * BenchDraft::module) > frame.outer.right()) {
    diagnostics.error("paper-narrow", facts.spec.job.title.place, "the bench sheet is wider than " + facts.spec.paper + " paper",
                      "draw it on a4 or a3");
    return {};
  }
  const BenchDraft draft{facts, catalogue, style, measure, *place, drawing};
  const auto routed = route_wires(facts.circuit(), *place, drawing.width / mm(BenchDraft::module), drawing.height / mm(BenchDraft::module));
  for (const Routed& r : routed)
    if (r.path.empty()) {
      const Wire& w = *std::find_if(facts.circuit().wires.begin(), facts.circuit().wires.end(), [&](const Wire& x) { return x.id == r.id; });
      diagnostics.error("bench-sheet", facts.spec.job.title.place,
                        "no way was found for wire " + r.id + " from " + facts.circuit().name(w.from) + " to " + facts.circuit().name(w.to));
    }
  if (diagnostics.has_errors()) return {};
  draw_zones(draft, frame);
  draw_wires(draft, routed);
  draw_parts(draft);
  label_parts(draft);
  label_volts(draft);
  label_wires(draft, routed);
  return {std::move(drawing)};
}

}  // namespace towloom
