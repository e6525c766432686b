// The scenes worth solving, each with its reason.
#include "solve/solve.hpp"

namespace towloom {
namespace {

using Signals = std::map<std::string, Wave>;

void add(std::vector<Scene>& out, const char* kind, std::string name, std::string reason, Signals signals) {
  out.push_back({std::move(name), kind, std::move(reason), std::move(signals)});
}

// Combined signals: left and right together and steady are the stop signal.
void add_towing(std::vector<Scene>& out) {
  struct Row {
    const char* name;
    Wave left, right;
    const char* reason;
  };
  const Row rows[] = {
      {"left", Wave::flash, Wave::off, "left turn"},
      {"right", Wave::off, Wave::flash, "right turn"},
      {"stop", Wave::on, Wave::on, "brake: both sides steady"},
      {"stop + left", Wave::flash, Wave::on, "brake while turning left"},
      {"stop + right", Wave::on, Wave::flash, "brake while turning right"},
      {"hazard", Wave::flash, Wave::flash, "both sides flash together"},
  };
  add(out, "towing", "all off", "coupled and at rest", {{"coupled", Wave::on}});
  add(out, "towing", "tail", "tail alone", {{"coupled", Wave::on}, {"coach.tail", Wave::on}});
  for (const bool tail : {false, true})
    for (const Row& row : rows) {
      Signals s{{"coupled", Wave::on}, {"coach.left", row.left}, {"coach.right", row.right}};
      if (tail) s["coach.tail"] = Wave::on;
      add(out, "towing", tail ? "tail + " + std::string(row.name) : row.name,
          tail ? std::string(row.reason) + ", in the dark: a floating ground shows only with the tail lamps on" : row.reason, s);
    }
}

// The pedal moves in tow although nobody sits in the car: an auxiliary brake or a helper.
void add_pedal(std::vector<Scene>& out) {
  const char* why = "the car's own stop feed arrives at the same lamps";
  add(out, "towing", "pedal pressed", why, {{"coupled", Wave::on}, {"car.pedal", Wave::on}});
  add(out, "towing", "stop + left, pedal pressed", why,
      {{"coupled", Wave::on}, {"coach.left", Wave::flash}, {"coach.right", Wave::on}, {"car.pedal", Wave::on}});
}

void add_car_alone(std::vector<Scene>& out) {
  const Signals lamps{{"car.lamps", Wave::on}};
  const Signals left{{"car.turn.left", Wave::flash}}, right{{"car.turn.right", Wave::flash}};
  const auto with = [](Signals a, const Signals& b) {
    a.insert(b.begin(), b.end());
    return a;
  };
  const Signals pedal{{"car.pedal", Wave::on}};
  add(out, "car alone", "car: lamps", "driven in the dark", lamps);
  add(out, "car alone", "car: pedal", "driven, braking", pedal);
  add(out, "car alone", "car: left", "driven, turning left", left);
  add(out, "car alone", "car: right", "driven, turning right", right);
  add(out, "car alone", "car: hazard", "standing", with(left, right));
  add(out, "car alone", "car: pedal + left", "braking while turning", with(pedal, left));
  add(out, "car alone", "car: pedal + right", "braking while turning", with(pedal, right));
  add(out, "car alone", "car: lamps + pedal", "braking in the dark", with(lamps, pedal));
  add(out, "car alone", "car: lamps + left", "turning in the dark", with(lamps, left));
  add(out, "car alone", "car: lamps + right", "turning in the dark", with(lamps, right));
  add(out, "car alone", "car: reverse", "driven backwards", {{"car.reverse", Wave::on}});
}

void add_coach_alone(std::vector<Scene>& out) {
  add(out, "coach alone", "coach: tail", "the cord is out: the car stays dark", {{"coach.tail", Wave::on}});
  add(out, "coach alone", "coach: stop", "the cord is out: the car stays dark", {{"coach.left", Wave::on}, {"coach.right", Wave::on}});
}

}  // namespace

std::vector<Scene> list_scenes(const Circuit&, const Spec& spec) {
  std::vector<Scene> out;
  add_towing(out);
  // Stop lamps that are dead with the key out cannot disturb the tow.
  if (!spec.car.stop_lamps || spec.car.stop_lamps->value != "dead") add_pedal(out);
  add_car_alone(out);
  add_coach_alone(out);
  return out;
}

}  // namespace towloom
