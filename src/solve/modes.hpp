// Discrete modes: which relays have pulled in, which modules are supplied, which outputs are on.
#pragma once

#include "solve/network.hpp"

namespace towloom {

// The modes that follow from solved voltages: relays and supplies by their thresholds, outputs by the
// truth table over the waveforms of all flash phases. `levels` keeps what each logic input was.
struct Modes {
  std::vector<Pulled> pulled;                 // by phase
  std::vector<std::vector<std::vector<char>>> levels;   // by phase, by part, by logic input
  bool operator==(const Modes&) const = default;
};
// Rounds of relays and modules before it is called chatter; real circuits settle in two or three.
constexpr int most_rounds = 32;
Modes modes_at_rest(const Circuit&, int phases);
Modes modes_pulled_in(const Circuit&, int phases);
Modes next_modes(const Circuit&, const Points&, const Solved&, const Modes& now);
bool has_devices(const Circuit&);

}  // namespace towloom
