#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>

#include "prove/quality.hpp"

namespace towloom {
namespace {

std::int64_t length(const Polyline& path) {
  std::int64_t sum = 0;
  for (size_t i = 1; i < path.size(); ++i)
    sum += std::abs(path[i].x - path[i - 1].x) + std::abs(path[i].y - path[i - 1].y);
  return sum;
}

// Distinct points where two different nets cross at a right angle.
int count_crossings(const Page& page) {
  std::set<Point> points;
  for (size_t i = 0; i < page.segments.size(); ++i) {
    const Segment& s = page.segments[i];
    for (size_t k = i + 1; k < page.segments.size() && page.segments[k].a.x <= s.b.x; ++k) {
      const Segment& t = page.segments[k];
      if (s.level() == t.level()) continue;
      if (page.lines[static_cast<size_t>(s.line)].net ==
          page.lines[static_cast<size_t>(t.line)].net)
        continue;
      const Segment &level = s.level() ? s : t, &upright = s.level() ? t : s;
      const Point p{upright.a.x, level.a.y};
      const bool cross =
          p.x > level.a.x && p.x < level.b.x && p.y > upright.a.y && p.y < upright.b.y;
      if (cross) points.insert(p);
    }
  }
  return static_cast<int>(points.size());
}

// The least distance between parallel stretches of different nets that face each other; 0 if none
// do.
double least_gap(const Page& page) {
  Mm100 best = 0;
  for (size_t i = 0; i < page.segments.size(); ++i) {
    const Segment& s = page.segments[i];
    for (size_t k = i + 1; k < page.segments.size(); ++k) {
      const Segment& t = page.segments[k];
      if (s.level() != t.level()) continue;
      if (page.lines[static_cast<size_t>(s.line)].net ==
          page.lines[static_cast<size_t>(t.line)].net)
        continue;
      const Mm100 shared = s.level() ? std::min(s.b.x, t.b.x) - std::max(s.a.x, t.a.x)
                                     : std::min(s.b.y, t.b.y) - std::max(s.a.y, t.a.y);
      const Mm100 apart = s.level() ? std::abs(s.a.y - t.a.y) : std::abs(s.a.x - t.a.x);
      if (shared > 0 && (best == 0 || apart < best)) best = apart;
    }
  }
  return to_mm(best);
}

void measure_wires(const Page& page, SheetStats& out) {
  std::int64_t drawn = 0, shortest = 0;
  for (const TracedLine& line : page.lines) {
    if (line.run == nullptr || line.path.size() < 2) continue;
    ++out.wires;
    const int bends = static_cast<int>(line.path.size()) - 2;
    out.bends += bends;
    if (bends == 0) ++out.straight;
    const std::int64_t own = length(line.path),
                       least = length({line.path.front(), line.path.back()});
    drawn += own;
    shortest += least;
    if (least > 0)
      out.worst_detour =
          std::max(out.worst_detour, static_cast<double>(own) / static_cast<double>(least));
  }
  if (out.wires > 0) {
    out.straight_share = static_cast<double>(out.straight) / out.wires;
    out.bends_per_wire = static_cast<double>(out.bends) / out.wires;
  }
  if (shortest > 0) out.length_ratio = static_cast<double>(drawn) / static_cast<double>(shortest);
}

struct Twin {
  double dx = 0, sum_y = 0;
};

// Where a part stands, mm: the middle of its pins. A symbol may reach farther down than up.
double height(const PartFigure& part) {
  double sum = 0;
  for (const Pin& pin : part.pins) sum += to_mm(pin.at.y) / static_cast<double>(part.pins.size());
  return part.pins.empty() ? to_mm(part.body.y) + to_mm(part.body.h) / 2 : sum;
}

// Twins are two figures of one role on both sides; several of a role pair from the axis outwards.
std::vector<Twin> find_twins(const Page& page) {
  std::map<std::string, std::array<std::vector<const PartFigure*>, 2>> by_role;
  for (const PartFigure* part : page.parts)
    if (!part->role.empty() && (part->side == "left" || part->side == "right"))
      by_role[part->kind + " " + part->role][part->side == "left"].push_back(part);
  std::vector<Twin> out;
  for (auto& [role, sides] : by_role) {
    auto& [right, left] = sides;   // right above the axis, left below it
    const auto lower = [](const PartFigure* a, const PartFigure* b) { return a->body.y < b->body.y; };
    std::stable_sort(left.begin(), left.end(), lower);
    std::stable_sort(right.rbegin(), right.rend(), lower);
    for (size_t i = 0; i < std::min(left.size(), right.size()); ++i) {
      out.push_back({to_mm(left[i]->body.x - right[i]->body.x), height(*left[i]) + height(*right[i])});
    }
  }
  return out;
}

// Anchors A4: 1 − mean(min(1, (|Δx| + |yL + yR − 2a|) / 4M)), a the mean axis.
double twin_symmetry(const Page& page) {
  const std::vector<Twin> twins = find_twins(page);
  if (twins.empty()) return 1;
  double axis = 0, loss = 0;
  for (const Twin& t : twins) axis += t.sum_y / static_cast<double>(twins.size());
  for (const Twin& t : twins)
    loss += std::min(1.0, (std::abs(t.dx) + std::abs(t.sum_y - axis)) / 10.0);
  return 1 - loss / static_cast<double>(twins.size());
}

void fill(const Page& page, SheetStats& out) {
  Rect used;
  bool empty = true;
  const auto add = [&](const Rect& r) {
    if (empty) used = r;
    const Mm100 x0 = std::min(used.x, r.x), y0 = std::min(used.y, r.y);
    const Mm100 x1 = std::max(used.right(), r.right()), y1 = std::max(used.bottom(), r.bottom());
    used = {x0, y0, x1 - x0, y1 - y0};
    empty = false;
  };
  for (const PartFigure* part : page.parts) add(part->body);
  for (const Segment& s : page.segments) add(extent(s, 0));
  for (const ContactFigure* contact : page.contacts) add(extent(contact->marks));
  for (const Label* label : page.labels)
    if (!label->decoration) add(label->room);
  const double frame = to_mm(page.frame.w) * to_mm(page.frame.h);
  if (empty || frame <= 0 || used.w <= 0 || used.h <= 0) return;
  out.fill = to_mm(used.w) * to_mm(used.h) / frame;
  out.aspect = std::abs(std::log(to_mm(used.w) / to_mm(used.h) / (to_mm(page.frame.w) / to_mm(page.frame.h))));
}

}  // namespace

SheetStats measure(const Drawing& drawing) {
  const Page page = take_apart(drawing);
  SheetStats out;
  measure_wires(page, out);
  out.crossings = count_crossings(page);
  out.min_gap_mm = least_gap(page);
  out.twin_symmetry = twin_symmetry(page);
  fill(page, out);
  add_quality(page, out);
  for (const Defect& d : prove_geometry(drawing)) {
    if (d.kind == "overlap") ++out.overlaps;
    if (d.kind == "symbol-hit") ++out.symbol_hits;
    if (d.kind == "pin-miss" || d.kind == "wrong-pin") ++out.pin_misses;
    if (d.kind == "false-junction") ++out.false_junctions;
    if (d.kind == "label-ambiguous" || d.kind == "label-far") ++out.label_ambiguity;
    else if (d.kind.rfind("label-", 0) == 0) ++out.label_overlaps;
  }
  return out;
}

}  // namespace towloom
