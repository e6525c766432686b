#include "solve/mesh.hpp"

#include <algorithm>
#include <cstddef>
#include <functional>
#include <queue>

namespace towloom {
using std::size_t;

Mesh::Mesh(int points, const std::vector<std::pair<int, int>>& pairs) : points_(points) {
  // Neighbours of each point with their slots, by rising number.
  std::vector<std::vector<Neighbour>> rows(static_cast<size_t>(points));
  const auto find = [&](int point, int other) {
    auto& row = rows[static_cast<size_t>(point)];
    return std::lower_bound(row.begin(), row.end(), other, [](const Neighbour& n, int wanted) { return n.point < wanted; });
  };
  const auto slot = [&](int a, int b) {
    const auto at = find(a, b);
    if (at != rows[static_cast<size_t>(a)].end() && at->point == b) return at->slot;
    rows[static_cast<size_t>(a)].insert(at, {b, slots_});
    rows[static_cast<size_t>(b)].insert(find(b, a), {a, slots_});
    return slots_++;
  };
  for (const auto& [a, b] : pairs) slot_of_pair_.push_back(a == b ? -1 : slot(a, b));
  // Fewest neighbours first: a tree of wires then makes no new conductance at all. An entry whose count is no longer
  // true is passed over; the true one stands behind it.
  using Entry = std::pair<size_t, int>;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
  for (int p = 0; p < points; ++p) queue.push({rows[static_cast<size_t>(p)].size(), p});
  std::vector<char> removed(static_cast<size_t>(points), 0);
  while (!queue.empty()) {
    const auto [count, p] = queue.top();
    queue.pop();
    auto& row = rows[static_cast<size_t>(p)];
    if (removed[static_cast<size_t>(p)] != 0 || count != row.size()) continue;
    removed[static_cast<size_t>(p)] = 1;
    Step step{p, std::move(row), {}};
    for (const Neighbour& n : step.neighbours) rows[static_cast<size_t>(n.point)].erase(find(n.point, p));
    for (size_t i = 0; i < step.neighbours.size(); ++i)
      for (size_t j = i + 1; j < step.neighbours.size(); ++j)
        step.targets.push_back(slot(step.neighbours[i].point, step.neighbours[j].point));
    for (const Neighbour& n : step.neighbours) queue.push({rows[static_cast<size_t>(n.point)].size(), n.point});
    steps_.push_back(std::move(step));
  }
}

std::vector<double> Mesh::solve(const std::vector<double>& siemens, std::vector<double> to_reference,
                                std::vector<double> amps) const {
  std::vector<double> g(static_cast<size_t>(slots_), 0.0), sum(static_cast<size_t>(points_), 0.0);
  for (size_t i = 0; i < slot_of_pair_.size(); ++i)
    if (slot_of_pair_[i] >= 0) g[static_cast<size_t>(slot_of_pair_[i])] += siemens[i];
  for (const Step& step : steps_) {
    const auto p = static_cast<size_t>(step.point);
    double d = to_reference[p];
    for (const Neighbour& n : step.neighbours) d += g[static_cast<size_t>(n.slot)];
    sum[p] = d;
    size_t target = 0;
    for (size_t i = 0; i < step.neighbours.size(); ++i) {
      const auto other = static_cast<size_t>(step.neighbours[i].point);
      const double share = g[static_cast<size_t>(step.neighbours[i].slot)] / d;
      to_reference[other] += share * to_reference[p];
      amps[other] += share * amps[p];
      for (size_t j = i + 1; j < step.neighbours.size(); ++j)
        g[static_cast<size_t>(step.targets[target++])] += share * g[static_cast<size_t>(step.neighbours[j].slot)];
    }
  }
  std::vector<double> volts(static_cast<size_t>(points_), 0.0);
  for (auto step = steps_.rbegin(); step != steps_.rend(); ++step) {
    const auto p = static_cast<size_t>(step->point);
    double in = amps[p];
    for (const Neighbour& n : step->neighbours)
      in += g[static_cast<size_t>(n.slot)] * volts[static_cast<size_t>(n.point)];
    volts[p] = in / sum[p];
  }
  return volts;
}

}  // namespace towloom
