// One circuit made ready for many scenes: all that no scene changes is worked out once.
#pragma once

#include <memory>

#include "solve/modes.hpp"
#include "solve/reduce.hpp"

namespace towloom {

class Solver {
 public:
  // Both must outlive it.
  Solver(const Circuit&, const Catalogue&);
  // As the free function of solve.hpp.
  Solved solve(const Scene&, const std::vector<Attached>& = {}, const Known& = {}) const;

  // One phase by the elements that conduct, in the order of parts and elements. `near`: a first guess or nullptr.
  Phase solve_phase(const std::vector<char>& conducting, const std::vector<Attached>&, const Phase* near) const;
  // Which elements conduct. `waves`: of read(); `pulled` of the modes, or empty where all rest.
  std::vector<char> conducting(const std::vector<Wave>& waves, int flash, const Pulled& pulled, bool pulse) const;
  // What the scene says of every signal that a gate names.
  std::vector<Wave> read(const Scene&) const;

  const Circuit& circuit() const { return circuit_; }
  const Points& points() const { return points_; }
  bool has_devices() const { return devices_; }
  // Phases of a scene: flash, and pulse where a pulse-modulated feed works. Fills phases, pulsed, duty.
  Solved frame(const Scene&) const;

 private:
  struct Slot {                // an element
    int part = 0, element = 0;
    int a = -1, b = -1;        // network points
    Gate gate = Gate::always;
    int signal = -1, device = -1;
    bool pulsed = false, power = false;
    Curve curve;
  };
  struct Job;                  // everything of one call of solve()
  void solve_phases(const Job&, const Modes&, Solved&) const;
  void settle(const Job&, Modes&, Solved&) const;
  Operating settle_power(Network&, const std::vector<double>& start) const;

  const Circuit& circuit_;
  Points points_;
  std::vector<int> node_;      // by point: network point, -1 = 0 V
  int nodes_ = 0;
  std::vector<Slot> slots_;
  std::vector<std::string> signals_;
  Network all_;                // slots, then wires; an open slot conducts nothing
  std::shared_ptr<const Mesh> mesh_;
  std::shared_ptr<const Reduction> reduction_;
  bool devices_ = false, powers_ = false;
};

}  // namespace towloom
