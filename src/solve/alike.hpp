// Faults that make the same of a circuit: one answer serves them all.
#pragma once

#include <cstdint>

#include "solve/sound.hpp"

namespace towloom {

// What is left of a changed circuit when all that nothing is seen of is put together: a way of resistors without a joint
// is one resistor, wherever in it a contact is poor; what hangs on one end only, or on nothing, is left out, wherever it
// is broken. Two circuits with equal ones differ by the leaks of the points left out and by nothing else, in every scene: by Sound::leaks_a, on which what is seen must
// not hang.
using Essence = std::vector<std::int64_t>;
Essence find_essence(const Sound&, const Solver& changed, const std::vector<ModeForced>&);

}  // namespace towloom
