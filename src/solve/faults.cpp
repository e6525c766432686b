#include "solve/faults.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "solve/lamps.hpp"
#include "solve/network.hpp"

namespace towloom {
namespace {

constexpr int most_blown = 8;   // rounds of opening fuses in one scene

// What opens when it carries too much: a fuse, or a coach feed by the fuse behind it.
struct Protector {
  PartId part;
  int element = 0;
  double opens_a = 0;
};

std::vector<Protector> find_protectors(const Circuit& circuit, const Catalogue& catalogue) {
  const double factor = catalogue.rule("fuse_opens").value;
  std::vector<Protector> out;
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const Part& part = circuit.parts[p];
    const PartId id{static_cast<int>(p)};
    if (part.kind == "fuse") {
      const auto rating = parse_quantity(part.value, Unit::ampere);
      if (rating && !part.elements.empty()) out.push_back({id, 0, factor * *rating});
    } else if (part.kind == "breaker") {
      out.push_back({id, 0, factor * catalogue.parts.at(part.model).figures.at("rating")});
    } else if (part.kind == "coach-feed") {
      for (std::size_t e = 0; e < part.elements.size(); ++e)
        if (part.elements[e].law == Law::source)
          out.push_back({id, static_cast<int>(e), factor * catalogue.rule("coach_fuse_a").value});
    }
  }
  return out;
}

const Protector* overloaded(const std::vector<Protector>& protectors, const Solved& solved) {
  for (const Protector& p : protectors)
    for (int phase = 0; phase < solved.phases; ++phase) {
      const double amps = solved.phase[static_cast<std::size_t>(phase)].element_a[static_cast<std::size_t>(p.part.v)][static_cast<std::size_t>(p.element)];
      if (std::fabs(amps) >= p.opens_a) return &p;
    }
  return nullptr;
}

// Opens one after the other what carries too much; `solved` is then the solution with them open.
void open_fuses(Circuit& circuit, const Catalogue& catalogue, const std::vector<Protector>& protectors, const Scene& scene, const Solved& near,
                Solved& solved, std::vector<PartId>& blown) {
  const Protector* over = overloaded(protectors, solved);
  for (int round = 0; over != nullptr && round < most_blown; ++round) {
    circuit = with_fault(std::move(circuit), {"", "", {ElementBecomes{over->part, over->element, open_ohm}}}, catalogue);
    if (std::find(blown.begin(), blown.end(), over->part) == blown.end()) blown.push_back(over->part);
    solved = solve(circuit, catalogue, scene, {}, {&near, nullptr});
    over = overloaded(protectors, solved);
  }
}

bool gives_light(Seen seen) { return seen == Seen::lit || seen == Seen::flash || seen == Seen::counterflash; }

using Phases = std::map<std::vector<char>, Phase>;

struct Run {
  const Circuit& sound;
  const Catalogue& catalogue;
  const States& states;
  const Points points;
  const std::vector<Protector> protectors;
  const std::vector<WatchedLamp> lamps;
  const double dimmer_share;
  std::vector<std::vector<LampState>> before;   // [scene][lamp]

  // `circuit` is the one that was solved: a burnt-out lamp gives no light whatever its volts.
  std::vector<LampState> look(const Circuit& circuit, const Solved& solved) const {
    std::vector<LampState> out;
    for (const WatchedLamp& lamp : lamps) out.push_back(lamp_state(circuit, catalogue, points, lamp.part, solved, lamp.element));
    return out;
  }

  void compare(int scene, const Circuit& faulty, const Solved& solved, FaultRow& row) const {
    const std::vector<LampState> now = look(faulty, solved);
    const std::vector<LampState>& was = before[static_cast<std::size_t>(scene)];
    for (std::size_t l = 0; l < lamps.size(); ++l) {
      Symptom s{scene, static_cast<int>(l), now[l].seen, LightChange::none};
      if (now[l].seen == was[l].seen && gives_light(now[l].seen)) {
        if (now[l].light < dimmer_share * was[l].light) s.light = LightChange::dimmer;
        if (now[l].light * dimmer_share > was[l].light) s.light = LightChange::brighter;
      }
      if (now[l].seen != was[l].seen || s.light != LightChange::none) row.symptoms.push_back(s);
    }
  }

