// The search for the assignment of sizes with least copper.
#pragma once

#include <optional>
#include <vector>

#include "size/parts.hpp"

namespace towloom {

using Assignment = std::vector<int>;   // by group: index into its choices; given groups stay 0

struct Search {
  const Circuit& circuit;
  const Sizing& sizing;
  const WireSeries& series;
  int trials = 0;                // assignments solved so far
  std::size_t first_scene = 0;   // that is tried first: the one that refused last
};
// The groups that have a size of their own, and those whose size a change of this one's changes.
bool is_free(const Search&, std::size_t group);
void set_size(const Search&, Assignment&, std::size_t group, int choice);
const WireSize& size_at(const Search&, std::size_t group, const Assignment&);
Circuit with_sizes(const Search&, const Assignment&);
// `whole`: every requirement is looked at, not only until the first that fails.
Trial try_assignment(Search&, const Assignment&, bool whole = false);
Assignment largest(const Sizing&);

struct Found {
  std::optional<Assignment> best, second;   // least copper, mm2 times m; the next dearer
  bool proved = true;            // false: the search was cut, and the best is not proved to be the least
};
// Assignments in rising cost until two pass.
Found enumerate(Search&);

}  // namespace towloom
