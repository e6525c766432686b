#include "layout/field.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <queue>

namespace towloom {
namespace {

// Driving another wire out costs more than any detour on the sheet; more each time it happened at that place.
constexpr int conflict_cost = 60, history_cost = 25;
constexpr int most_bends = 4;   // that two ends without anything between them can ask for
constexpr std::array<GridPoint, 4> steps = {GridPoint{1, 0}, {0, 1}, {-1, 0}, {0, -1}};

// The fewest bends from a cell with a step that way to an end `d` further on that is entered with a step of the way
// `last`; no wire in the way.
int fewest_bends(int way, int last, GridPoint d) {
  if (d == GridPoint{}) return 0;
  for (int turn = 0; turn < way; ++turn) d = {d.y, -d.x};   // turned so that the first step goes right
  const auto bends = [&](int heading) {
    if (heading == 0) return d.x > 0 ? (d.y == 0 ? 0 : 2) : most_bends;
    if (heading == 2) return d.y == 0 ? most_bends : 2;
    return d.x > 0 && d.y != 0 && (d.y > 0) == (heading == 1) ? 1 : 3;
  };
  if (last == static_cast<int>(Way::any)) return std::min({bends(0), bends(1), bends(2), bends(3)});
  return bends((last - way + 4) % 4);
}

// What is open, in one number: least guess of the whole cost first, then most bends to come, so that wires bend late;
// then least cell and way.
using State = std::uint64_t;
struct Guess {
  int cost = 0, bends = 0;
};
State state_of(Guess guess, std::size_t key) { return static_cast<State>(guess.cost) << 32 | static_cast<State>(most_bends - guess.bends) << 28 | key; }

std::vector<GridPoint> corners_of(const std::vector<GridPoint>& cells) {
  std::vector<GridPoint> out;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const bool end = i == 0 || i + 1 == cells.size();
    const bool bend = !end && (cells[i + 1].x - cells[i].x != cells[i].x - cells[i - 1].x ||
                               cells[i + 1].y - cells[i].y != cells[i].y - cells[i - 1].y);
    if (end || bend) out.push_back(cells[i]);
  }
  return out;
}

}  // namespace

Field::Field(const Grid& grid) : width_(grid.width), height_(grid.height), cells_(static_cast<std::size_t>(width_ * height_)) {
  for (const GridBox& b : grid.blocked)
    for (int y = b.top; y <= b.bottom; ++y)
      for (int x = b.left; x <= b.right; ++x)
        if (inside({x, y})) cell({x, y}).blocked = true;
  for (const GridPoint& t : grid.terminals)
    if (inside(t)) cell(t).blocked = true;
  for (const Fence& f : grid.fences)
    for (int y = f.cells.top; y <= f.cells.bottom; ++y)
      for (int x = f.cells.left; x <= f.cells.right; ++x)
        if (inside({x, y})) (f.upright ? cell({x, y}).fence_upright : cell({x, y}).fence_level) = true;
}

template <class Do>
void Field::walk(const std::vector<GridPoint>& corners, Do what) {
  for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
    const GridPoint a = corners[i], b = corners[i + 1];
    for (int y = std::min(a.y, b.y); y <= std::max(a.y, b.y); ++y)
      for (int x = std::min(a.x, b.x); x <= std::max(a.x, b.x); ++x)
        what(GridPoint{x, y}, a.y == b.y, GridPoint{x, y} == a || GridPoint{x, y} == b);
  }
}

