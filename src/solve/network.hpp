// A circuit in one scene and phase as a bare network, with the way back to parts and wires.
#pragma once

#include "solve/newton.hpp"
#include "solve/solve.hpp"

namespace towloom {

struct Flat {
  Network network;
  std::vector<int> point;                     // by point of number_points(): network point, -1 = 0 V
  std::vector<std::vector<int>> branch_of;    // by part, by element: branch, -1 = open
  std::vector<int> branch_of_wire;            // by wire
};
// Car body is the reference: the terminal "body" of every part that joins it. Parts that join
// another common place share the point of their last terminal.
using Pulled = std::vector<std::vector<char>>;   // by part, by device; empty = all at rest
Flat flatten(const Circuit&, const Catalogue&, const Scene&, int phase, const std::vector<Attached>& = {},
             const Pulled& = {}, bool pulse = true);
// Network point of every point, -1 for car body; `count` is how many there are.
std::vector<int> number_nodes(const Circuit&, const Points&, int& count);
// `in`: the element's device has pulled in.
bool gate_open(Gate, Wave, int phase, bool in);
// `pulled` are the part's devices.
bool conducts(const Element&, const Scene&, int phase, const std::vector<char>& pulled = {}, bool pulse = true);
// Of all elements in order: two phases with equal ones are one network.
std::vector<char> conducting(const Circuit&, const Scene&, int phase, const Pulled&, bool pulse);
Curve curve_of(const Attached&);
double ohm_of(const Wire&, const Circuit&, const Catalogue&);

}  // namespace towloom
