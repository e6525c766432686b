// Shared by the files of this room while one circuit is being built.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "circuit/circuit.hpp"

namespace towloom {

// The factory branch that feeds one lamp or one switch input.
struct Leg {
  TerminalRef from, to;
  SizedColour feed;
  int lamp = -1;               // index in Circuit::lamps, -1 = a switch input
  std::string place;
  Place job;
};

struct Builder {
  const Spec& spec;
  const Catalogue& catalogue;
  Diagnostics& diagnostics;
  Circuit circuit;
  const Connector* outlet = nullptr;
  const Connector* inlet = nullptr;
  std::map<std::string, TerminalRef> signal_port;   // ground tail left right … -> J2 contact, car side
  std::map<std::string, std::string> signal_contact;  // signal -> contact number
  std::vector<Leg> legs;
  std::vector<int> lamp_rows;                       // Circuit::lamps index -> row of spec.car.lamps
  std::map<std::string, std::vector<TerminalRef>> signal_users;  // signal -> fitted terminals it must reach
  std::map<int, std::vector<TerminalRef>> lamp_side_users;       // lamp index -> lamps re-fed on its lamp side
  int factory_wires = 0, fitted_wires = 0, splices = 0;

  double rule(const char* name) const { return catalogue.rule(name).value; }
  void assume(const std::string& what, const std::string& why, const char* rule_name);
  PartId add(Part part);
  PartId add_stud(const std::string& id, const std::string& place, Side, Zone, Status, Origin);
  PartId add_splice(const std::string& id, const std::string& place, Side, Zone, Status);
  WireId add_wire(Wire wire);   // numbers it by status: F1 factory, W1 fitted
  WireId factory_wire(TerminalRef from, TerminalRef to, const SizedColour&, double length_m, Origin);
  double distance(const std::string& from, const std::string& to) const;   // along runs, -1 = none
};

// ---- the steps, in order ---------------------------------------------------------------------
bool find_connectors(Builder&);
void build_coach(Builder&);      // outlet, cord, inlet
void build_lamps(Builder&);      // lamps, housings, returns
void build_factory(Builder&);    // battery, switches, trunks; fills legs
void build_isolation(Builder&);  // the method's fragments on the legs; remaining legs as they were
void build_harness(Builder&);    // fitted wires over the runs
void add_probes(Builder&);

// ---- part kinds: terminals and elements --------------------------------------------------------
// values: model, signal. Unknown kinds and values are reported at their place.
std::optional<Part> make_kind(const FragmentPart&, const std::map<std::string, std::string>& values, Builder&);
// A module or modelled part by itself, e.g. for tests; `body` is its transistors' own diode (may be nullptr).
Part module_part(const ModuleModel&, const DiodeModel* body);
Part model_part(const PartModel&, const std::string& signal, const DiodeModel* body);
Element resistor(int a, int b, double ohm);
Element filament(int a, int b, double volts, double amps);
Element diode(int anode, int cathode, const DiodeModel&);
Element one_way(int a, int b, double ohm);   // conducts from a to b only, with a resistance and no threshold
// (V - volts) / ohm from a to b, between -least_a and most_a.
Element limited(int a, int b, double volts, double ohm, double most_a, double least_a);
Element gated(Element, Gate, const std::string& signal);
Element gated(Element, Gate, int device);

Side side_of_place(const std::string& place);

}  // namespace towloom
