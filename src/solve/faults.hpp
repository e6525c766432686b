// Single faults: one thing wrong at a time, solved like every other circuit, and what the lamps then show.
#pragma once

#include <variant>

#include "solve/solve.hpp"

namespace towloom {

// What a fault does to a circuit. Terminals and inner points keep their numbers: wires are only added behind
// the others, so that the sound solution stays a first guess.
struct WireInSeries {          // ohm added in a wire
  WireId wire;
  double ohm = 0;
};
struct ElementInSeries {       // ohm added to a resistor of a part: contact, stud
  PartId part;
  int element = 0;
  double ohm = 0;
};
struct ElementBecomes {        // a resistor in its place, whatever its gate was: burnt out, welded, shorted
  PartId part;
  int element = 0;
  double ohm = 0;
};
struct ElementReversed {
  PartId part;
  int element = 0;
};
struct LeadsExchanged {        // the wires of two terminals change places
  TerminalRef a, b;
};
struct Bridge {                // ohm between two terminals
  TerminalRef a, b;
  double ohm = 0;
};
struct ModeForced {            // a device stays in (true) or at rest, whatever its volts
  PartId part;
  int device = 0;
  bool in = false;
};
using Change = std::variant<WireInSeries, ElementInSeries, ElementBecomes, ElementReversed, LeadsExchanged, Bridge, ModeForced>;

// A thousandth of what every point leaks: as good as open.
constexpr double open_ohm = 1e12;

struct Fault {
  std::string kind, at;        // "wire-open", "W3"; kinds and their words: specs/faults/
  std::vector<Change> changes;
};
std::vector<Fault> list_faults(const Circuit&, const Catalogue&);
std::string describe(const Fault&, const Catalogue&);   // "W3 open"
Circuit with_fault(Circuit, const Fault&, const Catalogue&);

struct WatchedLamp {           // an element that gives light: the car's lamps, then the coach's own
  PartId part;
  int element = 0;
};
std::vector<WatchedLamp> watched_lamps(const Circuit&);

enum class LightChange { none, dimmer, brighter };
struct Symptom {               // a lamp that differs from the sound circuit in one scene
  int scene = 0, lamp = 0;     // indices of States::scenes and watched_lamps
  Seen seen = Seen::dark;
  LightChange light = LightChange::none;   // lit as before, but seen to be dimmer or brighter
  auto operator<=>(const Symptom&) const = default;
};
struct FaultRow {
  Fault fault;
  std::vector<Symptom> symptoms;   // by scene, then lamp
  std::vector<PartId> blown;       // fuses, or coach feeds by their own fuse, that open because of it
  int unsolved = 0;                // scenes without an operating point, or with chatter
};
// Faults that show the same in every scene: the lamps alone cannot tell them apart.
struct FaultClass {
  std::vector<Symptom> symptoms;   // empty: nothing shows
  std::vector<int> faults;         // indices of FaultTable::rows
};
struct FaultTable {
  std::vector<FaultRow> rows;
  std::vector<FaultClass> classes;   // in the order of their first fault
  int solved = 0, skipped = 0;       // scenes
  int shared = 0;                    // faults that make the same of the circuit as one before: its answer is theirs
};
// `states` is the sound circuit's. A fuse that would carry its opening current is opened and the scene solved again.
// A network is not solved where Kirchhoff's law misses so few amps at guessed volts that no limit of light, of a relay,
// an input or a fuse is in doubt.
FaultTable solve_faults(const Circuit&, const Catalogue&, const States&, std::vector<Fault>);

// The circuit with every fuse open that carries its opening current in this scene; `near` is the sound solution.
Circuit after_fuses(Circuit faulty, const Catalogue&, const Scene&, const Solved& near);
// The coach's amps into a short while one of its signals is on and the cord is in, before anything opens.
double shorted_amps(const Circuit&, const Catalogue&, const Fault&, const std::string& signal);

}  // namespace towloom
