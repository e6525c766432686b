// A network without the points where only straight lines meet (wires, contacts, sources): Newton then works on the few
// at lamps and diodes.
#pragma once

#include "solve/kirchhoff.hpp"

namespace towloom {

class Reduction {
 public:
  // `bent`: by branch, whether it may have a law that is no straight line. The points of those are kept.
  Reduction(const Network& shape, const std::vector<char>& bent);
  // Volts of all points, near enough to be the start of find_operating_point, or as soon as it is enough. `curves`: by
  // branch of the shape; nullptr: it is open.
  Nearly find_start(const std::vector<const Curve*>& curves, const std::vector<double>& start, const Enough& = {}) const;

 private:
  struct Straight {
    std::size_t branch;
    int a, b, slot;            // points; slot -1: an end is 0 V
  };
  std::vector<Straight> straight_;
  std::vector<std::size_t> bent_;   // branches
  Mesh whole_;
  std::vector<int> kept_;      // points
  std::vector<Kirchhoff::Line> pairs_, lines_;   // of what is left: pairs of kept points, bent branches
  Mesh small_;
};

}  // namespace towloom
