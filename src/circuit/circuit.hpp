// The job as one circuit: everything resolved. Two views of connection are kept apart:
//   net    terminals joined by wires and splices only; what is drawn
//   point  one potential of the solver; every terminal is one (a mated contact has two)
#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "catalogue/names.hpp"

namespace towloom {

template <class Tag>
struct Id {
  int v = -1;
  explicit operator bool() const { return v >= 0; }
  auto operator<=>(const Id&) const = default;
};
using PartId = Id<struct PartTag>;
using WireId = Id<struct WireTag>;
using NetId = Id<struct NetTag>;
using PointId = Id<struct PointTag>;   // index into all terminals and inner points, parts in order

// off, steady on, flashing, flashing in the other phase.
enum class Wave : unsigned char { off, on, flash, counterflash };
bool lit_in_phase(Wave, int phase);    // phase 0 or 1

// ---- electrical laws between two points of one part ----------------------------------------
enum class Law { resistor, source, filament, led, diode, limited, power };
// When an element conducts. `always`; `lit`: signal on in this phase; `selected`: signal not off;
// `idle`: signal off; `pulled` and `rest`: the part's device is in that mode. Open elements carry nothing.
enum class Gate { always, lit, selected, idle, pulled, rest };
struct Element {
  Law law = Law::resistor;
  int a = 0, b = 0;            // terminal or inner point of the part; current counts from a to b
  // resistor: ohm. source: volts (a above b) behind ohm. filament: amps at volts (times count).
  // led: amps at volts, threshold. diode: anode a, cathode b.
  // power: an LED's switching driver: volts times amps watts from threshold_v up, dark below nine tenths of that.
  // limited: (V - volts) / ohm, never above amps nor below -least_a: chargers and steady loads.
  double ohm = 0, volts = 0, amps = 0, threshold_v = 0, least_a = 0;
  double is = 0, n = 1, rs = 0, eg = 1.11, xti = 3, celsius = 27;   // diode
  double duty = 1;             // below 1: conducts in that share of the time only (pulse-modulated feed)
  Gate gate = Gate::always;
  std::string signal;          // for lit, selected, idle
  int device = -1;             // for pulled, rest: index in Part::devices
};

// A mode that a voltage inside the part sets: a relay's coil, a module's supply, a module's output.
struct Device {
  std::string name;            // "coil", "supply", "out_left"
  int plus = 0, minus = 0;     // watched between these points; an output watches nothing
  double pull_in_v = 0, drop_out_v = 0;   // pulls in at this much, lets go below that; volts
  bool polarised = false;      // a negative voltage does not count
  int output = -1;             // column of the part's truth table
};

// A truth table over waveforms: what a converter or combiner makes of its inputs.
struct Logic {
  std::vector<std::string> inputs, outputs;   // terminals, = signals with in_ or out_ before them
  std::vector<TableRow> rows;
  double high_v = 0, low_v = 0;         // above: 1; below: 0; between: as it was
  int late_flashes = 0;                 // flashes that pass before a flashing output follows
};
struct LogicAnswer {
  std::vector<Wave> out;
  bool uncertain = false;
};
LogicAnswer answer(const Logic&, const std::vector<Wave>& in);

enum class Status { factory, fitted, coach };   // coach: the motorhome's own and the cord
enum class Zone { coach, cord, inlet, run, source, pocket, lamp };  // columns of the bench sheet
struct Origin { Place job, data; };             // the job line that asked; the catalogue line that made it

// Ground places. Coach chassis and car body are different places.
struct Part {
  std::string id;              // printed designation, unique: D1, J2.3, S1, E-ST-L, G-F
  std::string kind;            // diode-pair diode lamp fuse switch turn-switch battery contact splice
                               // joint stud source cut flasher
  std::string title, value;    // "stop/turn", "P21/5W bright"; printed
  std::string group;           // parts drawn in one frame: lamp unit "left rear", connector "J2"
  std::string contact;         // contact: number in the connector
  std::string model;           // connector or model name in the catalogue
  std::string function;        // lamp function or signal: stop-turn tail plate; left right tail ground
  std::string place;           // where it sits: inlet, left rear, front stud
  std::string joins;           // stud: "body" or "coach chassis": one net without a drawn wire
  Side side = Side::centre;
  Zone zone = Zone::run;
  Status status = Status::fitted;
  std::vector<std::string> terminals;   // names: A1 A2 K
  int inner_points = 0;
  std::vector<Element> elements;
  std::vector<Device> devices;
  std::optional<Logic> logic;
  // How it was found, where that is otherwise than meant: open, poor, missing, reversed-A1. With `kind` the name of
  // its symbol. Only in a circuit that is drawn as found.
  std::string found;
  Origin origin;
};

struct TerminalRef {
  PartId part;
  int index = 0;
  auto operator<=>(const TerminalRef&) const = default;
};

struct Wire {
  std::string id;              // W1; cord cores C1; factory wires have ids too (F1 …)
  TerminalRef from, to;        // from the source's side to the load's
  std::string circuit;         // ground tail left right stop …; printed TAIL LT RT GND
  std::string colour;          // as printed, base/tracer: "YE", "GY/VT"
  std::optional<WireSizeName> size;   // nothing = to be found
  bool size_fixed = false;     // given in the job or the catalogue
  std::string group;           // size group: "ribbon", "cord"; wires of a group are one size
  double length_m = 0;
  double fixed_ohm = -1;       // ≥ 0: resistance not from size and length (inside a unit)
  int bundle = 1;              // loaded conductors lying together
  std::vector<std::string> runs;      // names of the runs it lies in, in order
  Status status = Status::fitted;
  Origin origin;
};

inline bool is_core(const Wire& w) { return w.group.rfind("cord", 0) == 0; }   // "cord", "cord ground": cores by their size

struct LampIntent {            // what survey and method want of one lamp: never from the circuit
  PartId lamp;
  std::string tow_signal;      // signal of the tow line that must light it: left right tail; "" = dark
  // What the coach's driver does to light it in tow: the first of these that is not off.
  std::vector<std::string> drivers;   // "driver.left", "driver.stop"
  PartId converter;            // the part that gave that signal; none where it comes from the coach
  std::string car_function;    // function when the car drives alone
  Side side = Side::centre;
  std::string car_signal;      // signal that lights it when the car drives alone; "" = none
};

struct CutPoint {              // a factory wire cut by the method
  WireId car_side, lamp_side;
  std::string label;           // "GY/VT"
  bool plug = false;           // parted at the lamp's own plug: nothing is cut
  Origin origin;
};

struct BackfeedProbe {         // where the other vehicle's volts must not arrive
  TerminalRef at;
  std::string name;            // "J2 contact 3", "car side of cut GY/VT"
  enum class Towards { coach, car } towards = Towards::car;
};

struct Assumed {               // an inferred value that matters; printed once
  std::string what, why;
  Provenance provenance;
};

struct Circuit {
  std::vector<Part> parts;
  std::vector<Wire> wires;
  std::vector<LampIntent> lamps;
  std::vector<CutPoint> cuts;
  std::vector<BackfeedProbe> probes;
  std::vector<Assumed> assumed;
  std::vector<NetId> net_of;          // by point_index(terminal); filled by number_nets()
  int nets = 0;
  std::vector<std::string> signals;   // every signal a gate names, sorted
  // Signal at the inlet -> coach signal that its core brings, where the cord joins unlike contacts.
  std::map<std::string, std::string> brought_by;
  bool pedal_in_tow = false;          // an auxiliary brake presses the pedal with the coach's brake
  double wire_celsius = 20;           // conductor temperature for resistance
  std::string wire_series;            // in the catalogue, for new wires