  // Phases of a scene that the fault leaves alone are known from the sound circuit. True when all are.
  bool keep_alone(int scene, const Fault& fault, const Circuit& faulty, Phases& phases) const {
    const Solved& solved = states.solved[static_cast<std::size_t>(scene)];
    bool all = true;
    for (int p = 0; p < solved.phases; ++p) {
      const Phase& phase = solved.phase[static_cast<std::size_t>(p)];
      if (!leaves_alone(sound, points, fault, phase)) {
        all = false;
        continue;
      }
      const auto key = conducting(faulty, states.scenes[static_cast<std::size_t>(scene)], p % solved.flash_phases(), phase.pulled,
                                  p < solved.flash_phases());
      phases.try_emplace(key, phase).first->second.wire_a.resize(faulty.wires.size(), 0);
    }
    return all;
  }

  void solve_scene(int scene, const Circuit& faulty, Phases& phases, FaultRow& row) const {
    const Scene& asked = states.scenes[static_cast<std::size_t>(scene)];
    const Solved* near = &states.solved[static_cast<std::size_t>(scene)];
    Solved solved = solve(faulty, catalogue, asked, {}, {near, &phases});
    if (overloaded(protectors, solved) != nullptr) {
      Circuit blown = faulty;
      open_fuses(blown, catalogue, protectors, asked, *near, solved, row.blown);
    }
    if (!solved.converged() || !solved.chatter.empty()) ++row.unsolved;
    compare(scene, faulty, solved, row);
  }
};

// Rows that show the same everywhere.
std::vector<FaultClass> classify(const std::vector<FaultRow>& rows) {
  std::vector<FaultClass> out;
  std::map<std::vector<Symptom>, std::size_t> known;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const auto [at, fresh] = known.try_emplace(rows[r].symptoms, out.size());
    if (fresh) out.push_back({rows[r].symptoms, {}});
    out[at->second].faults.push_back(static_cast<int>(r));
  }
  return out;
}

}  // namespace

std::vector<WatchedLamp> watched_lamps(const Circuit& circuit) {
  std::vector<WatchedLamp> out;
  for (const LampIntent& lamp : circuit.lamps) out.push_back({lamp.lamp, 0});
  for (std::size_t p = 0; p < circuit.parts.size(); ++p)
    for (std::size_t e = 0; e < circuit.parts[p].elements.size(); ++e)
      if (circuit.parts[p].kind != "lamp" && circuit.parts[p].elements[e].law == Law::filament)
        out.push_back({{static_cast<int>(p)}, static_cast<int>(e)});
  return out;
}

Circuit after_fuses(Circuit faulty, const Catalogue& catalogue, const Scene& scene, const Solved& near) {
  Solved solved = solve(faulty, catalogue, scene, {}, {&near, nullptr});
  std::vector<PartId> blown;
  const std::vector<Protector> protectors = find_protectors(faulty, catalogue);
  open_fuses(faulty, catalogue, protectors, scene, near, solved, blown);
  return faulty;
}

double shorted_amps(const Circuit& circuit, const Catalogue& catalogue, const Fault& fault, const std::string& signal) {
  Scene scene;
  scene.signals = {{"coupled", Wave::on}, {"coach." + signal, Wave::on}};
  const Solved solved = solve(with_fault(circuit, fault, catalogue), catalogue, scene);
  if (!solved.converged()) return 0;
  double most = 0;
  for (const Protector& p : find_protectors(circuit, catalogue))
    if (circuit.part(p.part).kind == "coach-feed" && circuit.part(p.part).elements[static_cast<std::size_t>(p.element)].signal == "coach." + signal)
      most = std::max(most, std::fabs(solved.phase[0].element_a[static_cast<std::size_t>(p.part.v)][static_cast<std::size_t>(p.element)]));
  return most;
}

FaultTable solve_faults(const Circuit& circuit, const Catalogue& catalogue, const States& states, std::vector<Fault> faults, bool skip) {
  Run run{circuit, catalogue, states, number_points(circuit), find_protectors(circuit, catalogue), watched_lamps(circuit),
          catalogue.rule("dimmer_share").value, {}};
  for (const Solved& solved : states.solved) run.before.push_back(run.look(circuit, solved));
  FaultTable out;
  for (Fault& fault : faults) {
    const Circuit faulty = with_fault(circuit, fault, catalogue);
    FaultRow row;
    Phases phases;
    for (int s = 0; s < static_cast<int>(states.scenes.size()); ++s) {
      if (skip && run.keep_alone(s, fault, faulty, phases)) {
        ++out.skipped;
        continue;
      }
      ++out.solved;
      run.solve_scene(s, faulty, phases, row);
    }
    row.fault = std::move(fault);
    out.rows.push_back(std::move(row));
  }
  out.classes = classify(out.rows);
  return out;
}

}  // namespace towloom
