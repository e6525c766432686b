// Names that a job takes from the catalogue.
#pragma once

#include "catalogue/catalogue.hpp"

namespace towloom {

// A size by name in the job's series, else in ISO (mm²) or AWG; nullptr if neither has it.
const WireSize* find_size(const WireSizeName&, const std::string& series, const Catalogue&);
// The filament that a lamp row names; nullptr for a measured lamp, or when there is none.
const Filament* find_filament(const LampRow&, const Catalogue&);

// Connectors, their halves and contacts, bulbs and filaments, wire series and sizes, the ampacity basis, methods
// and extras: each must be in the catalogue. Empty names have been reported before. False after an error.
bool check_names(const Spec&, const Catalogue&, Diagnostics&);

}  // namespace towloom
