// What each lamp must do, from survey and method alone: never from the circuit.
#include "solve/required.hpp"

#include <algorithm>

#include "solve/solve.hpp"

namespace towloom {
namespace {

Seen seen(Wave wave) {
  switch (wave) {
    case Wave::on: return Seen::lit;
    case Wave::flash: return Seen::flash;
    case Wave::counterflash: return Seen::counterflash;
    case Wave::off: break;
  }
  return Seen::dark;
}

bool shows_stop(const LampIntent& lamp) {
  return lamp.car_signal == "car.pedal" || lamp.car_signal == "car.tail-stop" || lamp.car_signal.rfind("car.stop-turn", 0) == 0;
}

// A known limit of the converter in this scene: hazard flashing that it cannot tell from a pumped brake.
bool uncertain(const Circuit& circuit, const LampIntent& lamp, const Scene& scene) {
  if (!lamp.converter) return false;
  const auto& logic = circuit.part(lamp.converter).logic;
  if (!logic) return false;
  std::vector<Wave> in;
  for (const std::string& input : logic->inputs) in.push_back(scene.signal("coach." + input));
  return answer(*logic, in).uncertain;
}

}  // namespace

Wave tow_wave(const LampIntent& lamp, const Scene& scene) {
  for (const std::string& driver : lamp.drivers)
    if (const Wave wave = scene.signal(driver); wave != Wave::off) return wave;
  return Wave::off;
}

bool engine_unsurveyed(const Spec& spec, const Scene& scene) {
  if (scene.signal("coupled") == Wave::off || scene.signal("driver.engine") != Wave::off) return false;
  return std::none_of(spec.coach.found.begin(), spec.coach.found.end(), [](const FoundContact& f) { return f.live.has_value(); });
}

std::vector<Seen> required_lamps(const Circuit& circuit, const Spec& spec, const Scene& scene) {
  std::vector<Seen> out;
  const bool coupled = scene.signal("coupled") != Wave::off;
  const bool pedal = scene.signal("car.pedal") != Wave::off;
  const bool pedal_in_tow = circuit.pedal_in_tow && scene.signal("driver.engine") != Wave::off;   // nobody brakes a coach that stands
  const bool unsurveyed = engine_unsurveyed(spec, scene);
  for (const LampIntent& lamp : circuit.lamps) {
    if (!coupled) {
      out.push_back(seen(scene.signal(lamp.car_signal)));
    } else if (unsurveyed) {
      out.push_back(Seen::may);
    } else if (pedal && shows_stop(lamp) && (!pedal_in_tow || lamp.tow_signal.empty())) {
      out.push_back(Seen::may);  // nobody presses the pedal of a towed car unless an auxiliary brake does
    } else if (lamp.tow_signal.empty()) {
      out.push_back(Seen::dark);
    } else {
      out.push_back(uncertain(circuit, lamp, scene) ? Seen::may : seen(tow_wave(lamp, scene)));
    }
  }
  return out;
}

}  // namespace towloom
