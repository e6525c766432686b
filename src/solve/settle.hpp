// The way from rest of relays and modules, network by network.
#pragma once

#include <functional>

#include "solve/solver.hpp"

namespace towloom {

struct Settled {
  std::vector<std::array<int, 4>> rounds;   // the networks of each round, by phase; the last are those that stay
  bool rests = true;
  const std::array<int, 4>& last() const { return rounds.back(); }
};
// `network`: the number of one, by which elements conduct and in which mode; `volts`: of its points.
// `devices`: the circuit whose thresholds hold, where some are forced.
Settled settle(const Solver&, const Circuit& devices, const Scene&, const Solved& frame,
               const std::function<int(std::vector<char> conducting, const Pulled&)>& network,
               const std::function<std::vector<double>(int network)>& volts);

}  // namespace towloom
