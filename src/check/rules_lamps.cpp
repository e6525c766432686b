// Rules about what lamps show, and what the coach's and the car's electronics see of them.
#include <algorithm>
#include <cmath>

#include "check/readings.hpp"
#include "solve/lamps.hpp"

namespace towloom {
namespace {

// What a lamp does in the same scene with the pedal up; nothing where that is not solved.
std::optional<Seen> seen_without_pedal(const Asked& q, Scene scene, std::size_t lamp) {
  scene.signals.erase("car.pedal");
  for (std::size_t t = 0; t < q.states.scenes.size(); ++t)
    if (q.states.scenes[t].kind == scene.kind && q.states.scenes[t].signals == scene.signals) return q.states.lamps[t][lamp].seen;
  return std::nullopt;
}

// One finding for each way in which a lamp differs: in scenes with the pedal pressed in tow, or in all others.
void say_different(const Asked& q, const RuleRow& row, Findings& out, bool pedal, const char* action) {
  for (std::size_t lamp = 0; lamp < q.circuit().lamps.size(); ++lamp) {
    struct Way {
      Seen seen, required;
      std::vector<std::string> scenes;
    };
    std::vector<Way> ways;   // in the order of the scenes
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      const Scene& scene = q.states.scenes[s];
      const Seen required = q.states.required[s][lamp], seen = q.states.lamps[s][lamp].seen;
      if (required == Seen::may || required == seen || (scene.kind == "towing" && is_on(scene, "car.pedal")) != pedal) continue;
      if (pedal && seen_without_pedal(q, scene, lamp) == seen) continue;   // wrong without the brake as well
      auto way = std::find_if(ways.begin(), ways.end(), [&](const Way& w) { return w.seen == seen && w.required == required; });
      if (way == ways.end()) way = ways.insert(ways.end(), {seen, required, {}});
      way->scenes.push_back(scene.name);
    }
    const Part& part = q.circuit().part(q.circuit().lamps[lamp].lamp);
    for (const Way& way : ways) {
      std::string scenes;
      for (std::size_t i = 0; i < way.scenes.size() && i < 3; ++i) scenes += (i > 0 ? "; " : "") + way.scenes[i];
      if (way.scenes.size() > 3) scenes += "; and " + std::to_string(way.scenes.size() - 3) + " more";
      add(out, row, part.origin.job,
          lamp_name(part) + " is " + to_text(way.seen) + " where it must be " + to_text(way.required) + " in: " + scenes, action, {part.id});
    }
  }
}

}  // namespace

void lamp_differs(const Asked& q, const RuleRow& row, Findings& out) {
  say_different(q, row, out, false, "compare the node, the cut and the method of this lamp with the schematic");
}

void brake_conflict(const Asked& q, const RuleRow& row, Findings& out) {
  say_different(q, row, out, true,
                "part the car's stop feed while it is towed: add stop-lamp cut-off; or take change-over relays or lamps of their own");
}

void signal_lost(const Asked& q, const RuleRow& row, Findings& out) {
  for (const char* driver : {"driver.left", "driver.right", "driver.stop", "driver.tail"}) {
    const auto scene = std::find_if(q.states.scenes.begin(), q.states.scenes.end(), [&](const Scene& s) { return only(s, driver); });
    // A scene that changes nothing at all was not solved: then nothing listens to this signal.
    const auto at = static_cast<std::size_t>(scene - q.states.scenes.begin());
    if (scene != q.states.scenes.end() && std::any_of(q.states.lamps[at].begin(), q.states.lamps[at].end(), [](const LampState& l) { return gives_light(l.seen); })) continue;
    add(out, row, q.spec.isolation.place, "no lamp of the car shows the coach's " + std::string(driver).substr(7) + " signal",
        "test the outlet again; lamps that show stop and turn in one want combined signals, or a converter before them");
  }
}

void lamp_colour(const Asked& q, const RuleRow& row, Findings& out) {
  for (std::size_t l = 0; l < q.circuit().lamps.size(); ++l) {
    const LampRow* survey = survey_row(q, q.circuit().lamps[l]);
    if (survey == nullptr || survey->lens != "amber") continue;
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      if (!only(q.states.scenes[s], "driver.stop") || !gives_light(q.states.lamps[s][l].seen)) continue;
      const Part& part = q.circuit().part(q.circuit().lamps[l].lamp);
      add(out, row, part.origin.job, lamp_name(part) + " shows the coach's stop signal in amber",
          "feed the red stop lamp and leave the amber dark, or put a converter between", {part.id});
      break;
    }
  }
}

// The same scene with and without the pedal stands for the car's stop lamps awake and asleep.
void stop_asleep(const Asked& q, const RuleRow& row, Findings& out) {
  if (!q.spec.car.stop_lamps || q.spec.car.stop_lamps->value != "asleep") return;
  std::string names;
  for (std::size_t l = 0; l < q.circuit().lamps.size(); ++l) {
    bool differs = false;
    for (std::size_t s = 0; s < q.states.scenes.size() && !differs; ++s) {
      Scene asleep = q.states.scenes[s];
      if (!on_the_road(asleep) || asleep.signals.erase("car.pedal") == 0) continue;
      for (std::size_t t = 0; t < q.states.scenes.size(); ++t)
        if (q.states.scenes[t].kind == "towing" && q.states.scenes[t].signals == asleep.signals)
          differs = differs || q.states.lamps[t][l].seen != q.states.lamps[s][l].seen;
    }
    if (differs) names += (names.empty() ? "" : ", ") + lamp_name(q.circuit().part(q.circuit().lamps[l].lamp));
  }
  if (!names.empty())
    add(out, row, q.spec.car.stop_lamps->place, "with the pedal pressed these lamps do one thing while the car is awake, another once it sleeps: " + names,
        "test brake and turn together at once and again when the car has gone to sleep; wait five minutes at least");
}

