// What a job says of its connectors and colours, settled against the catalogue before the circuit is built.
#pragma once

#include "catalogue/catalogue.hpp"

namespace towloom {

// Colours of the car's wires become IEC 60757 letters. An outlet or inlet that states a layout, a use or a
// colour set becomes a connector of its own in the catalogue, and the job names that. Cord ends are held
// against outlet and inlet. False if something was wrong; it has then been said.
bool settle_job(Spec&, Catalogue&, Diagnostics&);

}  // namespace towloom
