#include "size/search.hpp"

#include <algorithm>
#include <functional>
#include <queue>
#include <set>

namespace towloom {

bool is_free(const Search& search, size_t group) {
  const SizeGroup& g = search.sizing.groups[group];
  return !g.given && !g.twin && g.choices.size() > 1;
}

void set_size(const Search& search, Assignment& a, size_t group, int choice) {
  a[group] = choice;
  for (size_t g = 0; g < a.size(); ++g)
    if (search.sizing.groups[g].twin == group) a[g] = choice;
}

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
constexpr size_t most_seen = 100000;   // assignments that were thought of
constexpr double least_help = 1e-6;    // V or A: rounding

double cost_of(const Search& search, const Assignment& a) {
  double cost = 0;
  for (size_t g = 0; g < search.sizing.groups.size(); ++g)
    if (!search.sizing.groups[g].given)
      cost += search.sizing.groups[g].length_m * size_at(search, g, a).area_mm2;
  return cost;
}

// No assignment passes that has each of `groups` at the size in `at` or below, and each of `beside` there or above: the way
// of one lamp, or one wire, bears too little with the rest of that way at its largest. Copper beside it helps nothing, and
// may add to the current that they share.
struct Refusal {
  std::vector<size_t> groups, beside;
  Assignment at;
  bool covers(const Assignment& a) const {
    return std::all_of(groups.begin(), groups.end(), [&](size_t g) { return a[g] <= at[g]; }) &&
           std::all_of(beside.begin(), beside.end(), [&](size_t g) { return a[g] >= at[g]; });
  }
};

// What is learnt from an assignment that failed: as few groups as possible, as large as they fail.
Refusal learn(Search& search, const Assignment& failed, const Trial& trial) {
  const Assignment most = largest(search.sizing);
  Refusal out{{}, {}, failed};
  const auto fails_alike = [&](const Trial& t) { return !t.passes() && t.converged && t.blamed == trial.blamed; };
  const auto try_with = [&](size_t g, int size) {
    Assignment a = out.at;
    set_size(search, a, g, size);
    return try_assignment(search, a);
  };
  const auto blamed = [&](size_t g) {
    for (size_t of = 0; of < failed.size(); ++of)
      if (trial.blamed[of] != 0 && (of == g || search.sizing.groups[of].twin == g)) return true;
    return false;
  };
  // A ground beside the way may carry some of its return.
  const auto helps = [&](size_t g) {
    const Trial more = try_with(g, most[g]);
    return !fails_alike(more) || more.too_many < trial.too_many - least_help;
  };
  for (size_t g = 0; g < failed.size(); ++g)
    if (is_free(search, g)) (blamed(g) || !trial.converged || helps(g) ? out.groups : out.beside).push_back(g);
  if (!trial.converged) return out;
  for (size_t i = out.groups.size(); i-- > 0 && out.groups.size() > 1;) {   // one that does not matter
    if (!fails_alike(try_with(out.groups[i], most[out.groups[i]]))) continue;
    set_size(search, out.at, out.groups[i], most[out.groups[i]]);
    out.groups.erase(out.groups.begin() + static_cast<std::ptrdiff_t>(i));
  }
  for (const size_t g : out.groups)
    while (out.at[g] < most[g] && fails_alike(try_with(g, out.at[g] + 1))) set_size(search, out.at, g, out.at[g] + 1);
  return out;
}

// Assignments in rising cost; equal cost in lexical order, so that every run finds the same one.
class Rising {
 public:
  Rising(const Search& search, Assignment from) : search_(search) { push(std::move(from)); }
  bool empty() const { return queue_.empty(); }
  size_t seen() const { return seen_.size(); }
  Assignment next() {
    Assignment out = queue_.top().second;
    queue_.pop();
    return out;
  }
  // What may pass above one that is refused has one of its groups larger.
  void go_beyond(const Assignment& a, const Refusal& refusal) {
    for (const size_t g : refusal.groups) raise(a, g, refusal.at[g] + 1);
  }
  void go_on(const Assignment& a) {
    for (size_t g = 0; g < a.size(); ++g)
      if (is_free(search_, g)) raise(a, g, a[g] + 1);
  }

 private:
  void raise(Assignment a, size_t g, int to) {
    if (to >= static_cast<int>(search_.sizing.groups[g].choices.size())) return;
    set_size(search_, a, g, to);
    push(std::move(a));
  }
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
    while (is_free(search, g) && a[g] > 0) {
      set_size(search, a, g, a[g] - 1);
      if (try_assignment(search, a).passes()) continue;
      set_size(search, a, g, a[g] + 1);
      break;
    }
  return a;
}

}  // namespace

Found enumerate(Search& search) {
  Found out;
  std::vector<Refusal> refusals;
  Rising rising(search, Assignment(search.sizing.groups.size(), 0));
  while (!rising.empty()) {
    if (search.trials >= most_trials || rising.seen() >= most_seen) {
      if (!out.best) out.best = shrink(search), out.proved = false;
      return out;
    }
    const Assignment a = rising.next();
    auto refusal = std::find_if(refusals.begin(), refusals.end(), [&](const Refusal& r) { return r.covers(a); });
    if (refusal == refusals.end()) {
      const Trial trial = try_assignment(search, a);
      if (trial.passes()) {
        (out.best ? out.second : out.best) = a;
        if (out.second) return out;
        rising.go_on(a);
        continue;
      }
      refusals.push_back(learn(search, a, trial));
      refusal = refusals.end() - 1;
    }
    rising.go_beyond(a, *refusal);
  }
  return out;
}

}  // namespace towloom
