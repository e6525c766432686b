// Relays that race each other: apart from a relay that parts its own coil, which never rests.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

// For a scene in which relays and modules, all moved at once, find no rest: true if they rest when the first of them
// moves before the others. Which of them is first then decides what the circuit does.
bool rests_in_turn(const Circuit&, const Catalogue&, const Scene&);

}  // namespace towloom
