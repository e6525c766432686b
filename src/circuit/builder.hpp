// Shared by the files of this room while one circuit is being built.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "catalogue/cord.hpp"
#include "circuit/circuit.hpp"

namespace towloom {

// One output of a car's feed with what hangs on it: driver, then a joint where several legs leave.
struct Trunk {
  std::string node;
  std::vector<std::string> drives;   // lamp functions of its feed
  TerminalRef driver;
  TerminalRef joint;           // a splice; the driver itself where a single leg hangs on it
  SizedColour colour;
  Place job;
  bool cut = false;
};
// The factory branch that feeds one lamp or one switch input.
struct Leg {
  int trunk = -1;              // it leaves from this trunk's joint
  TerminalRef to;
  SizedColour feed;
  int lamp = -1;               // index in Circuit::lamps, -1 = a switch input
  std::string place;
  Place job;
};
// A method, a converter or an extra that the job uses, with its choices filled in.
struct Recipe {
  const Method* method = nullptr;
  std::map<std::string, PlacedText> choices;   // every choice of its file
  Place place;                                 // in the job
};
// Terminals that fitted wires must join.
struct Net {
  std::string circuit;         // ground left tail charge tow-mode …: printed, coloured and sized by it
  TerminalRef root;            // where it begins: a contact, an output, a post, a stud
  std::vector<TerminalRef> users;
  std::string place;           // of the root, on the runs
  double lead_m = 0;           // from that place to the root itself
  bool star = false;           // posts and studs: each user has a wire of its own
  Place job;
};

// A plug of the job with its forms and its cord as it should be.
struct PlugForms {
  Plug plug;
  const Connector *outlet = nullptr, *inlet = nullptr;
  JobCord cord;
};

struct Builder {
  const Spec& spec;
  const Catalogue& catalogue;
  Diagnostics& diagnostics;
  Builder(const Spec& s, const Catalogue& c, Diagnostics& d) : spec(s), catalogue(c), diagnostics(d) {}

  Circuit circuit;
  std::vector<Recipe> recipes;                      // converter, methods, extras: in the order they are laid
  std::map<std::string, int> method_of;             // lamp function -> recipe; "" = all others
  std::set<std::string> wanted;                     // signals that lamps or recipes name
  std::string tow_kind;                             // combined | separate, behind a converter
  std::map<std::string, int> signal_net;            // tow signal -> net
  std::map<std::string, PartId> given_by;           // tow signal -> the converter that gives it
  std::map<std::string, int> named_net;             // net.NAME of a recipe, studs, battery …
  std::map<std::string, std::string> lost;          // coach signal -> why it does not arrive at the inlet
  std::map<std::string, std::string> signal_colour;   // signal -> letters of its wires, by the inlet's convention
  std::vector<Net> nets;
  std::vector<Trunk> trunks;
  std::vector<Leg> legs;
  std::vector<int> lamp_rows;                       // Circuit::lamps index -> row of spec.car.lamps
  std::map<int, std::vector<TerminalRef>> lamp_side_users;       // lamp index -> lamps re-fed on its lamp side
  std::map<std::string, int> numbers;               // designations, by prefix
  int factory_wires = 0, fitted_wires = 0, splices = 0;

  double rule(const char* name) const { return catalogue.rule(name).value; }
  void assume(const std::string& what, const std::string& why, const char* rule_name);
  PartId add(Part part);
  PartId add_stud(const std::string& id, const std::string& place, Side, Zone, Status, Origin);
  PartId add_splice(const std::string& id, const std::string& place, Side, Zone, Status);
  PartId add_fitted_splice(const std::string& place, const std::string& function);   // S1, S2 …
  WireId add_wire(Wire wire);   // numbers it by status: F1 factory, W1 fitted
  WireId factory_wire(TerminalRef from, TerminalRef to, const SizedColour&, double length_m, Origin);
  int add_net(Net net);
  double distance(const std::string& from, const std::string& to) const;   // along runs, -1 = none
  mutable std::map<std::string, std::map<std::string, double>> distances;   // from each place that was asked for: to all that it reaches
  mutable std::map<std::string, std::vector<const RunRow*>> runs_at;        // by place
  double leg_length(const Leg&) const;   // metres of factory wire to the lamp
  TerminalRef leg_from(const Leg&) const;
};

void find_recipes(Builder&);     // methods and extras with their choices; wanted signals
std::vector<PlugForms> find_plugs(const Builder&);
void build_coach(Builder&);      // sources and outlets, then build_cord for each plug
// The cores of each plug that the job wants: one for each signal that the car takes, and their returns.
std::vector<std::vector<const CordCore*>> wanted_cores(const Builder&, const std::vector<PlugForms>&);
// Cord and inlet of one plug; `outlet`: parts of its outlet's contacts by number.
void build_cord(Builder&, const PlugForms&, const std::vector<const CordCore*>& wanted, const std::map<std::string, PartId>& outlet);
// What no cord takes to the car, and why.
void note_lost(Builder&, const std::vector<PlugForms>&);
// A mated contact without its terminals: two in a row, contact 0 towards the coach.
Part contact_part(const Builder&, const std::string& connector, const Connector&, const ConnectorContact&, const std::string& signal, Place job);
void build_lamps(Builder&);      // lamps, housings, returns
void build_factory(Builder&);    // battery, switches, trunks; fills legs
void build_isolation(Builder&);  // the recipes' fragments; what they leave uncut as it was
void build_harness(Builder&);    // fitted wires over the runs
void add_probes(Builder&);

// ---- fragments ---------------------------------------------------------------------------------
// What one laying of a fragment is about.
struct Site {
  const Recipe& recipe;
  const Fragment& fragment;
  int leg = -1;                // lamp scope
  int lamp = -1;               // lamp and added scope: index in Circuit::lamps
  int trunk = -1;              // trunk scope
};
bool counts(const Recipe&, const Fragment&);   // by its `only`
void lay_fragment(Builder&, const Site&);
struct Parted {                // where both ends of the factory wire land that a fragment parts
  TerminalRef car, lamp;
};
void part_factory_wires(Builder&, const Site&, const Parted&);
// The net that a port of a fragment stands for; -1 after an error.
int net_of_port(Builder&, const PlacedText& port, const std::string& place, const Site&);
std::string filled(const std::string& text, const Recipe&);   // $choice replaced

// ---- part kinds: terminals and elements --------------------------------------------------------
// values: model, signal. Unknown kinds and values are reported at their place.
std::optional<Part> make_kind(const FragmentPart&, const std::map<std::string, PlacedText>& values, Builder&);
// A module or modelled part by itself, e.g. for tests; `body` is its transistors' own diode (may be nullptr).
Part module_part(const ModuleModel&, const DiodeModel* body);
// `signal` works an output; `full`, where it is not empty, drives a pulse-modulated one without pulses.
Part model_part(const PartModel&, const std::string& signal, const DiodeModel* body, const std::string& full = "");
Element resistor(int a, int b, double ohm);
Element filament(int a, int b, double volts, double amps);
Element diode(int anode, int cathode, const DiodeModel&);
Element one_way(int a, int b, double ohm);   // conducts from a to b only, with a resistance and no threshold
// (V - volts) / ohm from a to b, between -least_a and most_a.
Element limited(int a, int b, double volts, double ohm, double most_a, double least_a);
Element gated(Element, Gate, const std::string& signal);
Element gated(Element, Gate, int device);

Side side_of_place(const std::string& place);
// "SIDE" stands for the lamp's own side; a centre lamp has none and the text then names no signal.
std::string sided(const std::string& text, Side side);

}  // namespace towloom
