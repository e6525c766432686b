// What the table of faults must say, found the long way: the circuit itself is changed, every scene is solved by
// itself from 0 V, with its own fuses. The table guesses, and shares networks between scenes and faults.
#pragma once

#include <random>

#include "check/fixture.hpp"
#include "solve/faults.hpp"
#include "solve/lamps.hpp"

namespace towloom::fixture {

struct SceneByScene {
  const Circuit& circuit;
  const Catalogue& catalogue;
  const States& states;
  const std::vector<WatchedLamp> lamps = watched_lamps(circuit);
  const Points points = number_points(circuit);

  std::vector<LampState> seen(const Circuit& c, std::size_t scene) const {
    const Solved solved = solve(c, catalogue, states.scenes[scene]);
    std::vector<LampState> out;
    for (const WatchedLamp& lamp : lamps) out.push_back(lamp_state(c, catalogue, points, lamp.part, solved, lamp.element));
    return out;
  }
  std::vector<Symptom> symptoms(const Fault& fault, std::size_t scene) const {
    const Circuit faulty = after_fuses(with_fault(circuit, fault, catalogue), catalogue, states.scenes[scene], states.solved[scene]);
    const std::vector<LampState> was = seen(circuit, scene), now = seen(faulty, scene);
    const double dimmer = catalogue.rule("dimmer_share").value;
    std::vector<Symptom> out;
    for (std::size_t l = 0; l < lamps.size(); ++l) {
      Symptom s{static_cast<int>(scene), static_cast<int>(l), now[l].seen, LightChange::none};
      const bool gives_light = now[l].seen == Seen::lit || now[l].seen == Seen::flash || now[l].seen == Seen::counterflash;
      if (now[l].seen == was[l].seen && gives_light)
        s.light = now[l].light < dimmer * was[l].light   ? LightChange::dimmer
                  : now[l].light * dimmer > was[l].light ? LightChange::brighter
                                                         : LightChange::none;
      if (now[l].seen != was[l].seen || s.light != LightChange::none) out.push_back(s);
    }
    return out;
  }
  // So many faults and scenes by chance, each the same in the table. Returns how many showed something.
  int compare(const FaultTable& table, unsigned seed, int tries) const {
    std::mt19937 random(seed);
    int showed = 0;
    for (int i = 0; i < tries; ++i) {
      const FaultRow& row = table.rows[random() % table.rows.size()];
      const std::size_t scene = random() % states.scenes.size();
      CAPTURE(row.fault.kind + " " + row.fault.at);
      CAPTURE(states.scenes[scene].name);
      std::vector<Symptom> said;
      for (const Symptom& s : row.symptoms)
        if (s.scene == static_cast<int>(scene)) said.push_back(s);
      const std::vector<Symptom> found = symptoms(row.fault, scene);
      CHECK(said == found);
      showed += !found.empty();
    }
    return showed;
  }
};

}  // namespace towloom::fixture
