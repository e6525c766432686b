// What flows through one element at a voltage: current, slope and co-content of every law.
#pragma once

#include "circuit/circuit.hpp"

namespace towloom {

// Ngspice's default conductance across a junction, S (electrical.md 4.2).
constexpr double junction_leak = 1e-12;
// No resistance is smaller: keeps the equations solvable where a length is zero. Ohm.
constexpr double least_ohm = 1e-5;
// Smooth filament law, electrical.md 3.3: x * (x^2 + e^2)^-0.225 is the handbook's x^0.55 for
// x >> e and a cold filament of 1/12.9 of the hot resistance at x = 0.
constexpr double filament_exponent = -0.225;
constexpr double filament_cold = 0.0034;

// An element with everything that does not depend on the voltage worked out.
struct Curve {
  Law law = Law::resistor;
  double siemens = 0;           // resistor, source, led above its threshold, limited between its bounds
  double least_a = 0;           // limited: amps never below -least_a
  double volts = 0, amps = 0;   // source: emf; filament: design point; led: threshold
  double is = 0, slope_v = 0, rs = 0;   // diode at its temperature; slope_v = N k T / q
};
// A power element takes less current at more volts, which no rising law does: `at_v` are the volts at which its
// current is taken, found again until they agree (solve.cpp).
Curve make_curve(const Element&, double at_v = 0);
double power_amps(const Element&, double at_v);
Curve make_resistor(double ohm);

// The saturation current at a temperature, as ngspice scales it (electrical.md 4.2).
double saturation_amps(const Element& diode);
double thermal_volts(double celsius);

struct Response {
  double amps = 0;      // from a to b
  double siemens = 0;   // d amps / d volts, > 0
  double content = 0;   // integral of amps over volts from 0: the co-content, convex
};
Response respond(const Curve&, double volts);

}  // namespace towloom
