// Pulses of a pulse-modulated feed are short against the time in which a filament warms or cools.
#pragma once

#include "solve/faults.hpp"

namespace towloom {

// Every filament that pulses reach, by flash phase: the resistance that it has at the RMS volts of pulse and pause.
std::vector<HeldFilament> held_filaments(const Circuit&, const Points&, const Solved&);
// Equal to a millionth.
bool agree(const std::vector<HeldFilament>&, const std::vector<HeldFilament>&);
// What makes of the circuit the one of this flash phase: resistors in place of its filaments.
std::vector<Change> held_changes(const std::vector<HeldFilament>&, int flash);

}  // namespace towloom
