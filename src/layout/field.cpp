#include "layout/field.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <functional>

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

struct Guess {
  int cost = 0, bends = 0;
};

// What is open: least guess of the whole cost first, then most bends to come, so that wires bend late; then least cell and
// way. One heap for each cost.
class Open {
 public:
  Open(std::vector<std::vector<std::uint32_t>>& heaps, int least) : heaps_(heaps), first_(least) {
    for (auto& heap : heaps_) heap.clear();
  }
  void push(Guess guess, std::size_t key) {
    const std::size_t at = static_cast<std::size_t>(guess.cost - first_);
    if (heaps_.size() <= at) heaps_.resize(at + 1);
    heaps_[at].push_back(static_cast<std::uint32_t>(most_bends - guess.bends) << 28 | static_cast<std::uint32_t>(key));
    std::push_heap(heaps_[at].begin(), heaps_[at].end(), std::greater<>());
    now_ = std::min(now_, at);
  }
  bool empty() {
    while (now_ < heaps_.size() && heaps_[now_].empty()) ++now_;
    return now_ == heaps_.size();
  }
  std::size_t pop() {
    auto& heap = heaps_[now_];
    std::pop_heap(heap.begin(), heap.end(), std::greater<>());
    const std::size_t out = heap.back() & 0xFFFFFFF;
    heap.pop_back();
    return out;
  }

 private:
  std::vector<std::vector<std::uint32_t>>& heaps_;
  int first_;                    // no guess is less
  std::size_t now_ = 0;
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

std::vector<GridPoint> Field::find(const RouteRequest& request, Rule rule, int bound) {
  Priced plain{{}, bound, false};
  if (rule == Rule::keep) {
    Priced best = price_plain(request);
    if (best.surely && best.cost >= bound) return {};
    if (best.cost < bound) plain = std::move(best);
    if (plain.surely) return plain.corners;
  }
  const std::size_t count = cells_.size() * 4;
  reached_.resize(count);
  search_ += 2;
  const auto reach = [&](std::size_t k, int cost, int before) {   // whether this is the best way to `k` so far
    Reached& r = reached_[k];
    if (r.search >= search_ && r.cost <= cost) return false;
    r = {cost, before, search_};
    return true;
  };
  const auto key = [&](GridPoint p, int way) { return static_cast<std::size_t>(p.y * width_ + p.x) * 4 + static_cast<std::size_t>(way); };
  const int last = request.arrive == Way::any ? static_cast<int>(Way::any) : (static_cast<int>(request.arrive) + 2) % 4;
  const auto sign = [](int v) { return (v > 0) - (v < 0); };
  int fewest[4][3][3];   // by way, and where the end lies from there
  for (int way = 0; way < 4; ++way)
    for (int x = -1; x <= 1; ++x)
      for (int y = -1; y <= 1; ++y) fewest[way][x + 1][y + 1] = fewest_bends(way, last, {x, y});
  const auto whole = [&](int so_far, GridPoint p, int way) {   // never more than it will be
    const GridPoint d{request.to.x - p.x, request.to.y - p.y};
    const int bends = fewest[way][sign(d.x) + 1][sign(d.y) + 1];
    return Guess{so_far + std::abs(d.x) + std::abs(d.y) + bend_cost * bends, bends};
  };
  Open open(open_, std::abs(request.to.x - request.from.x) + std::abs(request.to.y - request.from.y));
  for (int way = 0; way < 4; ++way) {
    if (request.leave != Way::any && static_cast<int>(request.leave) != way) continue;
    reach(key(request.from, way), 0, -1);
    open.push(whole(0, request.from, way), key(request.from, way));
  }
  std::size_t found = count;
  while (!open.empty()) {
    const std::size_t here = open.pop();
    if (reached_[here].search != search_) continue;   // done with already, by a better way
    ++reached_[here].search;
    const int way = static_cast<int>(here % 4), index = static_cast<int>(here / 4);
    const GridPoint at{index % width_, index / width_};
    const int so_far = reached_[here].cost;
    if (at == request.to && at != request.from) {
      found = here;
      break;
    }
    const GridPoint next{at.x + steps[static_cast<std::size_t>(way)].x, at.y + steps[static_cast<std::size_t>(way)].y};
    if (!inside(next)) continue;
    const bool target = next == request.to;
    const Cell& c = cell(next);
    const bool level = way % 2 == 0;
    if (target && request.arrive != Way::any && (way + 2) % 4 != static_cast<int>(request.arrive)) continue;
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
      if (const Guess guess = whole(total, next, turn); guess.cost < plain.cost && reach(k, total, static_cast<int>(here))) open.push(guess, k);
    }
  }
  if (found == count) return plain.corners;
  std::vector<GridPoint> cells;
  for (int k = static_cast<int>(found); k >= 0; k = reached_[static_cast<std::size_t>(k)].from)
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
