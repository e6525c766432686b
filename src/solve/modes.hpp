// Discrete modes: which relays have pulled in, which modules are supplied, which outputs are on.
#pragma once

#include <functional>
#include <optional>

#include "solve/network.hpp"

namespace towloom {

// The modes that follow from solved voltages: relays and supplies by their thresholds, outputs by the
// truth table over the waveforms of all flash phases. `levels` keeps what each logic input was.
struct Modes {
  std::vector<Pulled> pulled;                 // by phase
  std::vector<std::vector<std::vector<char>>> levels;   // by phase, by part, by logic input
  bool operator==(const Modes&) const = default;
};
Modes modes_at_rest(const Circuit&, int phases);
Modes modes_pulled_in(const Circuit&, int phases);
Modes next_modes(const Circuit&, const Points&, const Solved&, const Modes& now);
// From `modes` on, all changes at once, until none follows: `solve` solves a round with them into `solved`. Nothing at
// rest; else what would follow from the last, which was there before.
std::optional<Modes> follow(const Circuit&, const Points&, const Solved& solved, Modes& modes, const std::function<void()>& solve);
bool has_devices(const Circuit&);

}  // namespace towloom
