// What the solution shows at one lamp.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

// `element` is the part's element that gives the light.
LampState lamp_state(const Circuit&, const Catalogue&, const Points&, PartId lamp, const Solved&, int element = 0);

}  // namespace towloom
