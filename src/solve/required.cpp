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

// A lamp when the car drives alone: by what it is for.
Wave driven(const LampIntent& lamp, const Scene& scene) {
  const std::string& f = lamp.car_function;
  const Wave turn = scene.signal(lamp.side == Side::left ? "car.turn.left" : "car.turn.right");
  if (f == "stop-turn") return turn != Wave::off ? turn : scene.signal("car.pedal");
  if (f == "turn") return turn;
  if (f == "stop" || f == "chmsl") return scene.signal("car.pedal");
  if (f == "tail" || f == "plate") return scene.signal("car.lamps");
  if (f == "reverse") return scene.signal("car.reverse");
  return Wave::off;
}

bool shows_stop(const LampIntent& lamp) {
  return lamp.car_function == "stop-turn" || lamp.car_function == "stop" || lamp.car_function == "chmsl";
}

}  // namespace

std::vector<Seen> required_lamps(const Circuit& circuit, const Spec&, const Scene& scene) {
  std::vector<Seen> out;
  const bool coupled = scene.signal("coupled") != Wave::off;
  for (const LampIntent& lamp : circuit.lamps) {
    if (!coupled)
      out.push_back(seen(driven(lamp, scene)));
    else if (shows_stop(lamp) && scene.signal("car.pedal") != Wave::off)
      out.push_back(Seen::may);  // nobody presses the pedal of a towed car unless an auxiliary brake does
    else
      out.push_back(lamp.tow_signal.empty() ? Seen::dark : seen(scene.signal("coach." + lamp.tow_signal)));
  }
  return out;
}

}  // namespace towloom
