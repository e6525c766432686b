#include "solve/sound.hpp"

#include <algorithm>

namespace towloom {
namespace {

// An LED's switching driver takes less current at more volts: then nothing is known without solving.
bool rises_everywhere(const Circuit& circuit) {
  return std::none_of(circuit.parts.begin(), circuit.parts.end(), [](const Part& part) {
    return std::any_of(part.elements.begin(), part.elements.end(), [](const Element& e) { return e.law == Law::power; });
  });
}

}  // namespace

Sound::Sound(const Circuit& c, const Catalogue& k, const States& s)
    : circuit(c), catalogue(k), states(s), solver(c, k), protectors(find_protectors(c, k)), lamps(watched_lamps(c)), rules(k),
      dimmer_share(k.rule("dimmer_share").value) {
  const bool rises = rises_everywhere(circuit);
  for (std::size_t i = 0; i < states.scenes.size(); ++i) {
    SoundScene scene;
    scene.frame = solver.frame(states.scenes[i]);
    const auto waves = solver.read(states.scenes[i]);
    for (int p = 0; p < scene.frame.phases; ++p)
      scene.network[static_cast<std::size_t>(p)] = number(waves, scene.frame, p, states.solved[i].phase[static_cast<std::size_t>(p)]);
    if (solver.has_devices()) {
      std::vector<Solved> rounds;
      (void)solver.solve(states.scenes[i], {}, {&states.solved[i], &phases, nullptr, &rounds});
      for (const Solved& round : rounds)
        for (int p = 0; p < round.phases; ++p) {
          kept_.push_back(std::make_unique<Phase>(round.phase[static_cast<std::size_t>(p)]));
          scene.on_the_way.push_back(number(waves, scene.frame, p, *kept_.back()));
        }
    }
    scene.states = show(circuit, scene, [&](int p) -> const Look& { return networks[static_cast<std::size_t>(scene.network[static_cast<std::size_t>(p)])].look; });
    if (rises) find_slack(scene);
    scenes.push_back(std::move(scene));
  }
}

int Sound::number(const std::vector<Wave>& waves, const Solved& frame, int p, const Phase& phase) {
  auto key = solver.conducting(waves, p % frame.flash_phases(), phase.pulled, p < frame.flash_phases());
  for (const auto& devices : phase.pulled) key.insert(key.end(), devices.begin(), devices.end());   // equal networks may be other modes
  const auto [at, fresh] = known_.try_emplace(std::move(key), static_cast<int>(networks.size()));
  if (fresh)
    networks.push_back({&phase, look(circuit, phase), slack_of_devices(circuit, solver.points(), phase), slack_of_protectors(protectors, phase)});
  return at->second;
}

void Sound::find_slack(SoundScene& scene) const {
  const int flashes = scene.frame.flash_phases();
  scene.lamps.fill(endless_slack());
  for (std::size_t l = 0; l < lamps.size(); ++l) {
    const Element& lamp = circuit.part(lamps[l].part).elements[static_cast<std::size_t>(lamps[l].element)];
    const auto seen = [&](int p) -> const LampLook& { return networks[static_cast<std::size_t>(scene.network[static_cast<std::size_t>(p)])].look.lamps[l]; };
    for (int flash = 0; flash < flashes; ++flash) {
      double mean = 0;   // of its pulses
      for (int p = flash; p < scene.frame.phases; p += flashes) mean += seen(p).light * scene.frame.weight(p) * flashes;
      const double light = slack_of_light(lamp, mean, scene.states[l], dimmer_share, rules);
      for (int p = flash; p < scene.frame.phases; p += flashes) scene.lamps[static_cast<std::size_t>(p)].narrow(slack_of_lamp(lamp, seen(p), light, rules));
    }
  }
}

Look Sound::look(const Circuit& of, const Phase& phase) const {
  Look out{phase.converged, find_overloaded(protectors, phase), {}};
  for (const WatchedLamp& lamp : lamps) out.lamps.push_back(look_at(of, rules, solver.points(), lamp.part, phase, lamp.element));
  return out;
}

}  // namespace towloom
