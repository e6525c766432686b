#include "layout/place.hpp"

#include <algorithm>
#include <cmath>

#include "layout/finish.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
// stud_room: right of the lamps, for returns and ground symbols; last_room: where no lamps stand last.
constexpr double most_saved = 1.3, saved_for_label = 1.03;   // times the height that other columns are asked to save
constexpr int most_spread = 14, stud_room = 8, last_room = 11, stud_lead = 6;

std::vector<int> column_widths(const Sketch& sketch) {
  std::vector<int> out(sketch.columns.size());
  for (const SketchNode& n : sketch.nodes)
    if (!n.passing()) out[at(n.column)] = std::max(out[at(n.column)], n.outline.body.right - n.outline.body.left);
  return out;
}

struct Reach { double top, bottom; };

// From where to where a node stands with its labels; a bar reaches to what it is wired to.
Reach reach_of(const Sketch& sketch, int n) {
  const SketchNode& node = sketch.nodes[at(n)];
  Reach out{node.y + node.outline.room.top, node.y + node.outline.room.bottom};
  if (!node.bar && node.posts.empty()) return out;
  constexpr double beyond = 4;   // wires that leave at an end of the bar
  for (const SketchLink& l : sketch.links) {
    if (l.left != n && l.right != n) continue;
    const double y = sketch.nodes[at(l.left == n ? l.right : l.left)].y;
    out = {std::min(out.top, y - beyond), std::max(out.bottom, y + beyond)};
  }
  return out;
}

// Labels wider than their parts reach into the gap: from both sides at one height they must not meet.
int label_need(const Sketch& sketch, const std::vector<int>& widths, std::size_t column) {
  double need = 0;
  for (int a : sketch.columns[column])
    for (int b : sketch.columns[column + 1]) {
      const SketchNode &l = sketch.nodes[at(a)], &r = sketch.nodes[at(b)];
      if (l.passing() || r.passing()) continue;
      const Reach left = reach_of(sketch, a), right = reach_of(sketch, b);
      if (left.bottom < right.top || right.bottom < left.top) continue;
      const double behind = l.outline.room.right - l.outline.body.left - widths[column], before = r.outline.body.left - r.outline.room.left;
      need = std::max(need, std::max(behind, 0.0) + std::max(before, 0.0) + 0.6);
    }
  return static_cast<int>(std::ceil(need));
}

// A bar may reach past several columns of passing wires: labels that reach out to its side keep off it.
void keep_off_bars(std::vector<GapNeed>& needs, const Sketch& sketch, const std::vector<int>& widths) {
  for (std::size_t n = 0; n < sketch.nodes.size(); ++n) {
    const SketchNode& bar = sketch.nodes[n];
    if (!bar.bar && bar.posts.empty()) continue;
    const Reach reach = reach_of(sketch, static_cast<int>(n));
    for (const SketchNode& part : sketch.nodes) {
      if (part.passing() || part.column <= bar.column + 1 || part.y + part.outline.room.bottom < reach.top || part.y + part.outline.room.top > reach.bottom) continue;
      int found = 0;
      for (int c = bar.column; c < part.column; ++c) found += needs[at(c)].hard + (c > bar.column ? widths[at(c)] : 0);
      const int missing = static_cast<int>(std::ceil(part.outline.body.left - part.outline.room.left + 0.6)) - found;
      if (missing <= 0) continue;
      needs[at(part.column - 1)].hard += missing;
      needs[at(part.column - 1)].bare += missing;
    }
  }
}

// What is left of the width goes to the gaps, the runs first: their wires carry the longest labels.
void spread_gaps(std::vector<int>& gaps, const Sketch& sketch, int spare) {
  std::vector<int> first = gaps;
  while (spare > 0) {
    std::size_t best = 0;
    double least = 1e9;
    for (std::size_t c = 0; c + 1 < gaps.size(); ++c) {
      const bool long_zone = sketch.zone[c] == in_pocket || (sketch.zone[c] == in_middle && sketch.zone[c + 1] == in_pocket);
      const double score = double(gaps[c]) / first[c] * (long_zone ? 0.8 : 1.0) + gaps[c] * 0.02;
      if (score < least) least = score, best = c;
    }
    ++gaps[best];
    --spare;
  }
}

