#include "solve/protectors.hpp"

#include <algorithm>
#include <cmath>

namespace towloom {

std::vector<Protector> find_protectors(const Circuit& circuit, const Catalogue& catalogue) {
  const double factor = catalogue.rule("fuse_opens").value;
  std::vector<Protector> out;
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const Part& part = circuit.parts[p];
    const PartId id{static_cast<int>(p)};
    if (part.kind == "fuse") {
      const auto rating = parse_quantity(part.value, Unit::ampere);
      if (rating && !part.elements.empty()) out.push_back({id, 0, factor * *rating});
    } else if (part.kind == "breaker") {
      out.push_back({id, 0, factor * catalogue.parts.at(part.model).figures.at("rating")});
    } else if (const auto model = catalogue.parts.find(part.model); part.status == Status::factory && model != catalogue.parts.end() &&
               model->second.figures.count("limit") != 0 && part.kind == model->second.kind) {   // a controller shuts its own output
      out.push_back({id, 0, model->second.figures.at("limit")});
    } else if (part.kind == "coach-feed") {
      for (std::size_t e = 0; e < part.elements.size(); ++e)
        if (part.elements[e].law == Law::source)
          out.push_back({id, static_cast<int>(e), factor * catalogue.rule("coach_fuse_a").value});
    }
  }
  return out;
}

int find_overloaded(const std::vector<Protector>& protectors, const Phase& phase) {
  for (std::size_t i = 0; i < protectors.size(); ++i) {
    const Protector& p = protectors[i];
    if (std::fabs(phase.element_a[static_cast<std::size_t>(p.part.v)][static_cast<std::size_t>(p.element)]) >= p.opens_a) return static_cast<int>(i);
  }
  return -1;
}

Fault opened(const Protector& p) { return {"", "", {ElementBecomes{p.part, p.element, open_ohm}}}; }

Circuit after_fuses(Circuit faulty, const Catalogue& catalogue, const Scene& scene, const Solved& near) {
  const std::vector<Protector> protectors = find_protectors(faulty, catalogue);
  for (int round = 0; round < most_blown; ++round) {
    const Solved solved = solve(faulty, catalogue, scene, {}, {&near, nullptr});
    int over = -1;
    for (int p = 0; p < solved.phases; ++p)
      if (const int first = find_overloaded(protectors, solved.phase[static_cast<std::size_t>(p)]); first >= 0 && (over < 0 || first < over)) over = first;
    if (over < 0) break;
    faulty = with_fault(std::move(faulty), opened(protectors[static_cast<std::size_t>(over)]), catalogue);
  }
  return faulty;
}

double shorted_amps(const Circuit& circuit, const Catalogue& catalogue, const Fault& fault, const std::string& signal) {
  Scene scene;
  scene.signals = {{"coupled", Wave::on}, {"coach." + signal, Wave::on}};
  const Solved solved = solve(with_fault(circuit, fault, catalogue), catalogue, scene);
  if (!solved.converged()) return 0;
  double most = 0;
  for (const Protector& p : find_protectors(circuit, catalogue))
    if (circuit.part(p.part).kind == "coach-feed" && circuit.part(p.part).elements[static_cast<std::size_t>(p.element)].signal == "coach." + signal)
      most = std::max(most, std::fabs(solved.phase[0].element_a[static_cast<std::size_t>(p.part.v)][static_cast<std::size_t>(p.element)]));
  return most;
}

}  // namespace towloom
