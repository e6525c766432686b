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
    const std::vector<Neighbour> left = std::move(row);
    steps_.push_back({p, neighbours_.size(), neighbours_.size() + left.size(), targets_.size()});
    neighbours_.insert(neighbours_.end(), left.begin(), left.end());
    for (const Neighbour& n : left) rows[static_cast<size_t>(n.point)].erase(find(n.point, p));
    for (size_t i = 0; i < left.size(); ++i)
      for (size_t j = i + 1; j < left.size(); ++j) targets_.push_back(slot(left[i].point, left[j].point));
    for (const Neighbour& n : left) queue.push({marked(n.point), rows[static_cast<size_t>(n.point)].size(), n.point});
  }
}

void Mesh::remove(size_t first, size_t end, Work& w) const {
  for (size_t s = first; s < end; ++s) {
    const Step& step = steps_[s];
    const auto p = static_cast<size_t>(step.point);
    double d = w.to_reference[p];
    for (size_t i = step.neighbours; i < step.end; ++i) d += w.siemens[static_cast<size_t>(neighbours_[i].slot)];
    const double ohm = 1 / d;
    w.ohm[p] = ohm;
    size_t target = step.targets;
    for (size_t i = step.neighbours; i < step.end; ++i) {
      const auto other = static_cast<size_t>(neighbours_[i].point);
      const double share = w.siemens[static_cast<size_t>(neighbours_[i].slot)] * ohm;
      w.to_reference[other] += share * w.to_reference[p];
      w.amps[other] += share * w.amps[p];
      for (size_t j = i + 1; j < step.end; ++j)
        w.siemens[static_cast<size_t>(targets_[target++])] += share * w.siemens[static_cast<size_t>(neighbours_[j].slot)];
    }
  }
}

void Mesh::put_back(size_t first, size_t end, const Work& w, std::vector<double>& volts) const {
  for (size_t s = end; s-- > first;) {
    const Step& step = steps_[s];
    const auto p = static_cast<size_t>(step.point);
    double in = w.amps[p];
    for (size_t i = step.neighbours; i < step.end; ++i)
      in += w.siemens[static_cast<size_t>(neighbours_[i].slot)] * volts[static_cast<size_t>(neighbours_[i].point)];
    volts[p] = in * w.ohm[p];
  }
}

void Mesh::solve(Work& w, std::vector<double>& volts) const {
  w.ohm.resize(static_cast<size_t>(points_));
  remove(0, steps_.size(), w);
  put_back(0, steps_.size(), w, volts);
}

void Mesh::remove_unmarked(Work& w) const {
  w.ohm.resize(static_cast<size_t>(points_));
  remove(0, unmarked_, w);
}

void Mesh::find_removed(const Work& w, std::vector<double>& volts) const { put_back(0, unmarked_, w, volts); }

std::vector<int> Mesh::marked() const {
  std::vector<int> out;
  for (size_t s = unmarked_; s < steps_.size(); ++s) out.push_back(steps_[s].point);
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace towloom
