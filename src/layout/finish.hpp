// The last step of placing: bars and outlet box grow to their wires, each wire to ground gets its symbol,
// housings their frames.
#pragma once

#include "layout/place.hpp"

namespace towloom {

// `sketch`: nodes with their place on the sheet.
void finish(Placement&, const Sketch&, const Circuit&, const Look&);

}  // namespace towloom
