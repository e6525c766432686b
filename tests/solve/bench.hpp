// Circuits made by hand, element by element: one part that holds every named point.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "solve/network.hpp"
#include "solve/newton.hpp"

namespace towloom::bench {

struct Model {
  double is, n, rs, eg, xti;
};
// Test models of electrical.md 4.2: no maker's data sheet.
inline const Model silicon{5e-9, 1.75, 0.015, 1.11, 3};
inline const Model schottky{1.5e-5, 1.25, 0.03, 0.69, 2};

inline Element diode_element(const Model& m, double celsius = 27) {
  Element e;
  e.law = Law::diode;
  e.is = m.is;
  e.n = m.n;
  e.rs = m.rs;
  e.eg = m.eg;
  e.xti = m.xti;
  e.celsius = celsius;
  return e;
}

class Bench {
 public:
  Bench() {
    Part part;
    part.id = "X";
    part.kind = "bench";
    part.joins = "body";
    part.terminals = {"body"};
    circuit.parts.push_back(part);
  }
  // The number of an element, for amps().
  int add(Element e, const std::string& a, const std::string& b) {
    e.a = index(a);
    e.b = index(b);
    circuit.parts[0].elements.push_back(e);
    return static_cast<int>(circuit.parts[0].elements.size()) - 1;
  }
  int resistor(const std::string& a, const std::string& b, double ohm) {
    Element e;
    e.ohm = ohm;
    return add(e, a, b);
  }
  int source(const std::string& a, const std::string& b, double volts, double ohm) {
    Element e;
    e.law = Law::source;
    e.volts = volts;
    e.ohm = ohm;
    return add(e, a, b);
  }
  int lamp(const std::string& a, const std::string& b, double amps, double volts) {
    Element e;
    e.law = Law::filament;
    e.amps = amps;
    e.volts = volts;
    return add(e, a, b);
  }
  int led(const std::string& a, const std::string& b, double amps, double volts, double threshold) {
    Element e;
    e.law = Law::led;
    e.amps = amps;
    e.volts = volts;
    e.threshold_v = threshold;
    return add(e, a, b);
  }
  int diode(const std::string& a, const std::string& b, const Model& m) {
    return add(diode_element(m), a, b);
  }
  void gate(int element, Gate g, const std::string& signal) {
    Element& e = circuit.parts[0].elements[static_cast<std::size_t>(element)];
    e.gate = g;
    e.signal = signal;
  }

  // Solves without rounding.
  void run(const Scene& scene = {}, int phase = 0) {
    flat_ = flatten(circuit, catalogue, scene, phase);
    operating = find_operating_point(flat_.network);
    REQUIRE(operating.converged);
  }
  double volts(const std::string& name) {
    const int n = flat_.point[static_cast<std::size_t>(index(name))];
    return n < 0 ? 0 : operating.volts[static_cast<std::size_t>(n)];
  }
  double amps(int element) const {
    const int b = flat_.branch_of[0][static_cast<std::size_t>(element)];
    return b < 0 ? 0 : operating.amps[static_cast<std::size_t>(b)];
  }
  TerminalRef at(const std::string& name) { return {PartId{0}, index(name)}; }

  Circuit circuit;
  Catalogue catalogue;
  Operating operating;

 private:
  int index(const std::string& name) {
    auto& names = circuit.parts[0].terminals;
    if (name == "0") return 0;
    const auto found = std::find(names.begin(), names.end(), name);
    if (found != names.end()) return static_cast<int>(found - names.begin());
    names.push_back(name);
    return static_cast<int>(names.size()) - 1;
  }
  Flat flat_;
};

}  // namespace towloom::bench
