#include "solve/mesh.hpp"

#include <algorithm>
#include <cstddef>
#include <functional>
#include <queue>
#include <tuple>

namespace towloom {
using std::size_t;

namespace {

// Found by trial: fewer leave more points to Newton, more make each of its steps dense (a joint of n lamps: n^3).
constexpr size_t most_neighbours = 6;

}  // namespace

Mesh::Mesh(int points, const std::vector<std::pair<int, int>>& pairs, std::vector<char> last) : points_(points) {
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
  using Entry = std::tuple<bool, size_t, int>;   // marked, neighbours, point
  const auto marked = [&](int p) { return !last.empty() && last[static_cast<size_t>(p)] != 0; };
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue;
  for (int p = 0; p < points; ++p) queue.push({marked(p), rows[static_cast<size_t>(p)].size(), p});
  std::vector<char> removed(static_cast<size_t>(points), 0);
  while (!queue.empty()) {
    const auto [late, count, p] = queue.top();
    queue.pop();
    auto& row = rows[static_cast<size_t>(p)];
    if (removed[static_cast<size_t>(p)] != 0 || count != row.size() || late != marked(p)) continue;
    if (!late && !last.empty() && count > most_neighbours) {
      last[static_cast<size_t>(p)] = 1;
      queue.push({true, count, p});
      continue;
    }
    if (late && unmarked_ == steps_.size() && left_.empty())
      for (int q = 0; q < points; ++q)
        for (const Neighbour& n : rows[static_cast<size_t>(q)])
          if (removed[static_cast<size_t>(q)] == 0 && q < n.point) left_.push_back({q, n.point, n.slot});
    if (!late) ++unmarked_;
    removed[static_cast<size_t>(p)] = 1;
    Step step{p, std::move(row), {}};
    for (const Neighbour& n : step.neighbours) rows[static_cast<size_t>(n.point)].erase(find(n.point, p));
    for (size_t i = 0; i < step.neighbours.size(); ++i)
      for (size_t j = i + 1; j < step.neighbours.size(); ++j)
        step.targets.push_back(slot(step.neighbours[i].point, step.neighbours[j].point));
    for (const Neighbour& n : step.neighbours) queue.push({marked(n.point), rows[static_cast<size_t>(n.point)].size(), n.point});
    steps_.push_back(std::move(step));
  }
}

Mesh::Removed Mesh::start(const std::vector<double>& siemens, std::vector<double> to_reference, std::vector<double> amps) const {
  Removed out{std::vector<double>(static_cast<size_t>(slots_), 0.0), std::move(to_reference), std::move(amps),
              std::vector<double>(static_cast<size_t>(points_), 0.0)};
  for (size_t i = 0; i < slot_of_pair_.size(); ++i)
    if (slot_of_pair_[i] >= 0) out.siemens[static_cast<size_t>(slot_of_pair_[i])] += siemens[i];
  return out;
}

void Mesh::remove(size_t first, size_t end, Removed& r) const {
  for (size_t s = first; s < end; ++s) {
    const Step& step = steps_[s];
    const auto p = static_cast<size_t>(step.point);
    double d = r.to_reference[p];
    for (const Neighbour& n : step.neighbours) d += r.siemens[static_cast<size_t>(n.slot)];
    r.sum[p] = d;
    size_t target = 0;
    for (size_t i = 0; i < step.neighbours.size(); ++i) {
      const auto other = static_cast<size_t>(step.neighbours[i].point);
      const double share = r.siemens[static_cast<size_t>(step.neighbours[i].slot)] / d;
      r.to_reference[other] += share * r.to_reference[p];
      r.amps[other] += share * r.amps[p];
      for (size_t j = i + 1; j < step.neighbours.size(); ++j)
        r.siemens[static_cast<size_t>(step.targets[target++])] += share * r.siemens[static_cast<size_t>(step.neighbours[j].slot)];
    }
  }
}

void Mesh::put_back(size_t first, size_t end, const Removed& r, std::vector<double>& volts) const {
  for (size_t s = end; s-- > first;) {
    const Step& step = steps_[s];
    const auto p = static_cast<size_t>(step.point);
    double in = r.amps[p];
    for (const Neighbour& n : step.neighbours)
      in += r.siemens[static_cast<size_t>(n.slot)] * volts[static_cast<size_t>(n.point)];
    volts[p] = in / r.sum[p];
  }
}

std::vector<double> Mesh::solve(const std::vector<double>& siemens, std::vector<double> to_reference,
                                std::vector<double> amps) const {
  Removed r = start(siemens, std::move(to_reference), std::move(amps));
  remove(0, steps_.size(), r);
  std::vector<double> volts(static_cast<size_t>(points_), 0.0);
  put_back(0, steps_.size(), r, volts);
  return volts;
}

Mesh::Removed Mesh::remove_unmarked(const std::vector<double>& siemens, std::vector<double> to_reference, std::vector<double> amps) const {
  Removed r = start(siemens, std::move(to_reference), std::move(amps));
  remove(0, unmarked_, r);
  return r;
}

std::vector<int> Mesh::marked() const {
  std::vector<int> out;
  for (size_t s = unmarked_; s < steps_.size(); ++s) out.push_back(steps_[s].point);
  std::sort(out.begin(), out.end());
  return out;
}

void Mesh::find_removed(const Removed& r, std::vector<double>& volts) const { put_back(0, unmarked_, r, volts); }

}  // namespace towloom
