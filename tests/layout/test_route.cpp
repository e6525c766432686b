#include <doctest/doctest.h>

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <set>
#include <tuple>

#include "layout/route.hpp"

using namespace towloom;

namespace {

using Path = std::vector<GridPoint>;

// Each grid point of a path in turn, worked out here and not by the router.
Path points_of(const Path& corners) {
  Path out;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    if (i == 0) {
      out.push_back(corners[0]);
      continue;
    }
    const GridPoint to = corners[i];
    while (out.back() != to) {
      GridPoint p = out.back();
      p.x += (to.x > p.x) - (to.x < p.x);
      p.y += (to.y > p.y) - (to.y < p.y);
      out.push_back(p);
    }
  }
  return out;
}

bool square(const Path& corners) {
  for (std::size_t i = 1; i < corners.size(); ++i)
    if ((corners[i].x == corners[i - 1].x) == (corners[i].y == corners[i - 1].y)) return false;
  return corners.size() >= 2;
}

int bends(const Routed& r) { return static_cast<int>(r.path.size()) - 2; }
int length(const Routed& r) { return static_cast<int>(points_of(r.path).size()) - 1; }

Routed only(const Grid& grid, const RouteRequest& request) { return route(grid, {request}).at(0); }

using Edge = std::tuple<GridPoint, GridPoint>;
Edge edge(GridPoint a, GridPoint b) { return a < b ? Edge{a, b} : Edge{b, a}; }

// Faults of a set of paths: shared stretches, and meetings that are not two straight lines
// crossing.
struct Meetings {
  int shared = 0, false_touches = 0, crossings = 0;
};
Meetings meetings(const std::vector<Routed>& routed) {
  std::map<Edge, int> edges;
  std::map<GridPoint, std::vector<int>> seen;  // 0 level, 1 upright, 2 corner or end
  for (const Routed& r : routed) {
    const Path points = points_of(r.path);
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (i > 0) ++edges[edge(points[i - 1], points[i])];
      const bool corner = std::find(r.path.begin(), r.path.end(), points[i]) != r.path.end();
      seen[points[i]].push_back(corner ? 2 : points[i].y == points[i - 1].y ? 0 : 1);
    }
  }
  Meetings out;
  for (const auto& [e, count] : edges) out.shared += count > 1;
  for (auto& [p, kinds] : seen) {
    if (kinds.size() < 2) continue;
    std::sort(kinds.begin(), kinds.end());
    (kinds == std::vector<int>{0, 1} ? out.crossings : out.false_touches) += 1;
  }
  return out;
}

// A fixed sequence of numbers (Numerical Recipes' 32-bit congruential step).
struct Numbers {
  std::uint32_t state;
  int below(int n) {
    state = state * 1664525u + 1013904223u;
    return static_cast<int>((state >> 8) % static_cast<std::uint32_t>(n));
  }
};

}  // namespace

// Lower bounds of anchors A4: 0 bends when pins face and align, 2 when they face at different
// heights, 4 when the target lies behind.
TEST_CASE("a wire alone has no more bends than its pins ask for") {
  const Grid grid{40, 30, {}, {{5, 10}, {25, 10}, {25, 16}, {1, 16}}};
  const Routed straight = only(grid, {"W1", {5, 10}, {25, 10}, Way::right, Way::left});
  CHECK(straight.path == Path{{5, 10}, {25, 10}});

  const Routed step = only(grid, {"W2", {5, 10}, {25, 16}, Way::right, Way::left});
  CHECK(bends(step) == 2);
  CHECK(length(step) == 26);
  CHECK(step.path[1].y == 10);
  CHECK(step.path[2].y == 16);

  const Routed behind = only(grid, {"W3", {5, 10}, {1, 16}, Way::right, Way::left});
  CHECK(bends(behind) == 4);
}

TEST_CASE("a wire leaves and arrives on the side it is told") {
  const Grid grid{20, 20, {}, {{4, 4}, {12, 12}}};
  const Routed r = only(grid, {"W1", {4, 4}, {12, 12}, Way::down, Way::left});
  CHECK(r.path == Path{{4, 4}, {4, 12}, {12, 12}});
  const Routed s = only(grid, {"W1", {4, 4}, {12, 12}, Way::right, Way::up});
  CHECK(s.path == Path{{4, 4}, {12, 4}, {12, 12}});
}

TEST_CASE("bodies are gone round by the shorter way") {
  const GridBox wall{9, 2, 10, 12};
  const Routed r = only({30, 30, {wall}, {}}, {"W1", {2, 10}, {20, 10}, Way::right, Way::left});
  REQUIRE(square(r.path));
  for (GridPoint p : points_of(r.path))
    CHECK_FALSE((p.x >= wall.left && p.x <= wall.right && p.y >= wall.top && p.y <= wall.bottom));
  CHECK(bends(r) == 4);
  CHECK(length(r) == 18 + 2 * 3);  // below: to y 13, one past the wall, and back
}

TEST_CASE("a wire without a way is empty, and does not stop the others") {
  Grid grid{20, 20, {}, {}};
  grid.blocked = {{8, 0, 8, 9}, {8, 11, 8, 19}, {8, 10, 8, 10}};
  const auto out = route(grid, {{"W1", {2, 5}, {15, 5}, Way::any, Way::any},
                                {"W2", {2, 3}, {2, 15}, Way::any, Way::any}});
  CHECK(out[0].id == "W1");
  CHECK(out[0].path.empty());
  CHECK_FALSE(out[1].path.empty());
}

