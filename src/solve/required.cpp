// What each lamp must do, from survey and method alone: never from the circuit.
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
  return lamp.car_signal == "car.pedal" || lamp.car_signal.rfind("car.stop-turn", 0) == 0;
}

}  // namespace

std::vector<Seen> required_lamps(const Circuit& circuit, const Spec&, const Scene& scene) {
  std::vector<Seen> out;
  const bool coupled = scene.signal("coupled") != Wave::off;
  for (const LampIntent& lamp : circuit.lamps) {
    if (!coupled)
      out.push_back(seen(scene.signal(lamp.car_signal)));
    else if (shows_stop(lamp) && scene.signal("car.pedal") != Wave::off)
      out.push_back(Seen::may);  // nobody presses the pedal of a towed car unless an auxiliary brake does
    else
      out.push_back(lamp.tow_signal.empty() ? Seen::dark : seen(scene.signal("coach." + lamp.tow_signal)));
  }
  return out;
}

}  // namespace towloom