  const Part& part(PartId id) const { return parts[static_cast<size_t>(id.v)]; }
  PartId find(std::string_view part_id) const;
  TerminalRef terminal(std::string_view reference) const;   // "D1.A1"; must exist
  std::string name(TerminalRef) const;                      // "D1.A1"
  NetId net(TerminalRef) const;
};

// Points: terminals then inner points, part by part. first_point[part] + terminal index.
struct Points {
  std::vector<int> first;   // by part
  int count = 0;
  int at(TerminalRef t) const { return first[static_cast<size_t>(t.part.v)] + t.index; }
};
Points number_points(const Circuit&);
// Union of terminals over wires and over splice/joint parts; also parts with the same `joins`.
// Fills net_of and nets; net numbers follow part order.
void number_nets(Circuit&);
// Resistance of a wire as sized, at the circuit's wire temperature, ohm:
// R20 · length · (1 + 0.00393 (T - 20))  (IEC 60028).
double wire_ohm(const Wire&, const Circuit&, const Catalogue&);

// Builds the circuit from the survey: factory tree, coach and cord, the method's fragments, cuts,
// and wires over the runs. Sizes not given stay empty. Reports what contradicts itself with both places.
std::optional<Circuit> build(const Spec&, const Catalogue&, Diagnostics&);
// Share of the time that a lamp output of the coach is on while it works; 1 where it is plain, assumed where not surveyed.
double coach_duty(const Spec&, const Catalogue&);
// Mark of the core on a contact of the outlet: "C3"; of a second plug "C3.1", behind its outlet's number. Stubs have M.
std::string core_id(const Plug&, const std::string& contact, char letter = 'C');
// The built circuit has the cord as it should be, and sizes are found for that. Afterwards its cores are laid as the
// job metered them: crossed ones move, those that lead nowhere hang open.
void lay_as_metered(Circuit&, const Spec&, const Catalogue&);

}  // namespace towloom
