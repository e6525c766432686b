// What the job file says, as the fitter filled it in: names not yet resolved, values in SI units.
// Every row keeps its place, so that a finding can point at it.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "yaml/fields.hpp"

namespace towloom {

using PlacedText = Placed<std::string>;
using PlacedNumber = Placed<double>;
using PlacedSize = Placed<WireSizeName>;

enum class Side { left, right, centre };  // always the vehicle's

struct TitleRows {  // job:
  PlacedText title, number, date, by;  // date ISO 8601
  std::string revision = "A";
  std::string country, car, customer;  // optional, free text
};

// coach: found: one row per contact that was tested. "loaded" volts name their load.
struct FoundContact {
  PlacedText contact;                  // number or moulded letters, as in the catalogue
  std::optional<PlacedText> does;      // a contact function of the catalogue, or nothing
  std::optional<PlacedNumber> open_v, loaded_v, load_a, fuse_a;
  std::optional<PlacedText> live;      // always | engine: when a supply contact is live
  std::optional<PlacedNumber> fuse_at_m;   // along the wire from its source to the fuse
  bool fuse_covered = false;               // that stretch lies in a sheath or conduit
  int plug = 0;                            // of the main outlet; else of this one of the second plugs, counted from 1
  // The contact while its signal is off: nothing said or open; else driven to the coach's ground through so many ohms.
  std::optional<PlacedNumber> off_ohm;
  std::string note;
};
struct Outlet {        // written "flat-4, left of receiver" or {form:, half:, at:, layout:}
  PlacedText form;     // catalogue name
  std::optional<PlacedText> half;  // socket plug live trailer (names of the connector's halves)
  std::string at;
  std::optional<PlacedText> layout, use, colours;  // of the catalogue: order on the face, allocation, colour set
  // Where this very part differs from the catalogue, and why: contact -> what it carries; contact -> its place as
  // seen on the mating face of its own half ("3 o'clock", "centre"; flat ones "2 from left").
  std::vector<std::pair<PlacedText, PlacedText>> pins, positions;
  std::optional<PlacedText> why;
};
struct Flasher {       // coach: flasher: as timed, cycle by cycle
  PlacedText kind;     // fixed load | variable load: what its rate depends on
  std::vector<std::pair<double, double>> cycles_s;   // lit, dark
};
struct Coach {
  Outlet outlet;
  PlacedText signals;  // combined | separate
  std::vector<FoundContact> found;         // of every outlet
  std::optional<Flasher> flasher;
  std::optional<PlacedText> lamp;  // bulb of the coach's own lamps; assumed by function when absent
  std::optional<PlacedText> detection;   // none | load: it looks for a load before it works a contact
  std::optional<PlacedText> outputs;     // plain | pulse-modulated: what its lamp contacts give while they are on
  std::optional<PlacedNumber> duty;      // share of the time that a pulse-modulated output is on, 0 to 1
  std::optional<PlacedNumber> limit_a;   // what its electronics lets one lamp contact give
  Place place;
};

struct Cord {
  PlacedNumber length_m;
  std::optional<PlacedSize> wire;
  std::vector<std::pair<PlacedText, PlacedSize>> cores;   // those of another size, by what they carry
  std::string kind;  // "coiled", free text
  std::vector<PlacedText> ends;  // none, or two: "blade-7 plug" at the coach, then at the car
  std::vector<std::pair<PlacedText, PlacedText>> continuity;  // as metered: outlet's contact, inlet's contact or none
  Place place;
};

// second plugs: what goes over a plug of its own beside the main one: a second outlet, cord and inlet.
struct SecondPlug {
  PlacedText name;     // "charge plug"
  Outlet outlet, inlet;
  Cord cord;
};
// One way from the coach to the car.
struct Plug {
  int index = 0;       // 0 = the main one
  const Outlet *outlet = nullptr, *inlet = nullptr;
  const Cord* cord = nullptr;
  std::string name;    // "" = the main one
  std::string outlet_id() const;   // printed: J1, J2 the main pair; J3, J4 the next
  std::string inlet_id() const;
  std::string of() const;          // " of the charge plug", "" of the main one
};

struct SizedColour {  // "GY/VT 0.75 mm2": colours as surveyed, base then tracer
  PlacedText colour;
  std::optional<PlacedSize> size;
};

// One function of one lamp. Rows that share `in` (or their own name) are one housing.
struct LampRow {
  PlacedText name;        // "left rear", "plate"
  std::string unit;       // housing: its own name, or `in: left rear`
  Side side = Side::centre;
  PlacedText function;    // stop-turn tail stop turn chmsl plate reverse fog
  PlacedText source;      // "P21/5W bright", "2 x R5W", "LED 0.25 A", "1.86 A" as written
  int count = 1;          // 2 in "2 x R5W"
  std::string bulb;       // "P21/5W", empty for measured amps
  std::string filament;   // "bright" "dim" or empty
  bool led = false;
  std::optional<double> amps;  // measured, one lamp, at 12.8 V
  // LED functions whose law is known, one lamp: "LED 3.2 W from 9 V", "LED 20 ohm from 7 V", "LED 0.29 A from 7 V".
  std::optional<double> watts, ohm, from_v;
  std::string lens;       // "amber", "red"; empty = by function
  SizedColour feed;
  PlacedText node;        // factory node
  std::optional<SizedColour> return_wire;
  std::optional<PlacedText> return_stud;   // ground name
  std::optional<PlacedText> branch;        // "upstream of left rear": where its leg leaves the trunk
  std::string drive = "switched";          // how the car drives it, see lamp_drives()
  bool dark_in_tow = false;                // in tow: dark
  bool added = false;                      // fitted for towing: no factory feed, no node
  std::optional<PlacedText> at;            // added: its place on the runs
  Place place;
};

struct StopSwitch {
  PlacedText kind;                    // switch | module
  std::vector<PlacedText> feeds;      // node names, or "turn switch"
};
struct Car {
  Outlet inlet;
  std::string battery;                // place, free text
  bool battery_sensor = false;        // a sensor on its negative post measures what flows between post and body
  PlacedText drive;                   // left-hand | right-hand
  std::optional<PlacedText> ignition; // off accessory run, in the towing state
  std::optional<PlacedText> stop_lamps;  // live | asleep | dead, in the towing state
  std::optional<PlacedNumber> standing_draw_a;   // of the car's own electronics in that state, measured
  PlacedText monitoring;              // none | flasher | on-current | off-pulse
  StopSwitch stop_switch;
  std::optional<PlacedText> colours;     // convention in which the wires' colours are written
  std::vector<LampRow> lamps;
  Place place;
};

struct Isolation {
  PlacedText method;                             // catalogue name
  std::optional<PlacedText> converter;           // catalogue name of a method that gives other signals
  std::map<std::string, PlacedText> by_function; // lamp function -> method, where it is another one
  std::vector<PlacedText> named;                 // those functions, as written
  std::map<std::string, PlacedText> choices;     // the method's own `choose` keys, e.g. diode: silicon
  std::optional<PlacedText> plate;               // "with left tail": re-fed on that lamp's side
  Place place;
};

// extras: one row an extra; its keys are the choices of its file.
struct ExtraRow {
  PlacedText name;
  std::map<std::string, PlacedText> choices;
};

struct RunRow {
  PlacedText name;        // front, sill, cross
  PlacedText from, to;    // place names: inlet, left grommet, left rear ...
  PlacedNumber length_m;
  std::string cover;
  std::string through;    // a passage on its way: "grommet in the bulkhead"
  std::string keep_off;   // what lies beside the way and is not to be touched or tied to: "airbag loom"
};
struct GroundRow {
  PlacedText name;        // G-F
  PlacedText at;
  std::optional<PlacedText> takes;   // "coach white"
  std::optional<PlacedText> beside;  // the place of the runs that it serves; the inlet for the coach's white wire
  std::optional<PlacedText> on;      // what the screw bites in: a surface of the catalogue; bare steel when absent
};

struct WireRules {        // wire:
  PlacedText standard;    // AWG | SAE | ISO   (series in the catalogue)
  // circuit -> size: lamps (the ribbon), ground, tail, left, charge, battery ...; names are checked when built
  // `auto` or absent = computed. "16 AWG ribbon of 4" sets size and ribbon.
  std::map<std::string, std::optional<PlacedSize>> size;
  std::map<std::string, Place> named;   // where each of them was written
  std::optional<PlacedText> basis;   // ampacity: a basis of the catalogue; absent = the catalogue's usual one
  bool ribbon = false;    // tail, left, right and ground are one bonded ribbon of one size
  Place place;
};

// as found: a fault in the words of check --faults; or a part, contact, wire or ground by its mark with what was seen
// or read there; or "cord" with its cores as metered. Each with reason and date.
struct AsFoundRow {
  PlacedText what, why, date;
  std::optional<PlacedText> on;        // a ground: the surface it was found on
  std::optional<PlacedText> band;      // a diode: "away" from its lamp or load
  std::optional<PlacedText> fitted;    // "no": a fuse, contact or part that is not there, bridged by its wires
  std::optional<PlacedNumber> ohm;     // read with the power off, in series
  std::optional<PlacedNumber> loses_v, at_a;   // read across it while so many amps flow
  std::vector<std::pair<PlacedText, PlacedText>> cores;   // outlet's contact, inlet's contact or "nothing"
};
// measured: a reading of the day. In towing scenes unless the scene says otherwise.
struct MeasuredRow {
  PlacedText at;                       // terminal or lamp: "J2.LT.car", "left rear", "E1"
  PlacedText scene;                    // "tail + left"
  std::optional<PlacedText> against;   // terminal; car body when absent, a lamp's own return at a lamp
  PlacedNumber volts;
  std::string date;
};

struct Limits {           // limits: each has a default with its source in the catalogue
  std::optional<PlacedNumber> drop_v;      // wire, contacts and return, isolating element apart
  std::optional<PlacedNumber> ambient_c;   // around the wires; default 30 (33 CFR 183.425)
};

struct Spec {
  int file = -1;
  TitleRows job;
  Coach coach;
  Cord cord;
  std::vector<SecondPlug> second_plugs;
  Car car;
  Isolation isolation;
  std::vector<ExtraRow> extras;
  std::vector<RunRow> runs;
  std::vector<GroundRow> grounds;
  WireRules wire;
  Limits limits;
  std::vector<AsFoundRow> as_found;
  std::vector<MeasuredRow> measured;
  std::string paper = "a4";     // sheets: paper
  Place paper_place;
  bool paper_named = false;     // if not, the bench sheet takes the first of the style's series that holds it
  std::vector<PlacedText> catalogues;   // catalogue: folders of the user's own catalogue files
  std::vector<Node> definitions;        // catalogue: methods, connectors ... written in the job itself
};

// The main plug first, then the second plugs. They point into the spec.
std::vector<Plug> plugs(const Spec&);

// Fills count, bulb, filament, led and figures of a lamp from the text of its source; an error where it makes no sense.
void read_source(LampRow&, Diagnostics&);

// How a car can drive a lamp: switched, controller, pulse-modulated, data-bus, ground-switched.
const std::vector<std::string>& lamp_drives();

// Reads one job. Every problem of the file is reported in one run; nothing if there was an error.
std::optional<Spec> read_job(const Node& root, int file, Diagnostics&);
// The same, with what could be read although there were errors: so that its names can be checked in the same run.
Spec read_rows(const Node& root, int file, Diagnostics&);

}  // namespace towloom
