#include "solve/backfeed.hpp"

#include <cmath>

#include "solve/meter.hpp"

namespace towloom {
namespace {

// The highest reading over the flash phases.
double reading(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene, TerminalRef at, const char* instrument,
               const Solved& without) {
  const Attached attached = attach(catalogue.instruments.at(instrument), catalogue, at, TerminalRef{});
  double highest = 0;
  for (const Reading& r : read_between(circuit, catalogue, scene, attached, {&without, nullptr}))
    if (std::fabs(r.volts) > std::fabs(highest)) highest = r.volts;
  return highest;
}

bool drives(const Scene& scene, const char* vehicle) {
  for (const auto& [signal, wave] : scene.signals)
    if (signal.rfind(vehicle, 0) == 0 && wave != Wave::off) return true;
  return false;
}

}  // namespace

void probe_backfeed(const Circuit& circuit, const Catalogue& catalogue, States& states) {
  for (std::size_t s = 0; s < states.scenes.size(); ++s) {
    const Scene& scene = states.scenes[s];
    const bool car = drives(scene, "car."), coach = drives(scene, "coach.");
    const bool coupled = scene.signal("coupled") != Wave::off;
    for (std::size_t p = 0; p < circuit.probes.size(); ++p) {
      const BackfeedProbe& probe = circuit.probes[p];
      const bool asked = probe.towards == BackfeedProbe::Towards::coach ? car && !coach && !coupled : coach && !car && coupled;
      if (!asked) continue;
      states.backfeed.push_back({static_cast<int>(s), static_cast<int>(p), reading(circuit, catalogue, scene, probe.at, "meter", states.solved[s]),
                                 reading(circuit, catalogue, scene, probe.at, "meter-1k", states.solved[s])});
    }
  }
}

}  // namespace towloom
