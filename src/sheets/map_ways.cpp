// Markers on the car, and the ways between them: the cheapest way over a grid, one after the other.
#include <algorithm>
#include <array>
#include <queue>

#include "sheets/map_geometry.hpp"

namespace towloom::map {
namespace {

Mm100 snapped(double v, Mm100 origin) { return origin + static_cast<Mm100>((v - origin) / grid + 0.5) * grid; }
Rect marker_at(Point p) { return {p.x - marker_half, p.y - marker_half, 2 * marker_half, 2 * marker_half}; }

constexpr int dx[] = {1, 0, -1, 0}, dy[] = {0, 1, 0, -1};
// What a way costs, in steps of the grid: bends, crossings, what lies on or close to another line.
constexpr int step_cost = 4, bend_cost = 24, cross_cost = 60, near_cost = 16, upon_cost = 2000, marker_cost = 4000, inner_cost = 1, off_middle_cost = 8, never = 1 << 30;

struct Grid {
  Rect body;
  int columns = 0, rows = 0;
  std::vector<int> standing = {};                      // by cell: what it costs to come there
  std::vector<std::array<bool, 2>> taken_edges = {};   // by cell: a line to its right, one downwards
  std::vector<int> passed = {};                        // by cell: bit 1 by a line along x, bit 2 along y

  Grid(Rect of_body, const std::vector<Rect>& markers) : body(of_body), columns(body.w / grid + 1), rows(body.h / grid + 1) {
    const std::size_t cells = static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows);
    taken_edges.resize(cells);
    passed.resize(cells);
    for (std::size_t c = 0; c < cells; ++c) {
      const int cell = static_cast<int>(c);
      const bool inner = std::abs(cell / columns - rows / 2) < rows / 4;   // looms follow the sides
      const bool marked = std::any_of(markers.begin(), markers.end(), [&](const Rect& m) { return grown(m, mm(1)).contains(point(cell)); });
      standing.push_back((marked ? marker_cost : 0) + (inner ? inner_cost : 0));
    }
  }
  int cell(int x, int y) const { return y * columns + x; }
  Point point(int c) const { return {body.x + grid * (c % columns), body.y + grid * (c / columns)}; }
  bool inside(int x, int y) const { return x > 0 && y > 0 && x < columns - 1 && y < rows - 1; }
  bool taken(int first, int axis) const {
    return first >= 0 && first < columns * rows && taken_edges[static_cast<std::size_t>(first)][static_cast<std::size_t>(axis)];
  }
  int edge_cost(int from, int to, int direction) const {
    const int first = std::min(from, to), axis = direction % 2;
    int out = step_cost + standing[static_cast<std::size_t>(to)] + (taken(first, axis) ? upon_cost : 0);
    const int aside = axis == 0 ? columns : 1;   // the cell beside, across the way
    for (const int side : {-aside, aside}) out += taken(first + side, axis) ? near_cost : 0;
    const int met = passed[static_cast<std::size_t>(to)];
    return out + (met == 0 ? 0 : met == (axis == 0 ? 2 : 1) ? cross_cost : upon_cost / 4);
  }
  void take(const std::vector<int>& cells) {
    for (std::size_t i = 1; i < cells.size(); ++i) {
      const int axis = std::abs(cells[i] - cells[i - 1]) == 1 ? 0 : 1;
      taken_edges[static_cast<std::size_t>(std::min(cells[i], cells[i - 1]))][static_cast<std::size_t>(axis)] = true;
      for (const int c : {cells[i], cells[i - 1]}) passed[static_cast<std::size_t>(c)] |= axis + 1;
    }
    if (cells.size() == 1) passed[static_cast<std::size_t>(cells[0])] = 3;
  }
};

// Where a line may leave a marker: three places a side, just outside its frame.
struct Port {
  int cell = 0, out = 0;         // direction away from the marker
  bool middle = false;
};
std::vector<Port> ports(const Grid& g, Rect marker) {
  const int x = static_cast<int>((marker.x + marker_half - g.body.x) / grid), y = static_cast<int>((marker.y + marker_half - g.body.y) / grid);
  std::vector<Port> out;
  for (int d = 0; d < 4; ++d)
    for (const int k : {0, -1, 1}) {
      const int px = x + 2 * dx[d] + (dx[d] == 0 ? k : 0), py = y + 2 * dy[d] + (dy[d] == 0 ? k : 0);
      if (g.inside(px, py)) out.push_back({g.cell(px, py), d, k == 0});
    }
  return out;
}

struct Found {
  std::vector<int> cells;
  int out = 0, in = 0;           // directions at its ends
};

Found cheapest(const Grid& g, Rect from, Rect to) {
  // A state is a cell and the direction in which it was entered; the last one lies beyond the goals.
  const int cells = g.columns * g.rows, end = 4 * cells;
  std::vector<int> cost(static_cast<std::size_t>(end) + 1, never), before(static_cast<std::size_t>(end) + 1, -1);
  std::vector<int> goal(static_cast<std::size_t>(end), -1);   // what the place on the marker adds
  std::priority_queue<std::pair<int, int>, std::vector<std::pair<int, int>>, std::greater<>> open;
  const auto reach = [&](int there, int here, int all) {
    if (cost[static_cast<std::size_t>(there)] <= all) return;
    cost[static_cast<std::size_t>(there)] = all;
    before[static_cast<std::size_t>(there)] = here;
    open.emplace(all, there);
  };
  const auto port_cost = [&](const Port& p) { return (g.passed[static_cast<std::size_t>(p.cell)] != 0 ? upon_cost : 0) + (p.middle ? 0 : off_middle_cost); };
  for (const Port& p : ports(g, to)) goal[static_cast<std::size_t>(4 * p.cell + (p.out + 2) % 4)] = port_cost(p);
  for (const Port& p : ports(g, from)) reach(4 * p.cell + p.out, -1, port_cost(p));
  while (!open.empty()) {
    const auto [so_far, here] = open.top();
    open.pop();
    if (so_far > cost[static_cast<std::size_t>(here)]) continue;
    if (here == end) break;
    if (const int more = goal[static_cast<std::size_t>(here)]; more >= 0) reach(end, here, so_far + more);
    const int cell = here / 4, direction = here % 4;
    for (int d = 0; d < 4; ++d) {
      const int x = cell % g.columns + dx[d], y = cell / g.columns + dy[d];
      if (d == (direction + 2) % 4 || !g.inside(x, y)) continue;
      const int next = g.cell(x, y);
      reach(4 * next + d, here, so_far + g.edge_cost(cell, next, d) + (d != direction ? bend_cost : 0));
    }
  }
  Found out;
  int at = before[static_cast<std::size_t>(end)];
  if (at < 0) return out;
  out.in = at % 4;
  for (; at >= 0; at = before[static_cast<std::size_t>(at)]) {
    out.cells.push_back(at / 4);
    out.out = at % 4;
  }
  std::reverse(out.cells.begin(), out.cells.end());
  return out;
}

Polyline line_of(const Grid& g, const Found& found, Rect from, Rect to) {
  Polyline out;
  const auto edge = [&](int cell, int direction, Rect marker) {   // on the marker's frame
    Point p = g.point(cell);
    if (dx[direction] > 0) p.x = marker.right();
    if (dx[direction] < 0) p.x = marker.x;
    if (dy[direction] > 0) p.y = marker.bottom();
    if (dy[direction] < 0) p.y = marker.y;
    return p;
  };
  Polyline all{edge(found.cells.front(), found.out, from)};
  for (const int cell : found.cells) all.push_back(g.point(cell));
  all.push_back(edge(found.cells.back(), (found.in + 2) % 4, to));
  out.push_back(all.front());
  for (std::size_t i = 1; i + 1 < all.size(); ++i)
    if ((all[i - 1].x == all[i].x) != (all[i].x == all[i + 1].x)) out.push_back(all[i]);
  out.push_back(all.back());
  return out;
}

}  // namespace

