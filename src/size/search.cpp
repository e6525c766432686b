#include "size/search.hpp"

#include <functional>
#include <queue>
#include <set>

namespace towloom {

const WireSize& size_at(const Search& search, size_t group, const Assignment& a) {
  const SizeGroup& g = search.sizing.groups[group];
  return search.series.sizes[static_cast<size_t>(g.choices[static_cast<size_t>(a[group])])];
}

Circuit with_sizes(const Search& search, const Assignment& a) {
  Circuit out = search.circuit;
  for (size_t g = 0; g < search.sizing.groups.size(); ++g) {
    const SizeGroup& group = search.sizing.groups[g];
    std::optional<WireSizeName> given;
    for (const WireId id : group.wires)
      if (!given) given = search.circuit.wires[static_cast<size_t>(id.v)].size;
    for (const WireId id : group.wires)
      out.wires[static_cast<size_t>(id.v)].size = group.given ? *given : size_at(search, g, a).name;
  }
  return out;
}

Trial try_assignment(Search& search, const Assignment& a, bool whole) {
  ++search.trials;
  return try_sizes(with_sizes(search, a), search.sizing, whole, search.first_scene);
}

Assignment largest(const Sizing& sizing) {
  Assignment out;
  for (const SizeGroup& g : sizing.groups) out.push_back(g.given ? 0 : static_cast<int>(g.choices.size()) - 1);
  return out;
}

namespace {

// Assignments solved before the search is cut and said so. The plain job needs a few dozen.
constexpr int most_trials = 4000;

double cost_of(const Search& search, const Assignment& a) {
  double cost = 0;
  for (size_t g = 0; g < search.sizing.groups.size(); ++g)
    if (!search.sizing.groups[g].given)
      cost += search.sizing.groups[g].length_m * size_at(search, g, a).area_mm2;
  return cost;
}

// No assignment that passes has a group below this: it fails even with all others at their largest.
Assignment least(Search& search) {
  const Assignment most = largest(search.sizing);
  Assignment out(most.size(), 0);
  for (size_t g = 0; g < out.size(); ++g) {
    Assignment a = most;
    for (a[g] = 0; a[g] < most[g] && !try_assignment(search, a).passes();) ++a[g];
    out[g] = a[g];
  }
  return out;
}

// Assignments in rising cost; equal cost in lexical order, so that every run finds the same one.
class Rising {
 public:
  Rising(const Search& search, Assignment from) : search_(search) { push(std::move(from)); }
  bool empty() const { return queue_.empty(); }
  Assignment next() {
    const Assignment out = queue_.top().second;
    queue_.pop();
    for (size_t g = 0; g < out.size(); ++g) {
      const SizeGroup& group = search_.sizing.groups[g];
      if (group.given || out[g] + 1 >= static_cast<int>(group.choices.size())) continue;
      Assignment more = out;
      ++more[g];
      push(std::move(more));
    }
    return out;
  }

 private:
  void push(Assignment a) {
    if (!seen_.insert(a).second) return;
    queue_.emplace(cost_of(search_, a), std::move(a));
  }
  using Entry = std::pair<double, Assignment>;
  const Search& search_;
  std::priority_queue<Entry, std::vector<Entry>, std::greater<>> queue_;
  std::set<Assignment> seen_;
};

// When the enumeration is cut: from the largest sizes downwards, a group at a time.
Assignment shrink(Search& search) {
  Assignment a = largest(search.sizing);
  for (size_t g = 0; g < a.size(); ++g)
    while (a[g] > 0) {
      --a[g];
      if (try_assignment(search, a).passes()) continue;
      ++a[g];
      break;
    }
  return a;
}

}  // namespace

Found enumerate(Search& search) {
  Found out;
  Rising rising(search, least(search));
  while (!rising.empty()) {
    if (search.trials >= most_trials) {
      if (!out.best) out.best = shrink(search), out.proved = false;
      return out;
    }
    const Assignment a = rising.next();
    if (!try_assignment(search, a).passes()) continue;
    if (out.best) {
      out.second = a;
      return out;
    }
    out.best = a;
  }
  return out;
}

}  // namespace towloom
