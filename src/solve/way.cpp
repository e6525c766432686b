#include "solve/way.hpp"

#include <algorithm>
#include <set>

namespace towloom {
namespace {

bool of_source(const Current& c) { return c.element != nullptr && c.element->law == Law::source; }

struct Walk {
  const std::vector<int>& node;
  const std::vector<Current>& currents;

  int from(const Current& c) const { return node[static_cast<std::size_t>(c.from)]; }
  int to(const Current& c) const { return node[static_cast<std::size_t>(c.to)]; }

  // The strongest current into or out of a node that is `allowed`.
  template <class Allowed>
  const Current* strongest(int at, bool into, const Allowed& allowed) const {
    const Current* best = nullptr;
    for (const Current& c : currents)
      if ((into ? to(c) : from(c)) == at && allowed(c) && (best == nullptr || c.amps > best->amps)) best = &c;
    return best;
  }

  // Nodes from which currents lead to `target`; not through the source that hangs there.
  std::set<int> leading_to(int target) const {
    std::set<int> out{target};
    for (bool grew = true; grew;) {
      grew = false;
      for (const Current& c : currents)
        if (!of_source(c) && out.count(to(c)) != 0 && out.insert(from(c)).second) grew = true;
    }
    return out;
  }
};

}  // namespace

Way find_way(const std::vector<int>& node, const std::vector<Current>& currents, const Current& lamp) {
  const Walk walk{node, currents};
  Way out;
  const Current* source = nullptr;
  std::set<int> seen;
  for (int at = walk.from(lamp); seen.insert(at).second;) {
    const Current* c = walk.strongest(at, true, [](const Current&) { return true; });
    if (c == nullptr) break;
    if (of_source(*c)) {
      source = c;
      break;
    }
    out.steps.push_back(*c);
    at = walk.from(*c);
  }
  std::reverse(out.steps.begin(), out.steps.end());
  out.lamp = out.steps.size();
  out.steps.push_back(lamp);
  const int end = source == nullptr ? -2 : walk.from(*source);
  const std::set<int> home = walk.leading_to(end);
  std::set<int> passed;
  for (int at = walk.to(lamp); at != end && passed.insert(at).second;) {
    const bool leads = home.count(at) != 0;
    const Current* c = walk.strongest(at, false, [&](const Current& x) { return !of_source(x) && (!leads || home.count(walk.to(x)) != 0); });
    if (c == nullptr) return out;
    out.steps.push_back(*c);
    at = walk.to(*c);
  }
  out.closed = source != nullptr && walk.to(out.steps.back()) == end;
  return out;
}

}  // namespace towloom
