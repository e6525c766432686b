#include "solve/backfeed.hpp"

#include <cmath>

#include "solve/faults.hpp"
#include "solve/lamps.hpp"
#include "solve/meter.hpp"

namespace towloom {
namespace {

// The highest volts over the flash phases; of pulses their top.
double reading(const Solver& solver, const Catalogue& catalogue, const Scene& scene, TerminalRef at, const char* instrument,
               const Known& known) {
  const Attached attached = attach(catalogue.instruments.at(instrument), catalogue, at, TerminalRef{});
  double highest = 0;
  for (const Reading& r : read_between(solver, scene, attached, known))
    if (std::fabs(r.pulse_v) > std::fabs(highest)) highest = r.pulse_v;
  return highest;
}

// What pulls an output up to look for its lamp while it is off: the car's own volts, no back-feed.
Circuit without_lamp_check(Circuit circuit, const Catalogue& catalogue) {
  for (Part& part : circuit.parts) {
    const auto model = catalogue.parts.find(part.model);
    if (model == catalogue.parts.end() || model->second.kind != part.kind || model->second.figures.count("check") == 0) continue;
    for (Element& e : part.elements)
      if (e.gate == Gate::idle) e.ohm = open_ohm;
  }
  return circuit;
}

bool drives(const Scene& scene, const char* vehicle) {
  for (const auto& [signal, wave] : scene.signals)
    if (signal.rfind(vehicle, 0) == 0 && wave != Wave::off) return true;
  return false;
}

}  // namespace

Circuit with_hot_diodes(Circuit circuit, const Catalogue& catalogue) {
  for (Part& part : circuit.parts)
    for (Element& e : part.elements)
      if (e.law == Law::diode) e.celsius = catalogue.rule("hot_diode_c").value;
  return circuit;
}

void solve_hot(const Circuit& circuit, const Catalogue& catalogue, States& states) {
  const Circuit hot = with_hot_diodes(circuit, catalogue);
  const Solver solver(hot, catalogue);
  std::map<std::vector<char>, Phase> phases;
  for (std::size_t s = 0; s < states.scenes.size(); ++s) {
    const Solved solved = solver.solve(states.scenes[s], {}, {&states.solved[s], &phases});
    std::vector<Seen> row;
    for (const LampIntent& lamp : circuit.lamps) row.push_back(lamp_state(hot, catalogue, solver.points(), lamp.lamp, solved).seen);
    states.hot.push_back(std::move(row));
  }
}

void probe_backfeed(const Circuit& circuit, const Catalogue& catalogue, States& states) {
  const Circuit cold = without_lamp_check(circuit, catalogue), hot_circuit = with_hot_diodes(cold, catalogue);
  const Solver solver(cold, catalogue), hot(hot_circuit, catalogue);
  using Phases = std::map<std::vector<char>, Phase>;
  std::vector<std::array<Phases, 3>> known(circuit.probes.size());   // scenes share networks
  for (std::size_t s = 0; s < states.scenes.size(); ++s) {
    const Scene& scene = states.scenes[s];
    const bool car = drives(scene, "car."), coach = drives(scene, "coach.");
    const bool coupled = scene.signal("coupled") != Wave::off;
    for (std::size_t p = 0; p < circuit.probes.size(); ++p) {
      const BackfeedProbe& probe = circuit.probes[p];
      const bool asked = probe.towards == BackfeedProbe::Towards::coach ? car && !coach && !coupled : coach && !car && coupled;
      if (!asked) continue;
      const auto read = [&](const Solver& with, const char* instrument, Phases& phases) {
        return reading(with, catalogue, scene, probe.at, instrument, {&states.solved[s], &phases});
      };
      auto& mine = known[p];
      states.backfeed.push_back({static_cast<int>(s), static_cast<int>(p), read(solver, "meter", mine[0]), read(solver, "meter-1k", mine[1]),
                                 read(hot, "meter-1k", mine[2])});
    }
  }
}

}  // namespace towloom
