// What a signal of the tow line carries when the coach's driver acts.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

// `kind`: combined | separate, what the left and right wires carry.
Wave tow_wave(const std::string& signal, const std::string& kind, const Scene&);

}  // namespace towloom
