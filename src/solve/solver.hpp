// One circuit made ready for many scenes: all that no scene changes is worked out once.
#pragma once

#include <cstdint>
#include <memory>

#include "solve/faults.hpp"
#include "solve/modes.hpp"
#include "solve/reduce.hpp"

namespace towloom {

class Solver {
 public:
  // Both must outlive it.
  Solver(const Circuit&, const Catalogue&);
  // The same circuit with something changed. `sound` must outlive it, and its branches keep their numbers; bridges come
  // behind. `devices`: the circuit whose thresholds hold in solve(), where some modes are forced.
  Solver(const Solver& sound, const std::vector<Change>&, const Circuit* devices = nullptr);
  // As the free function of solve.hpp.
  Solved solve(const Scene&, const std::vector<Attached>& = {}, const Known& = {}) const;
  // The same to a millionth of a volt, but where leaks alone hold a point; filaments over pulses to a hundred-thousandth
  // of their ohms.
  Solved solve_nearly(const Scene&, const Solved& near);

  // One phase by the elements that conduct, in the order of parts and elements. `near`: a first guess or nullptr.
  Phase solve_phase(const std::vector<char>& conducting, const std::vector<Attached>&, const Phase* near) const;
  // Which elements conduct. `waves`: of read(); `pulled` of the modes, or empty where all rest.
  std::vector<char> conducting(const std::vector<Wave>& waves, int flash, const Pulled& pulled, bool pulse) const;
  // What the scene says of every signal that a gate names.
  std::vector<Wave> read(const Scene&) const;

  // Branches by number: elements in the order of parts, wires, bridges. Open ones conduct nothing.
  Network network(const std::vector<char>& conducting) const;
  // Unrounded. `start`: volts by network point, or empty. Constant-power drivers agree with their volts.
  Operating operate(Network, const std::vector<double>& start) const;
  // The amps that Kirchhoff's law misses at these volts, over all points. Every law rises, so that no branch carries
  // that much more or less in the solution than now; `amps`: by branch, now.
  double missing_amps(const std::vector<char>& conducting, const std::vector<double>& volts, std::vector<double>& amps) const;
  double amps_at(int branch, const std::vector<char>& conducting, const std::vector<double>& volts) const;
  const Branch& branch_at(int branch) const { return all_.branches[static_cast<size_t>(branch)]; }   // its ends
  int branches() const { return static_cast<int>(all_.branches.size()); }
  const Curve& curve_at(int branch) const { return static_cast<size_t>(branch) < slots_.size() ? slots_[static_cast<size_t>(branch)].curve : branch_at(branch).curve; }
  bool is_resistor(int branch) const;   // one that no pulses go through
  // When it conducts: 0 always, else a number that branches share which conduct together in every scene.
  std::int64_t gate_number(int branch) const;
  // Volts by network point that miss the solution by little, or as soon as it is enough.
  Nearly operate_nearly(const std::vector<char>& conducting, const std::vector<double>& start, const Enough&) const;
  int branch(PartId, int element) const;
  int branch(WireId wire) const { return static_cast<int>(slots_.size()) + wire.v; }
  int node(TerminalRef t) const { return node_[static_cast<size_t>(points_.at(t))]; }   // network point, -1 = 0 V
  int nodes() const { return nodes_; }
  // Volts of all points, from those of the network's.
  std::vector<double> by_point(const std::vector<double>& volts) const;
  std::vector<double> by_node(const std::vector<double>& volts) const;   // the other way
  // Branches that something was done to; bridges are not among them.
  const std::vector<int>& changed() const { return changed_; }
  const Element& element(int branch) const;          // as changed
  bool has_power() const { return powers_; }
  bool has_pulses() const;

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
  struct Apply;                // what each kind of change does
  void solve_phases(Job&, const Modes&, Solved&) const;
  void settle(Job&, Modes&, Solved&) const;
  Modes rest(Job&, Solved&) const;   // from the modes at rest, and from the other end
  bool stay(Job&, const Modes&, Solved&) const;
  const Reduction& reduction() const;
  // What was put in place of a gated element conducts always.
  static bool conducts(const Slot& s, char conducting) { return conducting != 0 || (s.gate == Gate::always && !s.pulsed); }

  const Circuit& circuit_;
  const Circuit* devices_of_ = nullptr;
  Points points_;
  std::vector<int> node_;      // by point: network point, -1 = 0 V
  int nodes_ = 0;
  std::vector<Slot> slots_;
  std::vector<int> first_slot_;   // by part
  std::vector<std::string> signals_;
  Network all_;                // slots, then wires; an open slot conducts nothing
  mutable std::shared_ptr<const Mesh> mesh_;            // made when first asked for
  mutable std::shared_ptr<const Reduction> reduction_;
  bool devices_ = false, powers_ = false, nearly_ = false;
  std::vector<int> changed_;
  std::map<int, Element> becomes_;   // by branch
};

}  // namespace towloom