// What the fullest column takes at the very least, modules.
int least_height(const Sketch& sketch) {
  std::vector<double> sum(sketch.zone.size(), 0);
  for (const SketchNode& n : sketch.nodes) sum[at(n.column)] += n.passing() ? 2 : n.outline.room.bottom - n.outline.room.top + 1;
  return static_cast<int>(*std::max_element(sum.begin(), sum.end())) - 2;
}

Problem too_small(int needed, int found, const char* along) {
  return {"it needs " + std::to_string(needed * 5 / 2) + " mm in " + along + " and finds " + std::to_string(found * 5 / 2), static_cast<double>(needed) / std::max(1, found), std::string(along) == "width"};
}

// Columns with their heights, spread over the height there is.
Stack stack_columns(const Circuit& circuit, const Look& look, int high, const Wishes& wishes, KnownOrders& orders) {
  Stack out;
  Sketch sketch;
  // Where the paper is low, lamps say all in one line; and other columns may take what is in the way.
  for (const auto& [lit, turned] : {std::pair{LampLines::two, false}, {LampLines::one, false}, {LampLines::one, true}}) {
    Wishes tried = wishes;
    tried.over_at_dots = wishes.over_at_dots != turned;
    if (turned && out.least > (wishes.roomy.empty() ? most_saved : saved_for_label) * high) break;
    Sketch other = make_sketch(circuit, look, lit, tried);
    const bool same = std::equal(sketch.nodes.begin(), sketch.nodes.end(), other.nodes.begin(), other.nodes.end(), [](const SketchNode& a, const SketchNode& b) { return a.side == b.side && a.column == b.column; });
    if (turned && same) break;   // no wire goes over at a dot
    sketch = std::move(other);
    if (const int needed = least_height(sketch); needed > high) {   // no order will do
      out.problem = too_small(needed, high, "height");
      if (lit == LampLines::one || needed > 2 * high) return out;   // a line less at each lamp does not halve it
      continue;
    }
    order_columns(sketch, circuit, tried, orders);
    out.heights = set_heights(sketch, circuit, 0);
    out.least = out.heights.above + out.heights.below;
    if (out.least <= high) break;
  }
  if (out.least > high) {
    out.problem = too_small(out.least, high, "height");
    return out;
  }
  out.problem = {};
  int fits = 0, too_wide = most_spread + 1;   // spreads: halved until they meet
  while (too_wide - fits > 1) {
    const int middle = (fits + too_wide) / 2;
    out.heights = set_heights(sketch, circuit, middle);
    (out.heights.above + out.heights.below > high ? too_wide : fits) = middle;
  }
  out.heights = set_heights(sketch, circuit, fits);
  out.sketch = std::move(sketch);
  return out;
}

}  // namespace

const Standing* Placement::of(PartId part) const {
  for (const Standing& s : parts)
    if (s.part == part && !s.repeat) return &s;
  return nullptr;
}

