#include "solve/backfeed.hpp"

#include <cmath>

namespace towloom {
namespace {

// The highest reading over the flash phases.
double reading(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene, TerminalRef at, double ohm, const Solved& without) {
  const Solved solved = solve(circuit, catalogue, scene, {{at, TerminalRef{}, ohm}}, {&without, nullptr});
  const int point = number_points(circuit).at(at);
  double highest = 0;
  for (int p = 0; p < solved.phases; ++p) {
    const double volts = solved.phase[static_cast<std::size_t>(p)].volts[static_cast<std::size_t>(point)];
    if (std::fabs(volts) > std::fabs(highest)) highest = volts;
  }
  return highest;
}

bool drives(const Scene& scene, const char* vehicle) {
  for (const auto& [signal, wave] : scene.signals)
    if (signal.rfind(vehicle, 0) == 0 && wave != Wave::off) return true;
  return false;
}

}  // namespace

void probe_backfeed(const Circuit& circuit, const Catalogue& catalogue, States& states) {
  const double meter = catalogue.rule("meter_ohm").value, loaded = catalogue.rule("probe_ohm").value;
  for (std::size_t s = 0; s < states.scenes.size(); ++s) {
    const Scene& scene = states.scenes[s];
    const bool car = drives(scene, "car."), coach = drives(scene, "coach.");
    const bool coupled = scene.signal("coupled") != Wave::off;
    for (std::size_t p = 0; p < circuit.probes.size(); ++p) {
      const BackfeedProbe& probe = circuit.probes[p];
      const bool asked = probe.towards == BackfeedProbe::Towards::coach ? car && !coach && !coupled : coach && !car && coupled;
      if (!asked) continue;
      states.backfeed.push_back({static_cast<int>(s), static_cast<int>(p), reading(circuit, catalogue, scene, probe.at, meter, states.solved[s]),
                                 reading(circuit, catalogue, scene, probe.at, loaded, states.solved[s])});
    }
  }
}

}  // namespace towloom
