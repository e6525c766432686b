// What may change in a network before something else is seen: limits of the amps through lamps, coils, inputs and fuses.
#pragma once

#include "solve/lamps.hpp"
#include "solve/protectors.hpp"
#include "solve/solver.hpp"

namespace towloom {

// A quantity and the limits at which what is seen of it changes, rising.
struct Thresholds {
  bool both_ways = false;      // the sign does not count
  std::vector<double> at;
  // How many limits lie below; -1 where `value` is known too badly to say.
  int position(double value, double known_within) const;
};
struct AmpsWatch {
  int branch = 0;
  Thresholds limits;
  int device_part = -1, device = -1;   // of a relay, a supply; device -1: an input of the part's logic
};
// Devices with nothing straight beside them: their volts.
struct VoltsWatch {
  int plus = -1, minus = -1;   // network points
  Thresholds limits;
  int device_part = -1, device = -1;
};
struct Watches {
  std::vector<AmpsWatch> lamps, devices, protectors;
  std::vector<VoltsWatch> supplies;
  std::vector<int> branches;   // of all whose amps are watched
};
// `lights`: by lamp, the lights of the sound circuit beside which a change would be seen.
Watches make_watches(const Solver&, const std::vector<WatchedLamp>&, const std::vector<std::vector<double>>& lights, const std::vector<Protector>&,
                     const LightRules&, double dimmer_share);

}  // namespace towloom
