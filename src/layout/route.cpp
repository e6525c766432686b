#include "layout/route.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <deque>
#include <tuple>

#include "layout/field.hpp"

namespace towloom {
namespace {

constexpr int polish_passes = 2;
constexpr std::size_t most_driven = 2;   // times the number of wires
constexpr int most_returns = 5;          // of one wire: those that drive out each other by turns find no peace later either

// Two wires that cross, laid anew the other first. Only what these two cost can change. Whether it got better.
bool lay_again(Field& field, const std::vector<RouteRequest>& requests, std::vector<Routed>& out, std::size_t i, std::size_t j) {
  const std::vector<GridPoint> was_i = out[i].path, was_j = out[j].path;
  const int wire_i = static_cast<int>(i), wire_j = static_cast<int>(j);
  field.leave(was_i, wire_i);
  field.leave(was_j, wire_j);
  int before = field.cost(was_j);
  field.take(was_j, wire_j);
  before += field.cost(was_i);
  field.leave(was_j, wire_j);
  std::vector<GridPoint> now_j = field.find(requests[j], Rule::keep);
  field.take(now_j, wire_j);
  std::vector<GridPoint> now_i = field.find(requests[i], Rule::keep);
  bool better = !now_i.empty() && !now_j.empty();
  if (better) {
    int after = field.cost(now_i);
    field.leave(now_j, wire_j);
    after += field.cost(now_j);
    field.take(now_j, wire_j);
    better = after < before;
  }
  if (better) {
    out[i].path = std::move(now_i);
    out[j].path = std::move(now_j);
  } else {
    field.leave(now_j, wire_j);
    field.take(was_j, wire_j);
  }
  field.take(out[i].path, wire_i);
  return better;
}

}  // namespace

std::vector<Routed> route(const Grid& grid, const std::vector<RouteRequest>& requests, int effort) {
  std::vector<std::size_t> order(requests.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  const auto rank = [&](std::size_t i) {
    const RouteRequest& r = requests[i];
    const int dx = std::abs(r.from.x - r.to.x), dy = std::abs(r.from.y - r.to.y);
    return std::tuple(dx != 0 && dy != 0, dx + dy, i);
  };
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  std::vector<Routed> out(requests.size());
  for (std::size_t i = 0; i < out.size(); ++i) out[i].id = requests[i].id;
  Field field(grid);
  // What finds no way drives others out, which then look for another.
  std::deque<std::size_t> waiting(order.begin(), order.end());
  std::size_t driven = 0;
  // When each was last looked at, and what it then cost: unless one has moved since, or lies across it now, no way is cheaper.
  unsigned moves = 0;
  struct Look { unsigned moves = 0; int cost = 0; };
  std::vector<Look> looked(requests.size());
  std::vector<int> returns(requests.size(), 0);
  bool hopeless = false;         // one found no place for good: the rest shows what else is in the way
  while (!waiting.empty()) {
    const std::size_t i = waiting.front();
    waiting.pop_front();
    const int wire = static_cast<int>(i);
    const auto [plain, surely] = field.find_plain(requests[i]);
    out[i].path = plain.empty() ? field.find(requests[i], Rule::keep) : plain;   // a better one is looked for once all lie
    if (out[i].path.empty()) hopeless = hopeless || driven >= most_driven * requests.size() || returns[i]++ >= most_returns;
    if (out[i].path.empty() && !hopeless) {
      out[i].path = field.find(requests[i], Rule::drive_out);
      for (int other : field.driven_out(out[i].path)) {
        field.leave(out[static_cast<std::size_t>(other)].path, other);
        out[static_cast<std::size_t>(other)].path.clear();
        waiting.push_back(static_cast<std::size_t>(other));
        ++driven;
        ++moves;
      }
    }
    looked[i] = {moves, plain.empty() || surely ? field.cost(out[i].path) : 0};
    field.take(out[i].path, wire);
  }
  // Once all lie, each looks again for a better way past the others.
  for (int pass = 0; pass < polish_passes; ++pass)
    for (std::size_t i : order) {
      if (out[i].path.empty()) continue;
      field.leave(out[i].path, static_cast<int>(i));
      const int cost = field.cost(out[i].path);
      if (looked[i].moves != moves || cost > looked[i].cost) {
        if (auto path = field.find(requests[i], Rule::keep, cost); !path.empty()) {
          out[i].path = std::move(path);
          ++moves;
        }
        looked[i] = {moves, field.cost(out[i].path)};
      }
      field.take(out[i].path, static_cast<int>(i));
    }
  bool better = effort > 0;
  for (int pass = 0; pass < effort && better; ++pass) {
    better = false;
    for (std::size_t i : order)
      for (int j : field.crossed(out[i].path))
        if (j != static_cast<int>(i)) better = lay_again(field, requests, out, i, static_cast<std::size_t>(j)) || better;
  }
  return out;
}

}  // namespace towloom