std::vector<Rect> stand_markers(const Plan& plan, Rect body) {
  std::vector<Rect> out;
  const Mm100 edge = mm(6), apart = 2 * grid;
  for (const Spot& spot : plan.spots) {
    const double x = body.x + mm(7) + spot.at.along * (body.w - mm(14)), y = body.y + body.h / 2 + spot.at.across * body.h / 2;
    const Point wish{snapped(x, body.x), snapped(y, body.y)};
    std::optional<std::pair<int, Rect>> best;
    for (Mm100 px = snapped(body.x + edge, body.x); px <= body.right() - edge; px += grid)
      for (Mm100 py = snapped(body.y + edge, body.y); py <= body.bottom() - edge; py += grid) {
        const int i = (px - wish.x) / grid, j = (py - wish.y) / grid;
        const int cost = 3 * i * i + 4 * j * j + (spot.at.across == 0 && j != 0 ? 40 : 0);   // what stands in the middle stays there
        const Rect mine = marker_at({px, py});
        if ((best && best->first <= cost) || std::any_of(out.begin(), out.end(), [&](const Rect& r) { return grown(r, apart).overlaps(mine); })) continue;
        best = {cost, mine};
      }
    out.push_back(best ? best->second : marker_at(wish));
  }
  return out;
}

std::vector<Polyline> lay_ways(const Plan& plan, const std::vector<Rect>& markers, Rect body) {
  Grid g(body, markers);
  std::vector<Polyline> out(plan.ways.size());
  std::vector<std::size_t> order(plan.ways.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto marker = [&](int s) { return markers[static_cast<std::size_t>(s)]; };
  const auto far = [&](std::size_t w) {
    const Rect a = marker(plan.ways[w].from), b = marker(plan.ways[w].to);
    return std::abs(a.x - b.x) + std::abs(a.y - b.y);
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return far(a) < far(b); });   // short ones have less choice
  for (const std::size_t w : order) {
    const Rect from = marker(plan.ways[w].from), to = marker(plan.ways[w].to);
    const Found found = cheapest(g, from, to);
    if (found.cells.empty()) continue;
    out[w] = line_of(g, found, from, to);
    g.take(found.cells);
  }
  return out;
}

}  // namespace towloom::map
