// How far a fault reaches, without solving it. Every law rises, so that a network has no gain: a source put into one
// branch changes no voltage by more than its own, a current forced between two points changes no current by more than
// its own (the no-gain property of networks of increasing two-terminal resistors, circuit theory). A fault is
// such a source: what it takes to keep the sound solution in the faulty circuit.
#pragma once

#include "solve/faults.hpp"
#include "solve/lamps.hpp"
#include "solve/protectors.hpp"

namespace towloom {

struct Reach {                 // nothing changes by more than these; both hold
  double volts = 0, amps = 0;
};
Reach reach_of(const Circuit& sound, const Points&, const Fault&, const Phase& sound_solution);

// Below these a fault changes nothing that is printed: rounding and the leak of loose points.
constexpr double quiet_v = 3e-6, quiet_a = 3e-6;
inline bool is_quiet(const Reach& r) { return r.volts <= quiet_v || r.amps <= quiet_a; }

// What may change before something else is seen: either by so many volts, or by so many amps.
struct Slack {
  double volts = 0, amps = 0;
  void narrow(const Slack& other);
  bool holds(const Reach& r) const { return r.volts < volts || r.amps < amps; }
};
Slack endless_slack();
// Before a relay, a supply or an input of a module changes.
Slack slack_of_devices(const Circuit&, const Points&, const Phase&);
// Amps before a protector opens; below 0: one does.
double slack_of_protectors(const std::vector<Protector>&, const Phase&);
// Before the lamp's light changes by `light`, of its design light.
Slack slack_of_lamp(const Element& lamp, const LampLook&, double light, const LightRules&);
// What a lamp's light may change before it shows something else than in `sound`: `light` and `amps` of one flash phase.
double slack_of_light(const Element& lamp, double light, const LampState& sound, double dimmer_share, const LightRules&);

}  // namespace towloom
