// A network without the points where only straight lines meet (wires, contacts, sources): Newton then works on the few
// at lamps and diodes.
#pragma once

#include "solve/newton.hpp"

namespace towloom {

class Reduction {
 public:
  // `bent`: by branch, whether it may have a law that is no straight line. The points of those are kept.
  Reduction(const Network& shape, std::vector<char> bent);
  // Volts of all points, near enough to be the start of find_operating_point. `net` has the shape's branches.
  std::vector<double> find_start(const Network& net, const std::vector<double>& start) const;

 private:
  std::vector<char> bent_;
  Mesh whole_;
  std::vector<int> kept_;      // points
  std::vector<int> number_;    // by point: index in kept_, or -1
  Mesh small_;
};

}  // namespace towloom
