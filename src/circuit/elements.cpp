// One electrical law between two points of a part.
#include "circuit/builder.hpp"

namespace towloom {
namespace {

Element between(Law law, int a, int b) {
  Element e;
  e.law = law;
  e.a = a;
  e.b = b;
  return e;
}

}  // namespace

Element resistor(int a, int b, double ohm) {
  Element e = between(Law::resistor, a, b);
  e.ohm = ohm;
  return e;
}

Element filament(int a, int b, double volts, double amps) {
  Element e = between(Law::filament, a, b);
  e.volts = volts;
  e.amps = amps;
  return e;
}

Element diode(int anode, int cathode, const DiodeModel& m) {
  Element e = between(Law::diode, anode, cathode);
  e.is = m.is;
  e.n = m.n;
  e.rs = m.rs;
  e.eg = m.eg;
  e.xti = m.xti;
  e.celsius = 27;   // the models' own temperature; conservative for the drop when warm
  return e;
}

Element one_way(int a, int b, double ohm) {
  Element e = between(Law::led, a, b);
  e.volts = 1;
  e.amps = 1 / ohm;
  return e;
}

Element limited(int a, int b, double volts, double ohm, double most_a, double least_a) {
  Element e = between(Law::limited, a, b);
  e.volts = volts;
  e.ohm = ohm;
  e.amps = most_a;
  e.least_a = least_a;
  return e;
}

Element gated(Element e, Gate gate, const std::string& signal) {
  e.gate = gate;
  e.signal = signal;
  return e;
}

Element gated(Element e, Gate gate, int device) {
  e.gate = gate;
  e.device = device;
  return e;
}

}  // namespace towloom
