#include "check/heat.hpp"

#include <algorithm>

namespace towloom {
namespace {

const Thermal* thermal_of(const Part& part, const Catalogue& catalogue) {
  if (const auto d = catalogue.diodes.find(part.model); d != catalogue.diodes.end()) return &d->second.thermal;
  if (const auto p = catalogue.parts.find(part.model); p != catalogue.parts.end() && p->second.thermal) return &*p->second.thermal;
  if (const auto m = catalogue.modules.find(part.model); m != catalogue.modules.end() && m->second.thermal) return &*m->second.thermal;
  return nullptr;
}

}  // namespace

double heat_of(const Circuit& circuit, const Points& points, PartId part, const Solved& solved) {
  const auto p = static_cast<std::size_t>(part.v);
  double watts = 0;
  for (int i = 0; i < solved.phases; ++i) {
    const Phase& phase = solved.phase[static_cast<std::size_t>(i)];
    const auto volts = [&](int at) { return phase.volts[static_cast<std::size_t>(points.first[p] + at)]; };
    const std::vector<Element>& elements = circuit.parts[p].elements;
    for (std::size_t e = 0; e < elements.size(); ++e)
      watts += solved.weight(i) * (volts(elements[e].a) - volts(elements[e].b)) * phase.element_a[p][e];
  }
  return watts;
}

std::vector<PartHeat> find_heat(const Circuit& circuit, const Catalogue& catalogue, const States& states, const std::string& mounting,
                                double ambient_c) {
  const Points points = number_points(circuit);
  std::vector<PartHeat> out;
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const Thermal* thermal = thermal_of(circuit.parts[p], catalogue);
    if (thermal == nullptr) continue;
    PartHeat heat;
    heat.part = {static_cast<int>(p)};
    for (std::size_t s = 0; s < states.solved.size(); ++s) {
      const double watts = heat_of(circuit, points, heat.part, states.solved[s]);
      if (watts <= heat.watts) continue;
      heat.watts = watts;
      heat.scene = static_cast<int>(s);
    }
    heat.mounting = mounting;
    heat.celsius = ambient_c + heat.watts * thermal->k_per_w.at(mounting);
    heat.in_loom_c = ambient_c + heat.watts * thermal->k_per_w.at("in loom");
    heat.hottest_c = thermal->hottest_c;
    heat.thermal = thermal->provenance;
    out.push_back(std::move(heat));
  }
  return out;
}

std::string mounting_of(const Spec& spec, const Catalogue& catalogue) {
  std::string said = "on metal";
  if (const auto method = catalogue.methods.find(spec.isolation.method.value); method != catalogue.methods.end())
    for (const Choice& c : method->second.choices)
      if (c.key == "mounting") said = c.fallback;
  if (const auto choice = spec.isolation.choices.find("mounting"); choice != spec.isolation.choices.end()) said = choice->second.value;
  return std::find(mountings().begin(), mountings().end(), said) == mountings().end() ? "on metal" : said;
}

}  // namespace towloom