std::vector<GridPoint> Field::find(const RouteRequest& r, Rule rule, int bound) {
  Found plain{{}, bound, false};
  if (rule == Rule::keep) {
    Found best = find_plain(r);
    if (best.surely && best.cost >= bound) return {};
    if (best.cost < bound) plain = std::move(best);
    if (plain.surely) return plain.corners;
  }
  const std::size_t count = cells_.size() * 4;
  std::vector<int>&best = best_, &from = from_;
  best.resize(count);
  from.resize(count);
  seen_.resize(count);
  ++search_;
  const auto reach = [&](std::size_t k, int cost, int before) {   // whether this is the best way to `k` so far
    if (seen_[k] == search_ && best[k] <= cost) return false;
    seen_[k] = search_;
    best[k] = cost;
    from[k] = before;
    return true;
  };
  std::priority_queue<State, std::vector<State>, std::greater<>> open;
  const auto key = [&](GridPoint p, int way) { return static_cast<std::size_t>(p.y * width_ + p.x) * 4 + static_cast<std::size_t>(way); };
  const int last = r.arrive == Way::any ? static_cast<int>(Way::any) : (static_cast<int>(r.arrive) + 2) % 4;
  const auto whole = [&](int so_far, GridPoint p, int way) {   // never more than it will be
    const GridPoint d{r.to.x - p.x, r.to.y - p.y};
    const int bends = fewest_bends(way, last, d);
    return Guess{so_far + std::abs(d.x) + std::abs(d.y) + bend_cost * bends, bends};
  };
  for (int way = 0; way < 4; ++way) {
    if (r.leave != Way::any && static_cast<int>(r.leave) != way) continue;
    reach(key(r.from, way), 0, -1);
    open.push(state_of(whole(0, r.from, way), key(r.from, way)));
  }
  std::size_t found = count;
  while (!open.empty()) {
    const State s = open.top();
    open.pop();
    const std::size_t here = s & 0xFFFFFFF;
    const int way = static_cast<int>(here % 4), index = static_cast<int>(here / 4);
    const GridPoint at{index % width_, index / width_};
    const int so_far = best[here];
    if (s != state_of(whole(so_far, at, way), here)) continue;   // a better way was found since
    if (at == r.to && at != r.from) {
      found = here;
      break;
    }
    const GridPoint next{at.x + steps[static_cast<std::size_t>(way)].x, at.y + steps[static_cast<std::size_t>(way)].y};
    if (!inside(next)) continue;
    const bool target = next == r.to;
    const Cell& c = cell(next);
    const bool level = way % 2 == 0;
    if (target && r.arrive != Way::any && (way + 2) % 4 != static_cast<int>(r.arrive)) continue;
    if (!target && (c.blocked || (level ? c.fence_level : c.fence_upright))) continue;
    const bool lies_along = !target && (level ? c.level : c.upright) >= 0, bends = !target && c.corner >= 0;
    const bool crosses = !target && (level ? c.upright : c.level) >= 0;
    if (rule == Rule::keep && (lies_along || bends)) continue;
    const int conflict = conflict_cost + history_cost * c.history;
    const int cost = so_far + 1 + (lies_along || bends ? conflict : crosses ? crossing_cost : 0);
    for (int turn = 0; turn < 4; ++turn) {
      if (turn == (way + 2) % 4 || (target && turn != way)) continue;
      if (turn != way && (c.fence_level || c.fence_upright)) continue;
      const bool on_foreign = turn != way && crosses && !lies_along && !bends;   // a bend on a wire would read as a joint
      if (rule == Rule::keep && on_foreign) continue;
      const int total = cost + (turn == way ? 0 : bend_cost) + (on_foreign ? conflict : 0);
      const std::size_t k = key(next, turn);
      if (const Guess guess = whole(total, next, turn); guess.cost < plain.cost && reach(k, total, static_cast<int>(here))) open.push(state_of(guess, k));
    }
  }
  if (found == count) return plain.corners;
  std::vector<GridPoint> cells;
  for (int k = static_cast<int>(found); k >= 0; k = from[static_cast<std::size_t>(k)])
    cells.push_back({k / 4 % width_, k / 4 / width_});
  std::reverse(cells.begin(), cells.end());
  return corners_of(cells);
}

void Field::take(const std::vector<GridPoint>& corners, int wire) {
  walk(corners, [&](GridPoint p, bool level, bool end) {
    Cell& c = cell(p);
    (level ? c.level : c.upright) = wire;
    if (end) c.corner = wire;
  });
}

void Field::leave(const std::vector<GridPoint>& corners, int wire) {
  walk(corners, [&](GridPoint p, bool, bool) {
    Cell& c = cell(p);
    for (int* owner : {&c.level, &c.upright, &c.corner})
      if (*owner == wire) *owner = -1;
  });
}

std::vector<int> Field::driven_out(const std::vector<GridPoint>& corners) {
  std::vector<int> out;
  const auto drive = [&](Cell& c, int wire) {
    if (wire < 0) return;
    ++c.history;
    if (std::find(out.begin(), out.end(), wire) == out.end()) out.push_back(wire);
  };
  walk(corners, [&](GridPoint p, bool level, bool end) {
    Cell& c = cell(p);
    if (c.blocked) return;   // its own terminals
    drive(c, level ? c.level : c.upright);
    drive(c, c.corner);
    if (end) drive(c, level ? c.upright : c.level);
  });
  return out;
}

int Field::cost(const std::vector<GridPoint>& corners) const {
  int out = bend_cost * std::max(0, static_cast<int>(corners.size()) - 2);
  for (std::size_t i = 0; i + 1 < corners.size(); ++i) out += std::abs(corners[i + 1].x - corners[i].x) + std::abs(corners[i + 1].y - corners[i].y);
  walk(corners, [&](GridPoint p, bool level, bool end) {
    if (!end && (level ? cell(p).upright : cell(p).level) >= 0) out += crossing_cost;
  });
  return out;
}

std::vector<int> Field::crossed(const std::vector<GridPoint>& corners) const {
  std::vector<int> out;
  walk(corners, [&](GridPoint p, bool level, bool end) {
    const int other = level ? cell(p).upright : cell(p).level;
    if (!end && other >= 0 && std::find(out.begin(), out.end(), other) == out.end()) out.push_back(other);
  });
  return out;
}

}  // namespace towloom
