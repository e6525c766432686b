// Ways with two bends at most: most wires have one, and it needs no search.
#include <algorithm>
#include <array>
#include <cstdlib>
#include <limits>

#include "layout/field.hpp"

namespace towloom {
namespace {

constexpr int no_way = std::numeric_limits<int>::max() / 4;
constexpr int farthest_turn = 4;   // modules that a way may go too far to come back: more costs as much as two bends more

}  // namespace

// From `a` (not counted) to `b`: what its crossings cost. At `b` it turns, unless that is the target.
int Field::stretch_cost(GridPoint a, GridPoint b, bool turns) const {
  const bool level = a.y == b.y;
  const GridPoint step{(b.x > a.x) - (b.x < a.x), (b.y > a.y) - (b.y < a.y)};
  int out = 0;
  for (GridPoint p = a; p != b;) {
    p = {p.x + step.x, p.y + step.y};
    if (p == b && !turns) break;
    if (!inside(p)) return no_way;
    const Cell& c = cell(p);
    if (c.blocked || c.corner >= 0 || (level ? c.fence_level || c.level >= 0 : c.fence_upright || c.upright >= 0)) return no_way;
    const bool crosses = (level ? c.upright : c.level) >= 0;
    if (p == b && (crosses || c.fence_level || c.fence_upright)) return no_way;
    out += crosses ? crossing_cost : 0;
  }
  return out;
}

Field::Priced Field::price_plain(const RouteRequest& r) const {
  Priced best{{}, no_way, false};
  const auto consider = [&](std::vector<GridPoint> corners) {
    int cost = bend_cost * (static_cast<int>(corners.size()) - 2);
    for (std::size_t i = 0; i + 1 < corners.size() && cost < best.cost; ++i) {
      const GridPoint a = corners[i], b = corners[i + 1];
      cost += std::abs(a.x - b.x) + std::abs(a.y - b.y) + stretch_cost(a, b, i + 2 < corners.size());
    }
    if (cost < best.cost) best = {std::move(corners), cost, false};
  };
  const bool fixed = r.leave != Way::any && r.arrive != Way::any;
  const int d = std::abs(r.from.x - r.to.x) + std::abs(r.from.y - r.to.y);
  int others = 3 * bend_cost;    // what any other way costs at least beyond the steps
  for (int first = 0; first < 4; ++first)
    for (int last = 0; last < 4; ++last) {   // ways of the first and of the last step
      if ((r.leave != Way::any && static_cast<int>(r.leave) != first) || (r.arrive != Way::any && (static_cast<int>(r.arrive) + 2) % 4 != last)) continue;
      const bool level = first % 2 == 0;
      // Along the first step, and across it.
      const int sign = first < 2 ? 1 : -1;
      const int ahead = sign * (level ? r.to.x - r.from.x : r.to.y - r.from.y), aside = level ? r.to.y - r.from.y : r.to.x - r.from.x;
      const auto spot = [&](int along, bool at_target) {
        const int a = (level ? r.from.x : r.from.y) + sign * along, b = at_target ? (level ? r.to.y : r.to.x) : (level ? r.from.y : r.from.x);
        return level ? GridPoint{a, b} : GridPoint{b, a};
      };
      if (first == last && aside == 0) {
        if (fixed) others = 4 * bend_cost + 2;
        if (ahead > 0) consider({r.from, r.to});
      } else if ((first + last) % 2 == 1) {
        const bool towards = aside != 0 && (aside > 0) == (last < 2);
        if (ahead > 0 && towards) consider({r.from, spot(ahead, false), r.to});
      } else {
        if (fixed) others = 4 * bend_cost;
        const bool back = first != last;
        const int low = back ? std::max(ahead, 0) + 1 : 1, high = back ? low + farthest_turn : ahead - 1;
        if (aside == 0) continue;
        for (int i = high; i >= low; --i) consider({r.from, spot(i, false), spot(i, true), r.to});   // wires bend late
      }
    }
  best.surely = best.cost < d + others;
  return best;
}

Field::Plain Field::find_plain(const RouteRequest& r) const {
  Priced best = price_plain(r);
  return {std::move(best.corners), best.surely};
}

}  // namespace towloom
