#include "layout/route.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdlib>
#include <functional>
#include <queue>
#include <tuple>

namespace towloom {
namespace {

// A step costs 1; a bend as much as 4 steps, a crossing as 6 (measured on a test graph of 103 wires).
constexpr int bend_cost = 4, crossing_cost = 6;
constexpr int most_passes = 8;
constexpr std::array<GridPoint, 4> steps = {GridPoint{1, 0}, {0, 1}, {-1, 0}, {0, -1}};

class Field {
 public:
  explicit Field(const Grid& grid) : width_(grid.width), height_(grid.height), cells_(static_cast<std::size_t>(width_ * height_)) {
    for (const GridBox& b : grid.blocked)
      for (int y = b.top; y <= b.bottom; ++y)
        for (int x = b.left; x <= b.right; ++x)
          if (inside({x, y})) cell({x, y}).blocked = true;
    for (const GridPoint& t : grid.terminals)
      if (inside(t)) cell(t).blocked = true;
  }
  std::vector<GridPoint> find(const RouteRequest&) const;
  void take(const std::vector<GridPoint>& corners);

 private:
  struct Cell {
    bool blocked = false, level = false, upright = false, corner = false;
  };
  bool inside(GridPoint p) const { return p.x >= 0 && p.y >= 0 && p.x < width_ && p.y < height_; }
  Cell& cell(GridPoint p) { return cells_[static_cast<std::size_t>(p.y * width_ + p.x)]; }
  const Cell& cell(GridPoint p) const { return cells_[static_cast<std::size_t>(p.y * width_ + p.x)]; }

  int width_, height_;
  std::vector<Cell> cells_;
};

struct State {
  int cost, guess;
  std::size_t key;
  bool operator>(const State& o) const { return std::tie(guess, key) > std::tie(o.guess, o.key); }
};

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

std::vector<GridPoint> Field::find(const RouteRequest& r) const {
  const std::size_t count = cells_.size() * 4;
  std::vector<int> best(count, -1), from(count, -1);
  std::priority_queue<State, std::vector<State>, std::greater<>> open;
  const auto key = [&](GridPoint p, int way) { return static_cast<std::size_t>(p.y * width_ + p.x) * 4 + static_cast<std::size_t>(way); };
  const auto rest = [&](GridPoint p) { return std::abs(p.x - r.to.x) + std::abs(p.y - r.to.y); };
  for (int way = 0; way < 4; ++way) {
    if (r.leave != Way::any && static_cast<int>(r.leave) != way) continue;
    best[key(r.from, way)] = 0;
    open.push({0, rest(r.from), key(r.from, way)});
  }
  std::size_t found = count;
  while (!open.empty()) {
    const State s = open.top();
    open.pop();
    if (s.cost != best[s.key]) continue;
    const int way = static_cast<int>(s.key % 4), index = static_cast<int>(s.key / 4);
    const GridPoint at{index % width_, index / width_};
    if (at == r.to && at != r.from) {
      found = s.key;
      break;
    }
    const GridPoint next{at.x + steps[static_cast<std::size_t>(way)].x, at.y + steps[static_cast<std::size_t>(way)].y};
    if (!inside(next)) continue;
    const bool target = next == r.to;
    const Cell& c = cell(next);
    const bool level = way % 2 == 0;
    if (target && r.arrive != Way::any && (way + 2) % 4 != static_cast<int>(r.arrive)) continue;
    if (!target && (c.blocked || c.corner || (level ? c.level : c.upright))) continue;
    const bool crosses = !target && (level ? c.upright : c.level);
    const int cost = s.cost + 1 + (crosses ? crossing_cost : 0);
    for (int turn = 0; turn < 4; ++turn) {
      if (turn == (way + 2) % 4 || ((crosses || target) && turn != way)) continue;
      const int total = cost + (turn == way ? 0 : bend_cost);
      const std::size_t k = key(next, turn);
      if (best[k] >= 0 && best[k] <= total) continue;
      best[k] = total;
      from[k] = static_cast<int>(s.key);
      open.push({total, total + rest(next), k});
    }
  }
  if (found == count) return {};
  std::vector<GridPoint> cells;
  for (int k = static_cast<int>(found); k >= 0; k = from[static_cast<std::size_t>(k)])
    cells.push_back({k / 4 % width_, k / 4 / width_});
  std::reverse(cells.begin(), cells.end());
  return corners_of(cells);
}

void Field::take(const std::vector<GridPoint>& corners) {
  for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
    const GridPoint a = corners[i], b = corners[i + 1];
    for (int y = std::min(a.y, b.y); y <= std::max(a.y, b.y); ++y)
      for (int x = std::min(a.x, b.x); x <= std::max(a.x, b.x); ++x) (a.y == b.y ? cell({x, y}).level : cell({x, y}).upright) = true;
    cell(a).corner = cell(b).corner = true;
  }
}

}  // namespace

std::vector<Routed> route(const Grid& grid, const std::vector<RouteRequest>& requests) {
  std::vector<std::size_t> order(requests.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto rank = [&](std::size_t i) {
    const RouteRequest& r = requests[i];
    const int dx = std::abs(r.from.x - r.to.x), dy = std::abs(r.from.y - r.to.y);
    return std::tuple(dx != 0 && dy != 0, dx + dy, i);
  };
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  std::vector<Routed> out(requests.size());
  for (int pass = 0; pass < most_passes; ++pass) {
    Field field(grid);
    std::vector<std::size_t> failed, done;
    for (std::size_t i : order) {
      out[i] = {requests[i].id, field.find(requests[i])};
      (out[i].path.empty() ? failed : done).push_back(i);
      field.take(out[i].path);
    }
    if (failed.empty()) break;
    order = failed;
    order.insert(order.end(), done.begin(), done.end());
  }
  return out;
}

}  // namespace towloom
