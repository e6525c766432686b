// Operating points: nonlinear DC on point potentials (Kirchhoff), and the scenes that are solved.
#pragma once

#include <array>
#include <map>
#include <string>
#include <vector>

#include "circuit/circuit.hpp"

namespace towloom {

// A state of all signals. Signals: coach.left coach.right coach.tail … at the outlet; driver.stop driver.left …:
// what the coach's driver does, from which the outlet's follow; car.pedal car.lamps car.turn.left car.reverse …;
// coupled (cord plugged in), towed.
struct Scene {
  std::string name;        // "tail + left", printed
  std::string kind;        // towing | car-alone | coach-alone | back-feed
  std::string reason;      // why it is solved
  std::map<std::string, Wave> signals;   // absent = off
  bool printed = true;                   // one of the few that sheets name; see to_print
  std::vector<std::string> also = {};         // scenes not solved: nothing that the circuit asks for differs from this one
  // "car.stop-turn.left" follows from pedal and turn: the turn signal goes before stop on one lamp;
  // "car.tail-stop" from lamps and pedal.
  Wave signal(const std::string& s) const;
};

// A load attached while solving: meter, 1 kohm, test lamp. A terminal without part is car body.
struct Attached {
  TerminalRef from, to;
  double ohm = 0;
  std::optional<Element> load = {};   // in place of ohm; its own terminals mean nothing
};

struct Phase {
  std::vector<double> volts;       // by point, against car body, rounded to 1 µV
  std::vector<std::vector<double>> element_a;   // by part, by element, a to b, rounded to 1 µA
  std::vector<double> wire_a;      // by wire, from to to
  std::vector<std::vector<char>> pulled;   // by part, by device
  int iterations = 0;
  bool converged = false;
};
// A filament to which pulses go: within them it is a resistor, that of its RMS volts; in this flash phase.
struct HeldFilament {
  PartId part;
  int element = 0, flash = 0;
  double ohm = 0;
};
// Flash phases first; where a feed is pulse-modulated both come twice: with the pulse, then without.
struct Solved {
  std::array<Phase, 4> phase;
  int phases = 1;                  // 2 when a signal flashes; twice that with a pulse-modulated feed
  bool pulsed = false;
  double duty = 1;                 // share of the time with the pulse
  std::vector<HeldFilament> held;  // of a scene with pulses
  std::vector<PartId> chatter;     // parts that find no rest: a loop through their own coil or input
  bool depends_on_before = false;  // relays may also stay as the scene before left them
  int flash_phases() const { return pulsed ? phases / 2 : phases; }
  double weight(int p) const;      // share of the time
  bool converged() const;
};

// What warms a wire: the highest amps of its flash phases; over pulses their RMS.
double warming_amps(const Solved&, WireId);

// What one lamp does in one scene.
enum class Seen { dark, lit, flash, counterflash, glow, may };
const char* to_text(Seen);
struct LampState {
  Seen seen = Seen::dark;
  double volts = 0, amps = 0;      // in its brightest flash phase, across the lamp; over pulses a filament's RMS, an LED's mean
  double meter_v = 0;              // what a meter shows there: over pulses the mean
  double light = 0;                // of design light, (V/Vd)^3.4 for filaments
  int late_flashes = 0;            // flashes of the coach that pass unseen, where a converter must first understand
};

struct States {
  std::vector<Scene> scenes;
  std::vector<Solved> solved;                    // parallel to scenes
  std::vector<std::vector<LampState>> lamps;     // [scene][intent index of Circuit::lamps]
  std::vector<std::vector<Seen>> required;       // from intent and scene only
  struct Backfeed {
    int scene = 0, probe = 0;
    double meter_v = 0;      // 10 Mohm attached
    double loaded_v = 0;     // 1 kohm attached
    double hot_v = 0;        // the same with every diode hot: a Schottky then leaks
  };
  std::vector<Backfeed> backfeed;
  std::vector<std::vector<Seen>> hot;            // as lamps, with every diode hot
};

// What is known before: saves time, changes no answer.
struct Known {
  // A solution of this scene in a circuit that differs little, a first guess; depends_on_before is then not asked.
  const Solved* near = nullptr;
  // Phases of this circuit with these loads, by which elements conduct; those found are added.
  std::map<std::vector<char>, Phase>* phases = nullptr;
};
// Sheets print the named few and every scene in which a lamp does other than it must.
bool to_print(const States&, std::size_t scene);

// Solves one scene; wires must have a size. Never returns a non-finite number as converged.
Solved solve(const Circuit&, const Catalogue&, const Scene&, const std::vector<Attached>& = {}, const Known& = {});

// The scenes worth solving, each with its reason: towing (tail x stop x turn, by pedal, engine and disconnect where the
// circuit reacts to them), car alone (singles and pairs), coach alone (uncoupled). Those in which neither what the
// circuit asks for nor what the lamps must do differs from another's stand in its `also`.
std::vector<Scene> list_scenes(const Circuit&, const Catalogue&, const Spec&);
// What the coach's outlet carries when its driver does this, set in the scene's signals.
void set_outlet(const Circuit&, const Catalogue&, const Spec&, Scene&);
Wave to_wave(const std::string& word);   // off | on | flash
// What each lamp must do, from survey and method alone.
std::vector<Seen> required_lamps(const Circuit&, const Spec&, const Scene&);
States solve_all(const Circuit&, const Catalogue&, const Spec&);

// Ngspice deck of one scene and phase: runs as it is; node p<N> is the network's point N (Flat::point), element currents by name.
// Gates appear as present or absent elements.
std::string netlist(const Circuit&, const Catalogue&, const Scene&, int phase);

}  // namespace towloom
