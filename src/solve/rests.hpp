// Relays and modules that rest in more ways than one, or only when they move one after the other.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

// For a scene in which relays and modules, all moved at once, find no rest: true if they rest when the first of them
// moves before the others. Which of them is first then decides what the circuit does.
bool rests_in_turn(const Circuit&, const Catalogue&, const Scene&);

// The parts that stay in if they were in before, and rest if they were not.
std::vector<PartId> parts_held(const Circuit&, const Catalogue&, const Scene&);

}  // namespace towloom
