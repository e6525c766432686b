// A page too wide for the paper goes on over the next: which parts stand on which.
#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "layout/share.hpp"
#include "layout/sides.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// By part: wires from the first part of its page to it, along the flow; the two contacts of a core count as one part.
std::vector<int> depths_within(const Circuit& c, const std::vector<bool>& shared, const std::vector<Share>& share) {
  const Flow flow = flow_of(c);
  std::vector<int> mate(c.parts.size(), -1), depth(c.parts.size(), -1);
  for (const Wire& w : c.wires)
    if (is_core(w)) mate[at(w.from.part.v)] = w.to.part.v, mate[at(w.to.part.v)] = w.from.part.v;
  std::vector<bool> open(c.parts.size(), false);   // being measured: a ring of parts ends there
  const auto measure = [&](const auto& self, int p) -> int {
    if (depth[at(p)] >= 0) return depth[at(p)];
    open[at(p)] = true;
    int out = 0;
    for (const int q : flow.before[at(p)])
      if (!open[at(q)] && !shared[at(q)] && share[at(q)] == share[at(p)]) out = std::max(out, self(self, q) + (mate[at(p)] == q ? 0 : 1));
    open[at(p)] = false;
    return depth[at(p)] = out;
  };
  for (std::size_t p = 0; p < c.parts.size(); ++p) measure(measure, static_cast<int>(p));
  return depth;
}

}  // namespace

void cut_across(const Circuit& c, const std::vector<bool>& shared, std::vector<Share>& share, const std::array<int, 4>& lengths) {
  if (std::all_of(lengths.begin(), lengths.end(), [](int n) { return n == 1; })) return;
  const std::vector<int> depth = depths_within(c, shared, share);
  std::map<Share, int> deepest;
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (!shared[p]) deepest[share[p]] = std::max(deepest[share[p]], depth[p]);
  std::map<std::pair<Share, std::string>, int> housing;
  std::vector<int> length(c.parts.size(), 0);
  const auto frame = [&](std::size_t p) { return c.parts[p].zone == Zone::lamp ? c.parts[p].group : ""; };
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    length[p] = depth[p] * lengths[at(share[p].group)] / (deepest[share[p]] + 1);
    if (!frame(p).empty()) housing[{share[p], frame(p)}] = std::max(housing[{share[p], frame(p)}], length[p]);
  }
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    if (!frame(p).empty()) length[p] = housing[{share[p], frame(p)}];
  }
  for (std::size_t p = 0; p < c.parts.size(); ++p) share[p].length = length[p];
}

}  // namespace towloom
