// Readings between two terminals, solved while the instrument is attached.
#pragma once

#include "solve/solver.hpp"

namespace towloom {

struct Reading {
  double volts = 0;            // from above to; over pulses the mean, which a meter shows
  double amps = 0;             // through the instrument, from `from` to `to`; the mean
  double pulse_v = 0;          // with the pulse, or as volts
};
// The instrument as a load between two terminals; a terminal without part is car body.
Attached attach(const Instrument&, const Catalogue&, TerminalRef from, TerminalRef to);
// One reading a flash phase of the scene. Empty when the scene then has no operating point or finds no rest.
std::vector<Reading> read_between(const Circuit&, const Catalogue&, const Scene&, const Attached&, const Known& = {});
std::vector<Reading> read_between(const Solver&, const Scene&, const Attached&, const Known& = {});

}  // namespace towloom
