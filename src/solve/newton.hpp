// The operating point of a network of increasing two-terminal laws.
#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "solve/laws.hpp"
#include "solve/mesh.hpp"

namespace towloom {

constexpr double point_leak = 1e-9;  // every point to car body, S: a floating piece has an answer

struct Branch {
  int a = -1, b = -1;   // point numbers; -1 is the reference, 0 V
  Curve curve;
};
struct Network {
  int points = 0;
  std::vector<Branch> branches;
  std::vector<double> forced_a = {};   // by point, into it; empty: none
};
struct Operating {
  std::vector<double> volts;    // by point
  std::vector<double> amps;     // by branch, a to b
  int iterations = 0;
  bool converged = false;
};
// Newton with a line search on the co-content, which is convex, so that the one solution is found
// from anywhere: from `start` (volts by point) if given, else from 0 V. Never calls a non-finite point converged.
Operating find_operating_point(const Network&, const std::vector<double>& start = {});
// The same with a mesh over all branches that have no end at 0 V: that of another network of the same shape.
Operating find_operating_point(const Network&, const Mesh&, const std::vector<double>& start);
// Asked after each step, with the volts and the amps that Kirchhoff's law misses over all points: whether that will do.
using Enough = std::function<bool(const std::vector<double>& volts, double missing)>;
struct Nearly {
  std::vector<double> volts;    // by point
  bool enough = false;          // was ever said
  bool converged = false;
};
std::shared_ptr<const Mesh> mesh_of(const Network&);

}  // namespace towloom
