// Whether a method suits a lamp of this car, by the rows of the method's own file.
#pragma once

#include "catalogue/catalogue.hpp"

namespace towloom {

// The first row that matches; nullptr when none does. Keys of `when`: lamp.drive, lamp.source (led | filament),
// lamp.shares (yes | no: other lamps hang on its node), car.monitoring, battery (connected | disconnected).
const SuitRow* find_suit(const Method&, const Spec&, const LampRow&, const Catalogue&);

}  // namespace towloom
