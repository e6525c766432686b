// Where current flows in one solved phase, branch by branch.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

struct Current {               // flows from point `from` to point `to`
  int from = 0, to = 0;
  double amps = 0;             // > 0
  WireId wire;                 // or
  PartId part;
  const Element* element = nullptr;   // nullptr for a wire
};
// Every wire and element that carries `least_a` or more.
std::vector<Current> find_currents(const Circuit&, const Points&, const Phase&, double least_a);

// Hands current on towards lamps: not a source, not a lamp.
bool passes_on(const Circuit&, const Current&);
// Keeps current from flowing back: a diode, or a transistor that acts as one.
bool isolates(const Current&);

}  // namespace towloom
