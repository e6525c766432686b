// Pulses of a pulse-modulated feed are short against the time in which a filament warms or cools.
#pragma once

#include "solve/solver.hpp"

namespace towloom {

// Every filament that pulses reach, by flash phase: the resistance that it has at the RMS volts of pulse and pause.
std::vector<HeldFilament> held_filaments(const Solver&, const Solved&);
// Some filament has other volts in the pulse than in the pause. `volts`: of all points, by phase of the frame.
bool do_pulses_reach(const Solver&, const Solved& frame, const std::array<std::vector<double>, 4>& volts);
// Ohms equal to this share.
bool agree(const std::vector<HeldFilament>&, const std::vector<HeldFilament>&, double share);
// What makes of the circuit the one of this flash phase: resistors in place of its filaments.
std::vector<Change> held_changes(const std::vector<HeldFilament>&, int flash);

}  // namespace towloom
