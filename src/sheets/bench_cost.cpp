// What one drawing of a page is judged by against another of the same page.
#include <algorithm>
#include <cstdlib>

#include "sheets/bench_page.hpp"

namespace towloom {
namespace {

// What a try is judged by. A crossing costs as much as 6 modules of wire, a bend 4 (as in the router), also one that the
// places of the parts ask for: another try may place them in one row. A label that lacks its length costs more than a
// crossing.
constexpr int crossing_cost = 6, bend_cost = 4, step_cost = 1;
// A ground symbol stands beside its part: each module farther off, each bend after the first.
constexpr int far_cost = 12, near_ground = 10, jog_cost = 36;

int crossings(const Circuit& circuit, const std::vector<Routed>& routed) {
  struct Stretch { int low, high, at, net; };
  std::vector<Stretch> level, upright;
  for (std::size_t w = 0; w < routed.size(); ++w)
    for (std::size_t i = 0; i + 1 < routed[w].path.size(); ++i) {
      const GridPoint a = routed[w].path[i], b = routed[w].path[i + 1];
      const int net = circuit.net(circuit.wires[w].from).v;
      if (a.y == b.y) level.push_back({std::min(a.x, b.x), std::max(a.x, b.x), a.y, net});
      else upright.push_back({std::min(a.y, b.y), std::max(a.y, b.y), a.x, net});
    }
  int out = 0;
  for (const Stretch& l : level)
    for (const Stretch& u : upright) out += l.net != u.net && u.at > l.low && u.at < l.high && l.at > u.low && l.at < u.high;
  return out;
}

}  // namespace

int cost_of(const Circuit& circuit, const Placement& place, const std::vector<Routed>& routed, const std::vector<LabelFault>& faults) {
  int out = crossing_cost * crossings(circuit, routed);
  for (std::size_t w = 0; w < routed.size(); ++w) {
    const auto& path = routed[w].path;
    const PinSpot &from = place.ends.at({static_cast<int>(w), true}), &to = place.ends.at({static_cast<int>(w), false});
    out += bend_cost * (static_cast<int>(path.size()) - 2);
    int length = 0;
    for (std::size_t i = 0; i + 1 < path.size(); ++i) length += std::abs(path[i].x - path[i + 1].x) + std::abs(path[i].y - path[i + 1].y);
    const bool grounded = circuit.part(circuit.wires[w].from.part).kind == "stud" || circuit.part(circuit.wires[w].to.part).kind == "stud";
    if (grounded) out += far_cost * std::max(0, length - near_ground) + jog_cost * std::max(0, static_cast<int>(path.size()) - 3);
    out += step_cost * (length - std::abs(from.at.x - to.at.x) - std::abs(from.at.y - to.at.y));
  }
  for (const LabelFault& f : faults) out += label_cost * f.weight;
  return out;
}

}  // namespace towloom
