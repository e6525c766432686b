// The way of one lamp's current, from its source through the lamp and back to the same source.
#pragma once

#include "solve/currents.hpp"

namespace towloom {

struct Way {
  std::vector<Current> steps;   // in the current's direction, without the source itself
  std::size_t lamp = 0;         // the step that is the lamp
  bool closed = false;          // a source was found, and the way leads back to it
};
// `node`: by point, equal for points that are one (Flat::point). Where the current parts, the strongest branch is
// followed; on the way back the strongest of those that lead to the source. `lamp` is one of `currents`.
Way find_way(const std::vector<int>& node, const std::vector<Current>& currents, const Current& lamp);

}  // namespace towloom
