// The scenes worth solving, each with its reason.
#include <algorithm>
#include <tuple>

#include "solve/required.hpp"
#include "solve/solve.hpp"

namespace towloom {
namespace {

using Signals = std::map<std::string, Wave>;

void put(Signals& signals, const SceneSignals& more) {
  for (const auto& [signal, word] : more) signals[signal] = to_wave(word);
}

Signals signals_of(const SceneRow& row, const std::map<std::string, SceneSignals>& words) {
  Signals out;
  for (const std::string& word : row.words) put(out, words.at(word));
  return out;
}

// All that a solution or a verdict of a scene can depend on.
using Asked = std::tuple<std::string, Signals, std::vector<Seen>>;

struct Lister {
  const Circuit& circuit;
  const Catalogue& catalogue;
  const Spec& spec;
  std::vector<Scene> scenes;
  std::map<Asked, std::size_t> known;

  Asked asked(const Scene& scene) const {
    Signals signals;
    for (const std::string& signal : circuit.signals)
      if (scene.signal(signal) != Wave::off) signals[signal] = scene.signal(signal);
    return {scene.kind, signals, required_lamps(circuit, spec, scene)};
  }
  void add(Scene scene) {
    set_outlet(circuit, catalogue, spec, scene);
    const auto [at, fresh] = known.try_emplace(asked(scene), scenes.size());
    if (fresh) scenes.push_back(std::move(scene));
    else scenes[at->second].also.push_back(std::move(scene.name));
  }
};

using Chosen = std::vector<const SceneState*>;

// Every choice of at most one state of each kind, the usual way first.
std::vector<Chosen> combine(const std::vector<const SceneState*>& states) {
  std::vector<Chosen> out = {{}};
  std::vector<std::string> kinds;
  for (const SceneState* s : states)
    if (std::find(kinds.begin(), kinds.end(), s->of) == kinds.end()) kinds.push_back(s->of);
  for (const std::string& kind : kinds) {
    const std::vector<Chosen> before = out;
    for (const SceneState* s : states)
      if (s->of == kind)
        for (Chosen chosen : before) {
          chosen.push_back(s);
          out.push_back(std::move(chosen));
        }
  }
  return out;
}

bool named(const Lister& l, const std::string& scene) {
  const auto& printed = l.catalogue.scenes.printed;
  return std::find(printed.begin(), printed.end(), scene) != printed.end();
}

Scene tow_scene(const Lister& l, const SceneRow& row, const Chosen& states) {
  Scene scene{row.name, "towing", row.why, signals_of(row, l.catalogue.scenes.coach_words)};
  put(scene.signals, l.catalogue.scenes.in_tow);
  if (l.spec.car.ignition && l.spec.car.ignition->value == "run") put(scene.signals, l.catalogue.scenes.driven);
  for (const SceneState* s : states) {
    put(scene.signals, s->set);
    scene.name = row.words.empty() && s == states.front() ? s->name : scene.name + ", " + s->name;
    scene.printed = named(l, scene.name);
    scene.reason += "; " + (l.circuit.pedal_in_tow && !s->why_with_brake.empty() ? s->why_with_brake : s->why);
  }
  return scene;
}

// A state that this car can be in, and to which something in the circuit reacts.
bool counts(const Lister& l, const SceneState& state) {
  if (!state.stop_lamps.empty()) {
    const std::string surveyed = l.spec.car.stop_lamps ? l.spec.car.stop_lamps->value : "live";
    return std::find(state.stop_lamps.begin(), state.stop_lamps.end(), surveyed) != state.stop_lamps.end();
  }
  const SceneRow idle;
  Scene usual = tow_scene(l, idle, {}), other = tow_scene(l, idle, {&state});
  set_outlet(l.circuit, l.catalogue, l.spec, usual);
  set_outlet(l.circuit, l.catalogue, l.spec, other);
  return std::get<Signals>(l.asked(usual)) != std::get<Signals>(l.asked(other));
}

// Words of lamps and contacts that the job has not say nothing new.
bool speaks(const Lister& l, const SceneRow& row, const std::map<std::string, SceneSignals>& words, const SceneSignals& usual) {
  return std::all_of(row.words.begin(), row.words.end(), [&](const std::string& word) {
    Scene with, without;
    put(with.signals, usual);
    put(without.signals, usual);
    put(with.signals, words.at(word));
    set_outlet(l.circuit, l.catalogue, l.spec, with);
    set_outlet(l.circuit, l.catalogue, l.spec, without);
    return l.asked(with) != l.asked(without);
  });
}

void add_towing(Lister& l) {
  const SceneTable& table = l.catalogue.scenes;
  std::vector<SceneRow> rows = table.towing;
  const bool logic = std::any_of(l.circuit.parts.begin(), l.circuit.parts.end(), [](const Part& p) { return p.logic.has_value(); });
  if (logic) rows.insert(rows.end(), table.towing_with_logic.begin(), table.towing_with_logic.end());
  std::vector<const SceneState*> states;
  for (const SceneState& s : table.states)
    if (counts(l, s)) states.push_back(&s);
  for (const Chosen& chosen : combine(states))
    for (const SceneRow& row : rows)
      if (speaks(l, row, table.coach_words, table.in_tow)) l.add(tow_scene(l, row, chosen));
}

void add_alone(Lister& l, const char* kind, const char* prefix, const std::vector<SceneRow>& rows,
               const std::map<std::string, SceneSignals>& words, const SceneSignals& usual) {
  for (const SceneRow& row : rows) {
    if (!speaks(l, row, words, usual)) continue;
    Scene scene{prefix + row.name, kind, row.why, signals_of(row, words)};
    put(scene.signals, usual);
    scene.printed = !usual.empty() || named(l, scene.name);   // the car's own are all printed
    l.add(std::move(scene));
  }
}

}  // namespace

Wave to_wave(const std::string& word) { return word == "on" ? Wave::on : word == "flash" ? Wave::flash : Wave::off; }

void set_outlet(const Circuit& circuit, const Catalogue& catalogue, const Spec& spec, Scene& scene) {
  const std::string coach = "coach.";
  for (const std::string& signal : circuit.signals) {
    if (signal.rfind(coach, 0) != 0) continue;
    const std::string name = signal.substr(coach.size());
    const ContactFunction& tow = catalogue.tow_signals.at(name);
    Wave wave = tow.with.value == "always" ? Wave::on : scene.signal("driver." + tow.with.value);
    if (wave == Wave::off && !tow.beside.empty() && spec.coach.signals.value == "combined") wave = scene.signal("driver." + tow.beside);
    for (const FoundContact& f : spec.coach.found)
      if (scene.signal("coupled") != Wave::off && f.live && f.live->value == "always" && f.does && f.does->value == name) wave = Wave::on;
    if (wave != Wave::off) scene.signals[signal] = wave;
  }
}

std::vector<Scene> list_scenes(const Circuit& circuit, const Catalogue& catalogue, const Spec& spec) {
  const SceneTable& table = catalogue.scenes;
  Lister l{circuit, catalogue, spec, {}, {}};
  add_towing(l);
  add_alone(l, "car alone", "car: ", table.car_alone, table.car_words, table.driven);
  add_alone(l, "coach alone", "coach: ", table.coach_alone, table.coach_words, {});
  return std::move(l.scenes);
}

}  // namespace towloom
