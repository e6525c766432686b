// Figures of a page that tell how well it reads, beside the counted defects (measure.cpp).
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <set>
#include <tuple>

#include "base/quantity.hpp"
#include "drawing/text.hpp"
#include "prove/quality.hpp"

namespace towloom {
namespace {

struct End {
  const PartFigure* part = nullptr;
  std::string pin;               // behind the part's name
  int side = -1;                 // a wire leaves to the right 0, down 1, left 2, up 3; -1: any
};

// The side of its part that a pin stands on; a dot, a bar and a pin inside have none.
int side_of(const PartFigure& part, Point p) {
  const Rect& b = part.body;
  if (b.w < mm(1.5) || b.h < mm(1.5)) return -1;
  const Mm100 off[] = {std::abs(b.right() - p.x), std::abs(b.bottom() - p.y), std::abs(p.x - b.x), std::abs(p.y - b.y)};
  int best = 2;
  for (int s : {2, 0, 1, 3})
    if (off[s] < off[best]) best = s;
  return off[best] > mm(1) ? -1 : best;
}

std::map<std::pair<Mm100, Mm100>, End> ends_of(const Page& page) {
  std::map<std::pair<Mm100, Mm100>, End> out;
  for (const PartFigure* part : page.parts)
    for (const Pin& pin : part->pins) {
      const bool alone = pin.terminal.size() > part->part.size();
      out[{pin.at.x, pin.at.y}] = {part, alone ? pin.terminal.substr(part->part.size()) : "", side_of(*part, pin.at)};
    }
  return out;
}

// The fewest bends between two pins: none if they face and align, two if they face at different heights, four if
// the target lies behind; one or three round a corner.
int fewest_bends(Point a, int leave, Point b, int arrive) {
  int best = 4;
  for (int l = 0; l < 4; ++l)
    for (int r = 0; r < 4; ++r) {
      if ((leave >= 0 && leave != l) || (arrive >= 0 && arrive != r)) continue;
      std::int64_t x = b.x - a.x, y = b.y - a.y;
      for (int turn = 0; turn < l; ++turn) std::tie(x, y) = std::pair(y, -x);
      const int heading = (r + 6 - l) % 4;   // 0 on, 1 down, 2 back, 3 up
      int bends = 3;
      if (heading == 0) bends = x > 0 ? (y == 0 ? 0 : 2) : 4;
      else if (heading == 2) bends = y == 0 ? 4 : 2;
      else if (x > 0 && y != 0 && (y > 0) == (heading == 1)) bends = 1;
      best = std::min(best, bends);
    }
  return best;
}

void bends(const Page& page, SheetStats& out) {
  const auto ends = ends_of(page);
  int excess = 0, wires = 0;
  for (const TracedLine& line : page.lines) {
    if (line.run == nullptr || line.path.size() < 2) continue;
    const auto side = [&](Point p) {
      const auto found = ends.find({p.x, p.y});
      return found == ends.end() ? -1 : found->second.side;
    };
    const int own = static_cast<int>(line.path.size()) - 2;
    out.most_bends = std::max(out.most_bends, own);
    excess += std::max(0, own - fewest_bends(line.path.front(), side(line.path.front()), line.path.back(), side(line.path.back())));
    ++wires;
  }
  out.excess_bends = wires == 0 ? 0 : static_cast<double>(excess) / wires;
}

// Purchase: 1 - c / c_max, where wires that share a part cannot cross.
double crossing_score(const Page& page, int crossings) {
  std::map<const PartFigure*, double> degree;
  const auto ends = ends_of(page);
  double wires = 0;
  for (const TracedLine& line : page.lines) {
    if (line.run == nullptr || line.path.empty()) continue;
    ++wires;
    for (const Point& p : {line.path.front(), line.path.back()})
      if (const auto found = ends.find({p.x, p.y}); found != ends.end()) ++degree[found->second.part];
  }
  double most = wires * (wires - 1) / 2;
  for (const auto& [part, d] : degree) most -= d * (d - 1) / 2;
  return most <= 0 ? 1 : 1 - crossings / most;
}

// Share of twin wires whose bends are mirror images.
double twin_routes(const Page& page) {
  const auto ends = ends_of(page);
  std::map<std::string, std::vector<const TracedLine*>> of[2];
  for (const TracedLine& line : page.lines) {
    if (line.run == nullptr || line.path.size() < 2) continue;
    std::string key, side;
    for (const Point& p : {line.path.front(), line.path.back()}) {
      const auto found = ends.find({p.x, p.y});
      if (found == ends.end()) continue;
      const PartFigure& part = *found->second.part;
      key += "|" + part.kind + " " + (part.role.empty() ? part.kind == "splice" || part.kind == "stud" ? "" : part.part : part.role) + found->second.pin;
      if (!part.role.empty()) side = part.side;
    }
    if (side == "left" || side == "right") of[side == "left"][key].push_back(&line);
  }
  const auto turns = [](const Polyline& path, int sign) {
    std::vector<std::pair<int, int>> out;
    for (std::size_t i = 0; i + 1 < path.size(); ++i)
      out.emplace_back((path[i + 1].x > path[i].x) - (path[i + 1].x < path[i].x), sign * ((path[i + 1].y > path[i].y) - (path[i + 1].y < path[i].y)));
    return out;
  };
  int pairs = 0, mirrored = 0;
  for (const auto& [key, rights] : of[0]) {
    const auto lefts = of[1].find(key);
    if (lefts == of[1].end() || lefts->second.size() != rights.size()) continue;
    for (std::size_t i = 0; i < rights.size(); ++i) {
      ++pairs;
      mirrored += turns(rights[i]->path, 1) == turns(lefts->second[i]->path, -1);
    }
  }
  return pairs == 0 ? 1 : static_cast<double>(mirrored) / pairs;
}

// Share of parts that stand level with one they are wired to; share of wires that run from source to load towards
// the right or downwards.
void directions(const Page& page, SheetStats& out) {
  const auto ends = ends_of(page);
  std::set<const PartFigure*> wired, level;
  int wires = 0, forwards = 0;
  for (const TracedLine& line : page.lines) {
    if (line.run == nullptr || line.path.size() < 2) continue;
    const Point a = line.path.front(), b = line.path.back();
    ++wires;
    forwards += b.x > a.x || (b.x == a.x && b.y > a.y);
    for (const Point& p : {a, b})
      if (const auto found = ends.find({p.x, p.y}); found != ends.end()) {
        wired.insert(found->second.part);
        if (a.y == b.y) level.insert(found->second.part);
      }
  }
  out.aligned_share = wired.empty() ? 1 : static_cast<double>(level.size()) / static_cast<double>(wired.size());
  out.flow_share = wires == 0 ? 1 : static_cast<double>(forwards) / wires;
}

void print(const Page& page, SheetStats& out) {
  double text = 0, pen = 0;
  for (const Label* label : page.labels) {
    const double capital = to_mm(label->size) * cap_height_em;
    if (text == 0 || capital < text) text = capital;
  }
  const auto thinnest = [&](const Pen& p) {
    if (p.width > 0 && (pen == 0 || to_mm(p.width) < pen)) pen = to_mm(p.width);
  };
  const auto marks = [&](const std::vector<Mark>& list) {
    for (const Mark& mark : list) std::visit([&](const auto& m) { thinnest(m.pen); }, mark);
  };
  for (const Item& item : page.drawing->items) {
    if (const auto* decor = std::get_if<Decor>(&item)) marks(decor->marks);
    if (const auto* part = std::get_if<PartFigure>(&item)) marks(part->marks);
    if (const auto* run = std::get_if<WireRun>(&item)) thinnest(run->casing), thinnest(run->core), thinnest(run->tracer);
  }
  out.least_capital_mm = text;
  out.thinnest_line_mm = pen;
}

}  // namespace

void add_quality(const Page& page, SheetStats& stats) {
  bends(page, stats);
  stats.layered_crossings = layered_crossings(page);
  stats.crossing_score = crossing_score(page, stats.crossings);
  stats.twin_routes = twin_routes(page);
  directions(page, stats);
  print(page, stats);
}

std::string stats_table(const std::string& name, const SheetStats& s) {
  std::string out = name + "\n";
  const auto row = [&](const char* what, const std::string& value, const char* goal) {
    const std::string label = std::string("  ") + what;
    out += label + std::string(label.size() < 32 ? 32 - label.size() : 1, ' ') + value;
    if (*goal != 0) out += std::string(value.size() < 12 ? 12 - value.size() : 1, ' ') + goal;
    out += "\n";
  };
  const auto count = [](int n) { return std::to_string(n); };
  const auto share = [](double v) { return format_fixed(100 * v, 0) + " %"; };
  if (s.wires > 0) {
    row("wires", count(s.wires), "");
    row("crossings", count(s.crossings), "");
    row("crossings its order asks for", count(s.layered_crossings), "drawn <= 1.05 x");
    row("crossing score", format_fixed(s.crossing_score, 3), "");
    row("bends per wire", format_fixed(s.bends_per_wire, 2), "");
    row("excess bends per wire", format_fixed(s.excess_bends, 2), "<= 0.10");
    row("most bends of a wire", count(s.most_bends), "<= 4");
    row("straight share", share(s.straight_share), ">= 45 %");
    row("length ratio", format_fixed(s.length_ratio, 3), "<= 1.05");
    row("worst detour", format_fixed(s.worst_detour, 2), "<= 1.3");
    row("overlaps", count(s.overlaps), "0");
    row("symbol hits", count(s.symbol_hits), "0");
    row("pin misses", count(s.pin_misses), "0");
    row("gap of parallel wires, mm", format_fixed(s.min_gap_mm, 2), ">= 2.5");
    row("false junctions", count(s.false_junctions), "0");
    row("twin symmetry", format_fixed(s.twin_symmetry, 3), ">= 0.98");
    row("twin wires mirrored", share(s.twin_routes), ">= 90 %");
    row("alignment", share(s.aligned_share), ">= 60 %");
    row("flow", share(s.flow_share), ">= 95 %");
  }
  row("label overlaps", count(s.label_overlaps), "0");
  row("label ambiguity", count(s.label_ambiguity), "0");
  row("fill", share(s.fill), "55-85 %");
  row("aspect", format_fixed(s.aspect, 2), "<= 0.2");
  row("smallest capitals, mm", format_fixed(s.least_capital_mm, 2), ">= 2.50");
  row("thinnest line, mm", format_fixed(s.thinnest_line_mm, 2), ">= 0.18");
  return out;
}

}  // namespace towloom
