// What the solution shows at one lamp.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

bool gives_light(Seen);        // lit or flashing

struct LightRules {            // when a lamp counts as lit
  explicit LightRules(const Catalogue&);
  double flux_exponent, lit, dark, led_leak_a;
};
struct LampLook {              // one lamp in one phase
  double volts = 0, amps = 0, light = 0;
  double meter_v = 0;          // as LampState
};
// `element` is the part's element that gives the light.
LampLook look_at(const Circuit&, const LightRules&, const Points&, PartId lamp, const Phase&, int element = 0);
LampLook look_at(const Element& lamp, const LightRules&, double volts, double amps);
// What its phases together show; `frame` says what they are.
LampState combine(const Element& lamp, const LightRules&, const Solved& frame, const std::array<LampLook, 4>& looks);
LampState lamp_state(const Circuit&, const Catalogue&, const Points&, PartId lamp, const Solved&, int element = 0);

int late_flashes(const Circuit&, const LampIntent&, const Scene&, Seen);

}  // namespace towloom
