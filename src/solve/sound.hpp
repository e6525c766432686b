// The sound circuit as the faults are held against it: its networks, what they show, and what may change in them
// before something else is seen.
#pragma once

#include <memory>
#include <unordered_map>

#include "solve/settle.hpp"
#include "solve/ways.hpp"

namespace towloom {

struct SoundNetwork {          // which elements conduct, in which mode
  std::vector<char> conducting;
  Pulled pulled;
  bool shown = true;           // by a scene; else it is not solved without a fault
  Operating solved;            // unrounded
  double within = 0;           // amps that Kirchhoff's law misses over all points
  std::vector<LampLook> lamps;
  Ways ways;                   // of the supplies
  double margin = 0;           // amps that may go astray anywhere before a lamp, a coil, an input or a fuse shows it
};
struct SoundScene {
  Solved frame;
  Settled way;                 // of the relays and modules; the last networks are those that are seen
  std::vector<LampState> states;
  // By phase, where pulses reach filaments: these are resistors, and the networks are this scene's alone.
  std::vector<SoundNetwork> held;
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
  const double leaks_a;        // of all points together, at the highest volts that any source has
  std::vector<SoundScene> scenes;
  Watches watches;

  Sound(const Circuit&, const Catalogue&, const States&);
  Sound(const Sound&) = delete;
  Sound& operator=(const Sound&) = delete;

  // Its number; solved when first asked for. References to networks stay.
  int number(std::vector<char> conducting, const Pulled&);
  const SoundNetwork& network(int n) const { return *networks_[static_cast<std::size_t>(n)]; }
  int networks() const { return static_cast<int>(networks_.size()); }

  // What the lamps show over the phases of a scene. A burnt-out lamp gives no light whatever its volts: `of` is the
  // solver of the circuit with the fault.
  template <class LooksOf>
  std::vector<LampState> show(const Solver& of, const Solved& frame, const LooksOf& looks_of) const {
    std::vector<LampState> out;
    for (std::size_t l = 0; l < lamps.size(); ++l) {
      std::array<LampLook, 4> looks;
      for (int p = 0; p < frame.phases; ++p) looks[static_cast<std::size_t>(p)] = looks_of(p)[l];
      out.push_back(combine(of.element(of.branch(lamps[l].part, lamps[l].element)), rules, frame, looks));
    }
    return out;
  }
  // The same of a scene that was solved by itself.
  std::vector<LampState> show(const Solver& of, const Solved&) const;
  // No lamp is so near one of its limits in the scene that so many amps astray decide.
  bool is_firm(int scene, const std::vector<LampState>& now, double amps) const;
  std::vector<LampLook> look(const Solver& of, const std::vector<double>& volts, const std::vector<double>& amps) const;

 private:
  std::vector<SoundNetwork> hold(const Scene&, const Solved&) const;
  void find_margin(const Network&, SoundNetwork&) const;
  std::unordered_map<std::string, int> known_;   // by what conducts, and the modes
  std::vector<std::unique_ptr<SoundNetwork>> networks_;
  bool watching_ = false;
};

}  // namespace towloom
