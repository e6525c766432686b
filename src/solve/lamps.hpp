// What the solution shows at one lamp.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

LampState lamp_state(const Circuit&, const Catalogue&, const Points&, PartId lamp, const Solved&);

}  // namespace towloom
