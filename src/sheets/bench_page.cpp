// One page of the bench sheet: placed, routed and labelled; what the labels lacked is asked for in another try.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>

#include "prove/prove.hpp"
#include "sheets/bench_page.hpp"
#include "sheets/bench_wishes.hpp"

namespace towloom {
namespace {

constexpr int most_widening = 3;   // tries with wider gaps
constexpr int most_attempts = 9;   // until every wire finds a way
constexpr int label_rounds = 2;    // times that labels may ask for room
constexpr int worth_a_round = 8 * label_cost;   // one label more that has its length
constexpr int defect_cost = 100000;

// Cells under a part's labels: no wire passes there, nor where the text is read.
std::vector<GridBox> label_cells(const Standing& s) {
  std::vector<GridBox> out;
  for (const GridBox& b : s.outline.label_cells) out.push_back({s.at.x + b.left, s.at.y + b.top, s.at.x + b.right, s.at.y + b.bottom});
  return out;
}

Grid make_grid(const Circuit& circuit, const Look& look, const Placement& place, int width, int height) {
  Grid grid{width, height, {}, {}, {}};
  // The notes, and room above their letters; the zones' names; the frame and what lies outside it.
  grid.blocked.insert(grid.blocked.end(), {{0, place.bottom, width, height}, {0, 0, width, place.top - 1}, {0, 0, place.columns.coach, height}, {place.columns.end + 1, 0, width, height}});
  for (const Housing& h : place.housings) {   // their names stand over their frames
    const double middle = (h.left + h.right) / 2, half = look.width(capitals(h.name), true) / 2;
    grid.blocked.push_back({static_cast<int>(std::ceil(middle - half - 0.3)), static_cast<int>(std::ceil(h.top - 1.7)), static_cast<int>(std::floor(middle + half + 0.3)),
                            static_cast<int>(std::floor(h.top - 0.3))});
    constexpr double near = 0.95;   // modules between a wire's middle and an edge: nearer they read as one line
    const GridBox whole{static_cast<int>(std::ceil(h.left)), static_cast<int>(std::ceil(h.top)), static_cast<int>(std::floor(h.right)), static_cast<int>(std::floor(h.bottom))};
    for (const double x : {h.left, h.right})
      for (const int at : {static_cast<int>(std::floor(x)), static_cast<int>(std::floor(x)) + 1})
        if (std::fabs(at - x) < near) grid.fences.push_back({true, {at, whole.top, at, whole.bottom}});
    for (const double y : {h.top, h.bottom})
      for (const int at : {static_cast<int>(std::floor(y)), static_cast<int>(std::floor(y)) + 1})
        if (std::fabs(at - y) < near) grid.fences.push_back({false, {whole.left, at, whole.right, at}});
  }
  for (const Standing& s : place.parts) {
    grid.blocked.push_back(s.body);
    for (const GridBox& b : label_cells(s)) grid.blocked.push_back(b);
    for (const PinSpot& p : s.pins) grid.terminals.push_back(p.at);
    for (const auto& [a, b] : s.posts) grid.blocked.push_back({a.x, a.y, b.x, b.y});
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

std::vector<Routed> route_wires(const Circuit& circuit, const Look& look, const Placement& place, int width, int height, int effort) {
  std::vector<RouteRequest> requests;
  for (std::size_t w = 0; w < circuit.wires.size(); ++w) {
    const PinSpot &from = place.ends.at({static_cast<int>(w), true}), &to = place.ends.at({static_cast<int>(w), false});
    requests.push_back({circuit.wires[w].id, from.at, to.at, from.way, to.way});
  }
  return route(make_grid(circuit, look, place, width, height), requests, effort);
}

Drawing blank(const BenchSet& set, const std::string& name) {
  Drawing drawing;
  drawing.sheet = set.facts.found ? "found" : "bench";
  drawing.job = set.facts.spec.job.number.value;
  drawing.description = "Schematic: coach outlet, cord, inlet, runs, rear pockets and lamps from left to right; right side of the "
                        "vehicle above, left side below.";
  const auto paper = set.style.papers.at(name);
  drawing.width = mm(paper.first);
  drawing.height = mm(paper.second);
  return drawing;
}

struct Obstacle : Problem {
  std::vector<int> wires = {};   // that found no way
};
struct Try {
  Drawing drawing;
  std::vector<LabelFault> faults;
  std::set<std::string> shown;
  int cost = 0;
  std::size_t defects = 0;       // as the proof counts them
};

// The sheet without the circuit, and the room that it leaves.
struct Blank {
  Drawing drawing;
  Frame frame;
  std::vector<std::string> notes;
  SheetRoom room;
};

Blank blank_page(const BenchSet& set, const PageCircuit& page, const PageHead& head) {
  Blank out{blank(set, head.paper), {}, {}, {}};
  const std::string document = word(set.style, set.facts.found ? "found-sheet" : "bench-sheet") + (page.group == "group-all" ? "" : ": " + group_text(page, set.style));
  out.drawing.title = document + ", job " + out.drawing.job;
  out.frame = add_frame(out.drawing, set.facts, set.catalogue, {document, word(set.style, "scene-own-tail"), set.caption.empty() ? "" : word(set.style, "strip-highlight"), set.caption, head.number, set.pages}, set.style, set.measure);
  const auto modules = [](Mm100 v) { return to_mm(v) / BenchDraft::module; };
  const Rect& space = out.frame.space;
  out.notes = notes_of(set, page, head, space.w - mm(4));
  // Zone heads above, notes below.
  out.room = {static_cast<int>(std::ceil(modules(space.x) - 0.2)), static_cast<int>(std::ceil(modules(space.y) + 3.4)), static_cast<int>(modules(space.right())),
              static_cast<int>(modules(space.bottom()) - 0.2 - note_pitch * static_cast<double>(out.notes.size()))};
  return out;
}

// Where everything stands, to tell a try from those before it: wishes that the paper cannot hold change nothing.
using Stance = std::vector<int>;
Stance stance_of(const Placement& place) {
  Stance out;
  for (const auto& [end, spot] : place.ends) out.insert(out.end(), {spot.at.x, spot.at.y});
  for (const Standing& s : place.parts) out.insert(out.end(), {s.at.x, s.at.y, static_cast<int>(s.outline.labels.size())});
  return out;
}
struct Limit {
  int cost = std::numeric_limits<int>::max();   // what cannot come below is given up before its labels are placed
  std::set<Stance>* known = nullptr;            // nor is a placement looked at that was drawn before
};

// One try, or nothing and what is in the way.
std::optional<Try> draw_try(const BenchSet& set, const PageCircuit& page, const PageHead& head, const Wishes& wishes, Limit limit, OtherTries& known, Obstacle& obstacle) {
  Blank sheet = blank_page(set, page, head);
  Try out{std::move(sheet.drawing), {}, head.shown, 0, 0};
  Drawing& drawing = out.drawing;
  const Look look{set.style, set.measure};
  const auto place = place_bench(page.circuit, look, sheet.room, wishes, known, obstacle);
  if (!place || (limit.known != nullptr && !limit.known->insert(stance_of(*place)).second)) return std::nullopt;
  if (!place->no_ground.empty()) {
    obstacle = {};
    obstacle.text = "no place was found for the ground of wire " + page.circuit.wires[static_cast<std::size_t>(place->no_ground.front())].id;
    obstacle.wires = place->no_ground;
    return std::nullopt;
  }
  const auto routed = route_wires(page.circuit, look, *place, drawing.width / mm(BenchDraft::module), drawing.height / mm(BenchDraft::module), set.effort);
  obstacle = {};
  for (std::size_t w = 0; w < routed.size(); ++w) {
    if (!routed[w].path.empty()) continue;
    obstacle.text += (obstacle.text.empty() ? "no way was found for wire " : ", ") + routed[w].id + " from " + page.circuit.name(page.circuit.wires[w].from) + " to " +
                     page.circuit.name(page.circuit.wires[w].to);
    obstacle.wires.push_back(static_cast<int>(w));
  }
  if (!obstacle.wires.empty()) return std::nullopt;
  const int bare = cost_of(page.circuit, *place, routed, {});
  if (bare >= limit.cost) return std::nullopt;
  const BenchDraft draft{set.facts, set.catalogue, set.style, set.measure, page, *place, drawing, sheet.notes, out.shown};
  draw_zones(draft, sheet.frame);
  draw_wires(draft, routed);
  draw_parts(draft);
  label_parts(draft);
  auto faults = label_wires(draft, routed, sheet.frame, (limit.cost - bare - 1) / label_cost + 1);
  if (!faults) return std::nullopt;
  out.faults = std::move(*faults);
  out.cost = cost_of(page.circuit, *place, routed, out.faults);
  out.defects = prove_geometry(drawing).size();
  out.cost += defect_cost * static_cast<int>(out.defects);
  return out;
}

}  // namespace

bool can_hold(const BenchSet& set, const PageCircuit& page, const PageHead& head, KnownOrders& orders, Problem& problem) {
  OtherTries known{orders};
  return place_bench(page.circuit, {set.style, set.measure}, blank_page(set, page, head).room, {}, known, problem).has_value();
}

std::optional<BenchPage> draw_page(const BenchSet& set, const PageCircuit& page, const PageHead& head, KnownOrders& orders, Problem& problem) {
  OtherTries known{orders};
  std::optional<Try> best;
  std::set<Stance> drawn_before;
  Wishes wishes, drawn;          // drawn: what the best one was placed with
  for (int attempt = 0; attempt < most_attempts; ++attempt) {
    Obstacle obstacle;
    auto found = draw_try(set, page, head, wishes, best ? Limit{best->cost} : Limit{}, known, obstacle);
    if (found && (!best || found->cost < best->cost)) {
      best = std::move(found);
      drawn = wishes;
    }
    if (best && best->defects == 0) break;
    if (problem.text.empty() || attempt == 0) problem = obstacle;   // what the narrower try lacked is the better answer
    if (!best && obstacle.wires.empty() && attempt == 0) return std::nullopt;   // the paper is too small
    if (attempt < most_widening) {
      ++wishes.widen;
      continue;
    }
    // Room beside what is stuck, then another order.
    wishes.widen = attempt % 2;
    wishes.start = static_cast<unsigned>(attempt - most_widening);
    for (int w : obstacle.wires) {
      wishes.wider[w] += more_width;
      wishes.roomy.insert(w);
    }
  }
  if (!best) return std::nullopt;
  if (best->defects > 0) {       // never handed out: the page is divided, or the paper named as too small
    problem = {prove_geometry(best->drawing).front().message};
    return std::nullopt;
  }
  wishes = drawn;
  const auto keep_better = [&](const Wishes& next) {
    Obstacle obstacle;
    auto found = draw_try(set, page, head, next, {best->cost, &drawn_before}, known, obstacle);
    if (!found || found->cost >= best->cost) return false;
    best = std::move(found);
    wishes = next;
    return true;
  };
  const auto ask_for_labels = [&] {
    for (int round = 0; round < label_rounds && !best->faults.empty(); ++round) {
      const int before = best->cost;
      for (const Wishes& next : asked(wishes, best->faults)) keep_better(next);
      if (before - best->cost < worth_a_round) break;
    }
  };
  if (set.effort >= 0) ask_for_labels();
  if (set.effort > 0) {          // helps one page in ten
    Wishes other = wishes;
    other.over_at_dots = !wishes.over_at_dots;
    if (keep_better(other)) ask_for_labels();
  }
  Choices choices;
  for (int i = 0; i < set.effort; ++i)
    if (keep_better(varied(wishes, page.circuit, choices))) ask_for_labels();
  // Volts that found no room are said in the notes, and a longer note may take more room.
  PageHead told = head;
  const auto untold = [&] {
    const std::size_t before = told.far.size();
    for (const LabelFault& f : best->faults)
      if (f.lamp >= 0) told.far.insert(f.lamp);
    return told.far.size() > before;
  };
  for (Obstacle obstacle; untold();) {
    auto found = draw_try(set, page, told, wishes, {}, known, obstacle);
    if (!found || found->defects > 0) break;
    best = std::move(found);
  }
  int faults = 0;
  for (const LabelFault& f : best->faults) faults += f.weight >= grave ? f.weight : 0;
  return BenchPage{std::move(best->drawing), best->cost, faults};
}

}  // namespace towloom
