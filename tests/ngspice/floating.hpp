// Points that ngspice's doubles cannot hold to our tolerance.
#pragma once

#include <cmath>

#include "solve/solve.hpp"

namespace towloom::ngspice {

// Held by its leak of 1 nS alone: 100 Mohm move it. Behind a wire of 100 S ngspice's doubles are then off by 2e-14 A,
// some 10 uV (tests/solve/test_floating.cpp holds such points against 30 digits).
inline bool floats(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene, const Solved& ours, int phase, std::size_t point) {
  const Points points = number_points(circuit);
  std::size_t part = 0;
  while (part + 1 < points.first.size() && static_cast<std::size_t>(points.first[part + 1]) <= point) ++part;
  const TerminalRef at{PartId{static_cast<int>(part)}, static_cast<int>(point) - points.first[part]};
  const Solved loaded = solve(circuit, catalogue, scene, {{at, TerminalRef{}, 1e8}});
  const double before = ours.phase[static_cast<std::size_t>(phase)].volts[point];
  return std::fabs(loaded.phase[static_cast<std::size_t>(phase)].volts[point] - before) > 0.01 * std::fabs(before);
}

// The coach, its outlet, the cord, and the cord's side of the inlet.
inline bool of_coach(const Circuit& circuit, const Points& points, std::size_t point) {
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const auto first = static_cast<std::size_t>(points.first[p]);
    if (point < first || point >= first + circuit.parts[p].terminals.size()) continue;
    return circuit.parts[p].status == Status::coach && circuit.parts[p].terminals[point - first] != "car";
  }
  return false;
}

}  // namespace towloom::ngspice
