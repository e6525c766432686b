#include "solve/currents.hpp"

#include <cmath>

namespace towloom {

std::vector<Current> find_currents(const Circuit& circuit, const Points& points, const Phase& phase, double least_a) {
  std::vector<Current> out;
  const auto add = [&](int a, int b, double amps, WireId wire, PartId part, const Element* element) {
    if (std::fabs(amps) < least_a) return;
    if (amps < 0) std::swap(a, b);
    out.push_back({a, b, std::fabs(amps), wire, part, element});
  };
  for (std::size_t w = 0; w < circuit.wires.size(); ++w)
    add(points.at(circuit.wires[w].from), points.at(circuit.wires[w].to), phase.wire_a[w], {static_cast<int>(w)}, {}, nullptr);
  for (std::size_t p = 0; p < circuit.parts.size(); ++p)
    for (std::size_t e = 0; e < circuit.parts[p].elements.size(); ++e) {
      const Element& element = circuit.parts[p].elements[e];
      add(points.first[p] + element.a, points.first[p] + element.b, phase.element_a[p][e], {}, {static_cast<int>(p)}, &element);
    }
  return out;
}

bool passes_on(const Circuit& circuit, const Current& current) {
  if (current.element == nullptr) return true;
  const Law law = current.element->law;
  return law == Law::resistor || law == Law::diode || (law == Law::led && circuit.part(current.part).kind != "lamp");
}

bool isolates(const Current& current) {
  return current.element != nullptr && (current.element->law == Law::diode || current.element->law == Law::led);
}

}  // namespace towloom
