// Readings where the other vehicle's volts must not arrive.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

// Towards the coach: the car's own signals with the cord out. Towards the car: the coach's signals,
// coupled. Each probe is solved with the meter attached, then with 1 kohm, then with 1 kohm and every diode hot.
// The car's own lamp check, which pulls outputs up while they are off, is left out: it is no back-feed.
// Fills states.backfeed.
void probe_backfeed(const Circuit&, const Catalogue&, States&);
// The circuit with every diode at the temperature of rule hot_diode_c.
Circuit with_hot_diodes(Circuit, const Catalogue&);
// What the lamps show with hot diodes. Fills states.hot.
void solve_hot(const Circuit&, const Catalogue&, States&);

}  // namespace towloom