TEST_CASE("a foreign terminal is never touched") {
  const Grid grid{20, 20, {}, {{2, 8}, {16, 8}, {9, 8}}};
  const Routed r = only(grid, {"W1", {2, 8}, {16, 8}, Way::right, Way::left});
  const Path points = points_of(r.path);
  CHECK(std::find(points.begin(), points.end(), GridPoint{9, 8}) == points.end());
  CHECK(points.back() == GridPoint{16, 8});
}

TEST_CASE("wires that must cross do so once, at right angles") {
  const Grid grid{20, 20, {}, {{2, 8}, {16, 8}, {9, 2}, {9, 15}}};
  const auto out = route(grid, {{"W1", {2, 8}, {16, 8}, Way::right, Way::left},
                                {"W2", {9, 2}, {9, 15}, Way::down, Way::up}});
  const Meetings m = meetings(out);
  CHECK(m.crossings == 1);
  CHECK(m.shared == 0);
  CHECK(m.false_touches == 0);
}

namespace {

struct Board {
  Grid grid{48, 36, {}, {}};
  std::vector<RouteRequest> requests;
};
// Ten wires from left to right in a thrown order, past five bodies.
Board thrown_board(Numbers& numbers) {
  Board out;
  for (int b = 0; b < 5; ++b) {
    const int x = 20 + numbers.below(8), y = 3 + 6 * b + numbers.below(3);
    out.grid.blocked.push_back({x, y, x + 1 + numbers.below(3), y + 2});
  }
  std::vector<int> rows{2, 5, 8, 11, 14, 17, 20, 23, 26, 29};
  for (std::size_t i = rows.size() - 1; i > 0; --i)
    std::swap(rows[i], rows[static_cast<std::size_t>(numbers.below(static_cast<int>(i) + 1))]);
  for (int w = 0; w < 10; ++w) {
    const GridPoint a{4, 2 + 3 * w}, b{44, rows[static_cast<std::size_t>(w)]};
    out.grid.terminals.push_back(a), out.grid.terminals.push_back(b);
    out.requests.push_back({"W" + std::to_string(w), a, b, Way::right, Way::left});
  }
  return out;
}

}  // namespace

// The router weighs only the two wires that it lays again; here the whole board is scored: a step 1, a bend 4, a
// crossing 6 (route.hpp).
TEST_CASE("laid again by pairs, no board costs more, and some cost less") {
  Numbers numbers{20261126};
  const auto score = [](const std::vector<Routed>& routed) {
    int out = 6 * meetings(routed).crossings;
    for (const Routed& r : routed) out += length(r) + 4 * bends(r);
    return out;
  };
  int better = 0;
  for (int n = 0; n < 60; ++n) {
    const Board board = thrown_board(numbers);
    const auto quick = route(board.grid, board.requests), refined = route(board.grid, board.requests, 5);
    CHECK(score(refined) <= score(quick));
    better += score(refined) < score(quick);
    for (std::size_t i = 0; i < refined.size(); ++i) {
      REQUIRE_FALSE(refined[i].path.empty());
      CHECK(refined[i].path.front() == board.requests[i].from);
      CHECK(refined[i].path.back() == board.requests[i].to);
    }
    CHECK(meetings(refined).shared == 0);
    CHECK(meetings(refined).false_touches == 0);
  }
  CHECK(better > 0);
  MESSAGE(better, " of 60 boards cost less");
}

TEST_CASE("random boards: right ends, no shared stretch, no false junction, the same twice") {
  Numbers numbers{20261124};
  int routed_wires = 0, empty_wires = 0;
  for (int board = 0; board < 60; ++board) {
    const auto [grid, requests] = thrown_board(numbers);
    const auto out = route(grid, requests), again = route(grid, requests);
    REQUIRE(out.size() == requests.size());
    for (std::size_t i = 0; i < out.size(); ++i) {
      CHECK(out[i].id == requests[i].id);
      CHECK(out[i].path == again[i].path);
      if (out[i].path.empty()) {
        ++empty_wires;
        continue;
      }
      ++routed_wires;
      CHECK(square(out[i].path));
      CHECK(out[i].path.front() == requests[i].from);
      CHECK(out[i].path.back() == requests[i].to);
      for (GridPoint p : points_of(out[i].path))
        for (const GridBox& b : grid.blocked)
          CHECK_FALSE((p.x >= b.left && p.x <= b.right && p.y >= b.top && p.y <= b.bottom));
    }
    const Meetings m = meetings(out);
    CHECK(m.shared == 0);
    CHECK(m.false_touches == 0);
  }
  CHECK(routed_wires == 600);
  CHECK(empty_wires == 0);
}

TEST_CASE("a wire crosses the edge of a frame, but neither runs along it nor bends on it") {
  Grid grid{20, 20, {}, {{2, 2}, {10, 18}}, {{true, {10, 4, 10, 16}}}};   // the shortest ways down lead along the edge
  const auto routed = route(grid, {{"W1", {2, 2}, {10, 18}, Way::right, Way::up}, {"W2", {4, 8}, {16, 8}, Way::right, Way::left}});
  REQUIRE(routed.size() == 2);
  for (const Routed& r : routed) {
    REQUIRE(r.path.size() >= 2);
    for (std::size_t i = 0; i + 1 < r.path.size(); ++i) {
      const GridPoint a = r.path[i], b = r.path[i + 1];
      const bool along = a.x == 10 && b.x == 10 && std::min(a.y, b.y) < 16 && std::max(a.y, b.y) > 4;
      CHECK_FALSE(along);
      CHECK_FALSE((i > 0 && a.x == 10 && a.y >= 4 && a.y <= 16));
    }
  }
  CHECK(routed[1].path == std::vector<GridPoint>{{4, 8}, {16, 8}});   // straight across
}