void converter_limit(const Asked& q, const RuleRow& row, Findings& out) {
  for (const Part& part : q.circuit().parts) {
    const auto model = q.catalogue.modules.find(part.model);
    if (part.kind != "module" || model == q.catalogue.modules.end()) continue;
    for (const std::string& limit : model->second.limits)
      add(out, row, part.origin.job, part.id + ", " + model->second.title + ": " + limit, "say so on the customer's sheet", {part.id});
  }
}

// What the car's own check of its lamps sees: the same lamp with the isolating part bridged.
void monitor_current(const Asked& q, const RuleRow& row, Findings& out) {
  if (q.spec.car.monitoring.value != "on-current") return;
  const double limit = q.catalogue.rule("monitor_change").value;
  double worst = 0;
  std::string message;
  Place place;
  std::vector<std::string> about;
  const Points points = number_points(q.circuit());
  for (std::size_t l = 0; l < q.circuit().lamps.size(); ++l) {
    const PartId lamp = q.circuit().lamps[l].lamp;
    const Part& part = q.circuit().part(lamp);
    const auto cut = std::find_if(q.circuit().cuts.begin(), q.circuit().cuts.end(),
                                  [&](const CutPoint& c) { return c.lamp_side && c.origin.job == part.origin.job; });
    if (cut == q.circuit().cuts.end()) continue;
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      if (q.states.scenes[s].kind != "car alone" || !gives_light(q.states.required[s][l])) continue;
      const TerminalRef car_side = q.circuit().wires[static_cast<std::size_t>(cut->car_side.v)].to;
      const Circuit bridged = with_fault(q.circuit(), {"", "", {Bridge{car_side, {lamp, 0}, 0.001}}}, q.catalogue);
      const double with = q.states.lamps[s][l].amps;
      const double without = lamp_state(bridged, q.catalogue, points, lamp, solve(bridged, q.catalogue, q.states.scenes[s]), 0).amps;
      if (without > 0 && std::fabs(with / without - 1) > worst) {
        worst = std::fabs(with / without - 1);
        place = part.origin.job;
        about = {part.id};
        message = "the car sees " + format_fixed(with, 2) + " A at " + lamp_name(part) + " where it saw " + format_fixed(without, 2) + " A before (" +
                  format_fixed(100 * worst, 0) + " % less)";
      }
      break;
    }
  }
  if (worst > limit)
    add(out, row, place, message, "watch for a lamp-out message over two key cycles; relays or field-effect parts change next to nothing", std::move(about));
}

void output_loaded(const Asked& q, const RuleRow& row, Findings& out) {
  const double limit = q.catalogue.rule("output_extra_a").value;
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    const Part& part = q.circuit().parts[p];
    if (part.kind != "controller-output" && part.kind != "pulsed-output") continue;
    double most = 0;
    std::string at;
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      if (q.states.scenes[s].kind != "car alone") continue;
      double own = 0;
      for (std::size_t l = 0; l < q.circuit().lamps.size(); ++l)
        if (const LampRow* survey = survey_row(q, q.circuit().lamps[l]); survey != nullptr && !survey->added && survey->node.value == part.id)
          own += q.states.lamps[s][l].amps;
      const double extra = amps_of(q.states.solved[s], {static_cast<int>(p)}, 0).most - own;
      if (extra <= most) continue;
      most = extra;
      at = q.states.scenes[s].name;
    }
    if (most > limit)
      add(out, row, q.spec.isolation.place, "the car's output " + part.id + " feeds " + format_fixed(most, 2) + " A beside its own lamps in scene '" + at + "'",
          "take that load off the output: a lamp of its own wire, or a module fed from the battery", {part.id});
  }
}

void not_detected(const Asked& q, const RuleRow& row, Findings& out) {
  if (!q.spec.coach.detection || q.spec.coach.detection->value == "none") return;
  const double least = q.catalogue.rule("detected_a").value;
  std::string list;
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    const Part& part = q.circuit().parts[p];
    // It looks at stop and turn lamps: those whose own lamp on the coach is a bright one.
    if (part.kind != "contact" || part.zone != Zone::inlet || q.catalogue.tow_signals.at(part.function).own != "bright") continue;
    const TerminalRef car = q.circuit().terminal(part.id + ".car");
    const auto& wires = q.circuit().wires;
    if (std::none_of(wires.begin(), wires.end(), [&](const Wire& w) { return w.from == car || w.to == car; })) continue;   // nothing of the car hangs on it
    double most = -1;
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s)
      if (q.states.scenes[s].kind == "towing" && is_on(q.states.scenes[s], ("coach." + part.function).c_str()))
        most = std::max(most, amps_of(q.states.solved[s], {static_cast<int>(p)}, 0).most);
    if (most >= 0 && most < least) list += (list.empty() ? "" : ", ") + part.function + " " + format_fixed(1000 * most, 0) + " mA";
  }
  if (!list.empty())
    add(out, row, q.spec.coach.detection->place, "the coach looks for a load, and these contacts draw little: " + list +
            (q.catalogue.rule("detected_a").provenance.weak() ? " (least load from memory)" : ""),
        "add: detection load; LED lamps may tick or stay dark on a coach that finds no load");
}

}  // namespace towloom
