// The scenes worth solving, each with its reason.
#include <algorithm>
#include <set>

#include "solve/required.hpp"
#include "solve/solve.hpp"

namespace towloom {
namespace {

using Signals = std::map<std::string, Wave>;

struct Lister {
  const Circuit& circuit;
  const Spec& spec;
  std::vector<Scene> scenes;

  bool asks(const std::string& signal) const {
    return std::find(circuit.signals.begin(), circuit.signals.end(), signal) != circuit.signals.end();
  }
  void add(const char* kind, std::string name, std::string reason, Signals signals) {
    scenes.push_back({std::move(name), kind, std::move(reason), std::move(signals)});
  }
  void tow(const std::string& name, std::string reason, Signals driver);
  void coach_alone(const std::string& name, Signals driver);
};

// What the outlet carries when the coach's driver does this; supplies are live while the engine runs.
void set_outlet(const Lister& l, Scene& scene) {
  for (const std::string& signal : l.circuit.signals) {
    if (signal.rfind("coach.", 0) != 0) continue;
    const std::string name = signal.substr(6);
    const auto with = l.circuit.driver_of.find(name);
    const std::string& driver = with == l.circuit.driver_of.end() ? name : with->second;
    const Wave wave = driver == "always" ? Wave::on : tow_wave(driver, l.spec.coach.signals.value, scene);
    if (wave != Wave::off) scene.signals[signal] = wave;
  }
}

void Lister::tow(const std::string& name, std::string reason, Signals driver) {
  Scene scene{name, "towing", std::move(reason), std::move(driver)};
  set_outlet(*this, scene);
  scene.signals["coupled"] = Wave::on;
  scene.signals["towed"] = Wave::on;
  if (spec.car.ignition && spec.car.ignition->value == "run") scene.signals["car.ignition"] = Wave::on;
  scenes.push_back(std::move(scene));
}

void Lister::coach_alone(const std::string& name, Signals driver) {
  Scene scene{name, "coach alone", "the cord is out: the car stays dark", std::move(driver)};
  set_outlet(*this, scene);
  scenes.push_back(std::move(scene));
}

Signals with(Signals a, const Signals& b) {
  for (const auto& [signal, wave] : b) a[signal] = wave;
  return a;
}

const Signals stop{{"driver.stop", Wave::on}}, left{{"driver.left", Wave::flash}}, right{{"driver.right", Wave::flash}},
    tail{{"driver.tail", Wave::on}}, pedal{{"car.pedal", Wave::on}};

void add_towing(Lister& l) {
  struct Row {
    const char* name;
    Signals driver;
    const char* reason;
  };
  const Row rows[] = {
      {"left", left, "left turn"},
      {"right", right, "right turn"},
      {"stop", stop, "brake: both sides steady"},
      {"stop + left", with(stop, left), "brake while turning left"},
      {"stop + right", with(stop, right), "brake while turning right"},
      {"hazard", with(left, right), "both sides flash together"},
  };
  l.tow("all off", "coupled and at rest", {});
  l.tow("tail", "tail alone", tail);
  for (const bool dark : {false, true})
    for (const Row& row : rows)
      l.tow(dark ? "tail + " + std::string(row.name) : row.name,
            dark ? std::string(row.reason) + ", in the dark: a floating ground shows only with the tail lamps on" : row.reason,
            dark ? with(row.driver, tail) : row.driver);
  // On combined wires braking hides behind both sides flashing.
  if (l.spec.coach.signals.value == "separate") l.tow("stop + hazard", "brake while both sides flash", with(stop, with(left, right)));
  for (const char* signal : {"reverse", "fog"})
    if (l.asks(std::string("coach.") + signal)) l.tow(signal, std::string(signal) + " alone", {{std::string("driver.") + signal, Wave::on}});
}

// The pedal moves in tow although nobody sits in the car: an auxiliary brake or a helper.
void add_pedal(Lister& l) {
  const char* why = "the car's own stop feed arrives at the same lamps";
  l.tow("pedal pressed", why, pedal);
  l.tow("stop + left, pedal pressed", why, with(with(stop, left), pedal));
  if (!l.circuit.pedal_in_tow) return;
  const char* brake = "the auxiliary brake presses the pedal with the coach's brake";
  l.tow("stop, pedal pressed", brake, with(stop, pedal));
  l.tow("stop + right, pedal pressed", brake, with(with(stop, right), pedal));
}

void add_car_alone(Lister& l) {
  const Signals key{{"car.ignition", Wave::on}};
  const Signals lamps{{"car.lamps", Wave::on}}, turn_left{{"car.turn.left", Wave::flash}}, turn_right{{"car.turn.right", Wave::flash}};
  const auto add = [&](const char* name, const char* reason, const Signals& signals) { l.add("car alone", name, reason, with(signals, key)); };
  add("car: lamps", "driven in the dark", lamps);
  add("car: pedal", "driven, braking", pedal);
  add("car: left", "driven, turning left", turn_left);
  add("car: right", "driven, turning right", turn_right);
  add("car: hazard", "standing", with(turn_left, turn_right));
  add("car: pedal + left", "braking while turning", with(pedal, turn_left));
  add("car: pedal + right", "braking while turning", with(pedal, turn_right));
  add("car: lamps + pedal", "braking in the dark", with(lamps, pedal));
  add("car: lamps + left", "turning in the dark", with(lamps, turn_left));
  add("car: lamps + right", "turning in the dark", with(lamps, turn_right));
  for (const char* signal : {"reverse", "fog"})
    if (l.asks(std::string("car.") + signal))
      add(signal == std::string("reverse") ? "car: reverse" : "car: fog", "driven", {{std::string("car.") + signal, Wave::on}});
}

// One scene stands for all with the same signals that the circuit asks for.
void drop_twins(Lister& l) {
  std::set<std::pair<std::string, Signals>> seen;
  const auto twin = [&](const Scene& scene) {
    Signals asked;
    for (const std::string& signal : l.circuit.signals)
      if (scene.signal(signal) != Wave::off) asked[signal] = scene.signal(signal);
    return !seen.emplace(scene.kind, asked).second;
  };
  l.scenes.erase(std::remove_if(l.scenes.begin(), l.scenes.end(), twin), l.scenes.end());
}

}  // namespace

std::vector<Scene> list_scenes(const Circuit& circuit, const Spec& spec) {
  Lister l{circuit, spec, {}};
  add_towing(l);
  // Stop lamps that are dead with the key out cannot disturb the tow.
  if (!spec.car.stop_lamps || spec.car.stop_lamps->value != "dead") add_pedal(l);
  add_car_alone(l);
  l.coach_alone("coach: tail", tail);
  l.coach_alone("coach: stop", stop);
  drop_twins(l);
  return std::move(l.scenes);
}

}  // namespace towloom
