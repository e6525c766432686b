// Readings where the other vehicle's volts must not arrive.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

// Towards the coach: the car's own signals with the cord out. Towards the car: the coach's signals,
// coupled. Each probe is solved with the meter attached, then with 1 kohm. Fills states.backfeed.
void probe_backfeed(const Circuit&, const Catalogue&, States&);

}  // namespace towloom
