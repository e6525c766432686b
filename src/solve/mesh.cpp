#include "solve/mesh.hpp"

#include <map>
#include <cstddef>
#include <set>

namespace towloom {
using std::size_t;

Mesh::Mesh(int points, const std::vector<std::pair<int, int>>& pairs) : points_(points) {
  std::vector<std::map<int, int>> slots(static_cast<size_t>(points));
  const auto slot = [&](int a, int b) {
    const auto [at, fresh] = slots[static_cast<size_t>(a)].try_emplace(b, slots_);
    if (fresh) {
      slots[static_cast<size_t>(b)][a] = slots_;
      ++slots_;
    }
    return at->second;
  };
  for (const auto& [a, b] : pairs) slot_of_pair_.push_back(a == b ? -1 : slot(a, b));
  // Fewest neighbours first: a tree of wires then makes no new conductance at all.
  std::set<std::pair<size_t, int>> queue;
  for (int p = 0; p < points; ++p) queue.insert({slots[static_cast<size_t>(p)].size(), p});
  while (!queue.empty()) {
    const int p = queue.begin()->second;
    queue.erase(queue.begin());
    Step step{p, {}, {}};
    for (const auto& [other, s] : slots[static_cast<size_t>(p)]) {
      step.neighbours.push_back({other, s});
      queue.erase({slots[static_cast<size_t>(other)].size(), other});
      slots[static_cast<size_t>(other)].erase(p);
    }
    for (size_t i = 0; i < step.neighbours.size(); ++i)
      for (size_t j = i + 1; j < step.neighbours.size(); ++j)
        step.targets.push_back(slot(step.neighbours[i].point, step.neighbours[j].point));
    for (const Neighbour& n : step.neighbours) queue.insert({slots[static_cast<size_t>(n.point)].size(), n.point});
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
