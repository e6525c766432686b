#include "solve/pulses.hpp"

#include <algorithm>
#include <cmath>

#include "solve/laws.hpp"

namespace towloom {

std::vector<HeldFilament> held_filaments(const Circuit& circuit, const Points& points, const Solved& solved) {
  std::vector<HeldFilament> out;
  for (std::size_t p = 0; p < circuit.parts.size(); ++p)
    for (std::size_t e = 0; e < circuit.parts[p].elements.size(); ++e) {
      const Element& element = circuit.parts[p].elements[e];
      if (element.law != Law::filament) continue;
      for (int flash = 0; flash < solved.flash_phases(); ++flash) {
        double square = 0;
        for (int phase = flash; phase < solved.phases; phase += solved.flash_phases()) {
          const auto& volts = solved.phase[static_cast<std::size_t>(phase)].volts;
          const double v = volts[static_cast<std::size_t>(points.first[p] + element.a)] - volts[static_cast<std::size_t>(points.first[p] + element.b)];
          square += v * v * solved.weight(phase) * solved.flash_phases();
        }
        const double volts = std::sqrt(square), amps = respond(make_curve(element), volts).amps;
        if (amps > 0) out.push_back({{static_cast<int>(p)}, static_cast<int>(e), flash, volts / amps});
      }
    }
  return out;
}

bool agree(const std::vector<HeldFilament>& a, const std::vector<HeldFilament>& b) {
  constexpr double share = 1e-6;
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const HeldFilament& x, const HeldFilament& y) {
    return x.part == y.part && x.element == y.element && x.flash == y.flash && std::fabs(x.ohm - y.ohm) <= share * y.ohm;
  });
}

std::vector<Change> held_changes(const std::vector<HeldFilament>& held, int flash) {
  std::vector<Change> out;
  for (const HeldFilament& h : held)
    if (h.flash == flash) out.push_back(ElementBecomes{h.part, h.element, h.ohm});
  return out;
}

}  // namespace towloom