std::optional<Placement> place_bench(const Circuit& circuit, const Look& look, const SheetRoom& room, const Wishes& wishes, OtherTries& known, Problem& problem) {
  const int widen = wishes.widen, high = room.bottom - room.top;
  Stack& stack = known.stacks[{wishes.roomy, wishes.start, wishes.over_at_dots, high}];
  if (!stack.sketch && stack.problem.text.empty()) stack = stack_columns(circuit, look, high, wishes, known.orders);
  if (!stack.sketch) {
    problem = stack.problem;
    return std::nullopt;
  }
  Sketch sketch = *stack.sketch;
  Placement out;
  out.high = stack.least;
  out.axis = room.top + stack.heights.above + (high - stack.heights.above - stack.heights.below) / 2;

  std::vector<GapNeed> needs = gap_needs(sketch, circuit, look, wishes);
  const int last = sketch.zone.back() == in_lamp ? stud_room : last_room;
  needs.back() = {last - 2, last, last, last - 2};
  std::vector<int> gaps;
  for (const GapNeed& need : needs) gaps.push_back(need.wanted + widen);
  const std::vector<int> widths = column_widths(sketch);
  // Left of the first column: labels that reach out, ground symbols of terminals that look to the left, and a track for each
  // other wire there, which must turn back.
  int lead = 1, turned_back = 0;
  for (const SketchNode& n : sketch.nodes) {
    if (n.column != 0) continue;
    lead = std::max(lead, static_cast<int>(std::ceil(n.outline.body.left - n.outline.room.left + 0.5)));
    for (const Wire& w : circuit.wires)
      for (const auto& [stud, end] : {std::pair{w.from, w.to}, {w.to, w.from}})
        if (circuit.part(stud.part).kind == "stud" && end.part == n.part)
          if (const PinSpot* pin = pin_of(n, end.index); pin != nullptr && pin->way == Way::left) lead = std::max(lead, stud_lead);
    for (const Wire& w : circuit.wires)
      for (const auto& [other, end] : {std::pair{w.from, w.to}, {w.to, w.from}})
        if (end.part == n.part && circuit.part(other.part).kind != "stud")
          if (const PinSpot* pin = pin_of(n, end.index); pin != nullptr && pin->way == Way::left) ++turned_back;
  }
  if (turned_back > 0) lead = std::max(lead, turned_back + 1);
  out.wide = lead;
  keep_off_bars(needs, sketch, widths);
  for (std::size_t c = 0; c < gaps.size(); ++c) {
    if (c + 1 < gaps.size()) {
      const int labels = label_need(sketch, widths, c);
      needs[c].bare = std::max(needs[c].bare, labels);
      needs[c].hard = std::max(needs[c].hard, labels);
      needs[c].least = std::max(needs[c].least, needs[c].hard);
      gaps[c] = std::max(gaps[c], needs[c].least + widen);
    }
    out.wide += widths[c] + gaps[c];
  }
  // Labels give way before the paper does; what is wished for gives way last, as far as it must.
  for (int GapNeed::*floor : {&GapNeed::least, &GapNeed::hard, &GapNeed::bare})
    for (bool narrower = true; narrower && out.wide > room.right - room.left;) {
      std::size_t widest = 0;
      const auto slack = [&](std::size_t c) { return double(gaps[c] - needs[c].*floor - widen) / needs[c].wanted; };
      for (std::size_t c = 0; c < gaps.size(); ++c)
        if (slack(c) > slack(widest)) widest = c;
      narrower = gaps[widest] > needs[widest].*floor + widen;
      if (narrower) --gaps[widest], --out.wide;
    }
  const int spare = room.right - room.left - out.wide;
  if (spare < 0) {
    problem = too_small(out.wide, room.right - room.left, "width");
    return std::nullopt;
  }
  spread_gaps(gaps, sketch, spare);
  std::vector<int> left(gaps.size());
  for (std::size_t c = 0; c < gaps.size(); ++c) left[c] = c == 0 ? room.left + lead : left[c - 1] + widths[c - 1] + gaps[c - 1];
  for (SketchNode& n : sketch.nodes) {
    n.x = left[at(n.column)] - (n.passing() ? 0 : n.outline.body.left);
    n.y += out.axis;
  }

  // Zone edges lie in the middle of the gaps; outlet and inlet keep their contacts close.
  const auto first_of = [&](int zone) {
    for (std::size_t c = 0; c < sketch.zone.size(); ++c)
      if (sketch.zone[c] >= zone) return c;
    return sketch.zone.size();
  };
  const auto edge = [&](int zone, int towards_right) {
    const std::size_t c = first_of(zone);
    if (c == left.size()) return room.right;
    return c == 0 ? room.left : left[c] - std::min(towards_right, gaps[c - 1] / 2);
  };
  out.columns.coach = room.left;
  const std::size_t inlet = first_of(in_inlet);
  out.columns.cord = inlet == 0 ? room.left : left[inlet - 1] + widths[inlet - 1] + 1;
  out.columns.inlet = inlet == 0 ? room.left : inlet == left.size() ? room.right : left[inlet] - 1;
  const std::size_t middle = first_of(in_middle);
  out.columns.run = middle == 0 ? out.columns.inlet : left[middle - 1] + widths[middle - 1] + 1;
  out.columns.pocket = edge(in_pocket, 4);
  out.columns.lamp = edge(in_lamp, 4);
  out.columns.end = room.right;
  out.top = room.top;
  out.bottom = room.bottom;
  finish(out, sketch, circuit, look);
  return out;
}

}  // namespace towloom
