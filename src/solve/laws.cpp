#include "solve/laws.hpp"

#include <algorithm>
#include <cmath>

namespace towloom {
namespace {

constexpr double boltzmann = 1.38064852e-23, charge = 1.6021766208e-19;  // as in ngspice 39
constexpr double nominal_kelvin = 300.15;                                // TNOM = 27 °C
constexpr double power_start = 0.1;   // of its threshold: over these volts a driver wakes up
constexpr double euler = 2.718281828459045, exp_of_corner = 0.049787068367863944;   // e and e^-3
// Beyond this the exponential goes on as its tangent: no iterate may overflow.
constexpr double largest_power = 200;

Response junction_forward(const Curve& c, double v) {
  const double x = v / c.slope_v, top = std::min(x, largest_power);
  const double e = std::exp(top), over = x - top;
  Response r;
  r.amps = c.is * (e * (1 + over) - 1);
  r.siemens = c.is * e / c.slope_v;
  r.content = c.is * c.slope_v * (e * (1 + over + over * over / 2) - 1 - x);
  return r;
}

// Ngspice's reverse branch, below -3 N Vt.
Response junction_reverse(const Curve& c, double v) {
  const double corner = -3 * c.slope_v, a = 3 * c.slope_v / euler, cube = a * a * a;
  const double at_corner = c.is * c.slope_v * (exp_of_corner - 1 + 3);
  Response r;
  const double ratio = a / v;
  r.amps = -c.is * (1 + ratio * ratio * ratio);
  r.siemens = 3 * c.is * ratio * ratio * ratio / v;
  r.content = at_corner - c.is * ((v - corner) - cube / 2 * (1 / (v * v) - 1 / (corner * corner)));
  return r;
}

Response junction(const Curve& c, double v) {
  Response r = v >= -3 * c.slope_v ? junction_forward(c, v) : junction_reverse(c, v);
  r.amps += junction_leak * v;
  r.siemens += junction_leak;
  r.content += junction_leak * v * v / 2;
  return r;
}

// The voltage of the inner junction when `v` stands across junction and series resistance, and what it carries there.
// Halley's step, which knows how the exponential bends, kept inside a shrinking bracket.
Response inner_junction(const Curve& c, double v) {
  double low = std::min(v, 0.0), high = std::max(v, 0.0);
  if (v > 0) high = std::min(high, c.slope_v * std::log1p(v / (c.rs * c.is)));
  double at = v > 0 ? high : low;
  Response r = junction(c, at);
  for (int i = 0; i < 100; ++i) {
    const double miss = at + c.rs * r.amps - v, slope = 1 + c.rs * r.siemens;
    (miss > 0 ? high : low) = at;
    const double newton = miss / slope, bend = at > -3 * c.slope_v ? c.rs * r.siemens / (c.slope_v * slope) : 0;
    double next = at - newton / std::max(0.5, 1 - newton * bend / 2);
    if (!(next >= low && next <= high)) next = low + (high - low) / 2;
    if (std::abs(next - at) <= 1e-15 * (std::abs(v) + c.slope_v)) break;
    at = next;
    r = junction(c, at);
  }
  return r;
}

Response diode(const Curve& c, double v) {
  if (c.rs <= 0) return junction(c, v);
  Response r = inner_junction(c, v);
  r.content += c.rs * r.amps * r.amps / 2;
  r.siemens = r.siemens / (1 + c.rs * r.siemens);
  return r;
}

Response filament(const Curve& c, double v) {
  const double x = v / c.volts, cold = filament_cold * filament_cold, s = x * x + cold;
  const double power = std::pow(s, filament_exponent);
  Response r;
  r.amps = c.amps * x * power;
  r.siemens = c.amps / c.volts * power / s * ((1 + 2 * filament_exponent) * x * x + cold);
  r.content = c.amps * c.volts * (s * power - std::pow(cold, 1 + filament_exponent)) /
              (2 * (1 + filament_exponent));
  return r;
}

Response led(const Curve& c, double v) {
  const double over = std::max(0.0, v - c.volts);
  const double on = over > 0 ? c.siemens : 0;
  return {on * over + junction_leak * v, on + junction_leak, (on * over * over + junction_leak * v * v) / 2};
}

// A straight line between two bounds; beyond them only the leak keeps it rising.
Response limited(const Curve& c, double v) {
  const double u = v - c.volts, top = c.amps / c.siemens, low = -c.least_a / c.siemens;
  const double inside = std::clamp(u, low, top);
  Response r;
  r.amps = c.siemens * inside + junction_leak * v;
  r.siemens = (u > low && u < top ? c.siemens : 0) + junction_leak;
  // Co-content counted from v = 0 up to a constant, which the search never sees.
  r.content = c.siemens * inside * inside / 2 + c.siemens * inside * (u - inside) + junction_leak * v * v / 2;
  return r;
}

}  // namespace

double thermal_volts(double celsius) { return boltzmann * (celsius + 273.15) / charge; }

double saturation_amps(const Element& d) {
  const double ratio = (d.celsius + 273.15) / nominal_kelvin;
  return d.is * std::exp((ratio - 1) * d.eg / (d.n * thermal_volts(d.celsius)) + d.xti / d.n * std::log(ratio));
}

Curve make_resistor(double ohm) {
  Curve c;
  c.siemens = 1 / std::max(ohm, least_ohm);
  return c;
}

double power_amps(const Element& e, double at_v) { return e.volts * e.amps / std::max(at_v, e.threshold_v); }

Curve make_curve(const Element& e, double at_v) {
  if (e.law == Law::power) {   // rises over a tenth of its threshold, then is bounded
    Curve c = make_resistor(power_start * e.threshold_v / power_amps(e, 0));
    c.law = Law::limited;
    c.volts = (1 - power_start) * e.threshold_v;
    c.amps = power_amps(e, at_v);
    return c;
  }
  Curve c = make_resistor(e.law == Law::led ? (e.volts - e.threshold_v) / e.amps : e.ohm);
  c.law = e.law;
  c.volts = e.law == Law::led ? e.threshold_v : e.volts;
  c.amps = e.amps;
  c.least_a = e.least_a;
  if (e.law == Law::diode) {
    c.is = saturation_amps(e);
    c.slope_v = e.n * thermal_volts(e.celsius);
    c.rs = e.rs;
  }
  return c;
}

Response respond(const Curve& c, double v) {
  switch (c.law) {
    case Law::resistor: return {c.siemens * v, c.siemens, c.siemens * v * v / 2};
    case Law::source: {
      const double u = v - c.volts;
      return {c.siemens * u, c.siemens, c.siemens * u * u / 2};
    }
    case Law::filament: return filament(c, v);
    case Law::led: return led(c, v);
    case Law::diode: return diode(c, v);
    case Law::limited: return limited(c, v);
    case Law::power: break;   // made into a limited curve
  }
  return {};
}

}  // namespace towloom
