// Linear equations of a resistor network, solved by removing one point after the other (star to
// mesh). Only sums of positive numbers occur, so that a point held by 1 nS alone is as exact as one
// held by 10 kS; a general elimination loses it.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace towloom {

class Mesh {
 public:
  // Conductances lie between the points of each pair; every point also has one to the reference.
  Mesh(int points, const std::vector<std::pair<int, int>>& pairs);
  // Volts of every point when `amps` flow into it. `siemens` in the order of the pairs.
  std::vector<double> solve(const std::vector<double>& siemens, std::vector<double> to_reference,
                            std::vector<double> amps) const;

 private:
  struct Neighbour {
    int point, slot;
  };
  struct Step {  // one point removed, with the neighbours that remain
    int point;
    std::vector<Neighbour> neighbours;
    std::vector<int> targets;  // slot of each pair of neighbours, rows of a triangle
  };
  int points_ = 0, slots_ = 0;
  std::vector<int> slot_of_pair_;  // -1: both ends are one point
  std::vector<Step> steps_;
};

}  // namespace towloom
