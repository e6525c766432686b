// The sound circuit as the faults are held against it: its networks, what they show, and what may change in them
// before something else is seen.
#pragma once

#include "solve/reach.hpp"
#include "solve/solver.hpp"

namespace towloom {

// What one phase of one circuit shows: all that a fault table needs of it.
struct Look {
  bool converged = false;
  int overloaded = -1;         // index of the first protector that opens
  std::vector<LampLook> lamps;
};
using Phases = std::map<std::vector<char>, Phase>;   // by which elements conduct

struct SoundNetwork {          // which elements conduct, in which mode
  const Phase* phase = nullptr;
  Look look;
  Slack devices;
  double protectors = 0;       // amps before one opens
};
struct SoundScene {
  Solved frame;
  std::array<int, 4> network{};      // by phase: scenes share networks
  std::array<Slack, 4> lamps{};      // by phase
  std::vector<int> on_the_way;       // networks before the relays and modules came to rest
  std::vector<LampState> states;
};

struct Sound {
  const Circuit& circuit;
  const Catalogue& catalogue;
  const States& states;
  const Solver solver;
  const std::vector<Protector> protectors;
  const std::vector<WatchedLamp> lamps;
  const LightRules rules;
  const double dimmer_share;
  std::vector<SoundScene> scenes;
  std::vector<SoundNetwork> networks;
  Phases phases;               // of all networks, those on the way too: first guesses

  Sound(const Circuit&, const Catalogue&, const States&);
  Sound(const Sound&) = delete;
  Sound& operator=(const Sound&) = delete;

  // Of this circuit, or of one that a fault made from it.
  Look look(const Circuit&, const Phase&) const;
  // What the lamps show over the phases of a scene. A burnt-out lamp gives no light whatever its volts.
  template <class Looks>
  std::vector<LampState> show(const Circuit& of, const SoundScene& scene, const Looks& look_of) const {
    std::vector<LampState> out;
    for (std::size_t l = 0; l < lamps.size(); ++l) {
      std::array<LampLook, 4> looks;
      for (int p = 0; p < scene.frame.phases; ++p) looks[static_cast<std::size_t>(p)] = look_of(p).lamps[l];
      out.push_back(combine(of.part(lamps[l].part).elements[static_cast<std::size_t>(lamps[l].element)], rules, scene.frame, looks));
    }
    return out;
  }

 private:
  int number(const std::vector<Wave>& waves, const Solved& frame, int phase, const Phase&);
  void find_slack(SoundScene&) const;
  std::map<std::vector<char>, int> known_;
  std::vector<std::unique_ptr<Phase>> kept_;   // phases on the way
};

}  // namespace towloom
