// What a signal of the tow line carries when the coach's driver acts.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

// What must light the lamp in tow.
Wave tow_wave(const LampIntent&, const Scene&);
// With the coach's engine off, and nobody asked whether its charge contact then stays live.
bool engine_unsurveyed(const Spec&, const Scene&);

}  // namespace towloom
