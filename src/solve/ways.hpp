// How firmly the supplies of relays and modules are held by what joins them to body.
#pragma once

#include "solve/watch.hpp"

namespace towloom {

// Amps that go astray anywhere move a supply by no more than its ways' ohms make of them, as long as nothing on the ways
// is changed: resistors, sources, filaments at their highest, and limited loads within their bounds, all those that
// conduct in this network. An island in which nothing drives amps stands at 0 V, whatever its points leak.
struct Ways {
  std::vector<double> ohms;    // by supply: of both its ends, none for an island; endless where there is no way
  std::vector<char> islands;   // by supply: an end is on one
  std::vector<char> branches;  // by branch: it lies on one of the ways
  std::vector<char> adrift;    // by point: on an island
  std::vector<std::size_t> limited;   // branches on the ways that are no way beyond their bounds
};
// `volts`: of the network, for the limited loads.
Ways find_ways(const Network&, const std::vector<VoltsWatch>&, const std::vector<double>& volts);
// A limited load stays within its bounds when so many amps go astray. The branch's own curve may be another network's.
bool is_within_bounds(const Branch& ends, const Curve&, const std::vector<double>& volts, double amps);
constexpr double island_v = 0.1;   // what breaks of 1e12 ohm, two of them, make of 50 V on an island's one point of 1 nS

}  // namespace towloom
