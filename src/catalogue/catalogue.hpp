// What the trade knows, read from specs/: every figure with its source and how far it can be trusted.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "catalogue/connector.hpp"
#include "spec/job.hpp"

namespace towloom {

// ---- lamps, wire, fuses, diodes ------------------------------------------------------------
struct Filament {
  std::string name;                // "bright" "dim", "" for a single one
  double volts = 0, amps = 0;      // design point
  double light_lm = 0;             // at `volts`, 0 = unknown
  Provenance provenance;
};
struct Bulb {
  std::string name, title;         // "P21/5W"
  std::vector<Filament> filaments;
  Provenance provenance;
};
struct WireSize {
  WireSizeName name;               // 16 AWG
  double area_mm2 = 0;             // of copper
  double ohm_per_m = 0;            // 20 °C, the figure to compute with
  std::optional<double> fuse_max_a;   // largest fuse by common practice
  Provenance provenance;
};
struct WireSeries {
  std::string name, title;         // "AWG"
  double insulation_c = 0;         // temperature class
  std::string basis;               // where its ampacity comes from unless the job names another
  std::vector<WireSize> sizes;     // rising area
  Provenance resistance;
  const WireSize* find(const WireSizeName&) const;
};
struct Bundling { int from = 0, to = 0; double factor = 1; };
// What wires may carry by one rule: a table by size and insulation, stated for 30 °C and a wire alone, and its
// factors for loaded conductors that lie together.
struct AmpacityBasis {
  struct Row {
    WireSizeName name;
    double area_mm2 = 0;
    std::vector<double> amps;      // by column
  };
  std::string name, title;         // "33 CFR", "ISO"
  std::vector<double> insulation_c;   // columns, rising
  std::vector<Row> rows;           // rising area
  std::vector<Bundling> bundling;  // rising, without a gap
  Provenance provenance, bundling_provenance;
  bool weak() const { return provenance.weak() || bundling_provenance.weak(); }
  // The hottest column that this insulation bears; -1 when it bears none.
  int column(double insulation) const;
  // Continuous amps of one wire alone at 30 °C: the row of its name, else the thickest row that is no thicker
  // than it; 0 where the table has none.
  double amps(const WireSize&, double insulation) const;
};
// How hot a part gets for each watt, by how it is mounted: "on metal", "free air", "in loom".
struct Thermal {
  std::map<std::string, double> k_per_w;
  double hottest_c = 0;
  Provenance provenance;
};
const std::vector<std::string>& mountings();
struct FuseRating { double amps = 0; double ohm = 0; std::string colour; Provenance provenance; };
struct DiodeModel {                // Shockley, electrical figures at 27 °C
  std::string name, title;         // "silicon", "silicon block"
  double is = 0, n = 1, rs = 0;    // A, -, ohm
  double eg = 1.11, xti = 3;       // eV, -
  double rated_a = 0;
  Thermal thermal;
  Provenance provenance;
};

// A relay, charger, output ...: the figures that its kind asks for (part_kinds.hpp), SI units.
struct PartModel {
  std::string name, kind, title;   // "change-over-cube", "relay"
  PlacedText body_diode;           // diode inside its transistor, "" = none
  std::map<std::string, double> figures;
  std::optional<Thermal> thermal;
  std::string live_in;             // load: when it must have its supply: tow | stop | parted, "" = not asked
  bool suppressed = false;         // relay: its coil has its own diode or resistor
  Provenance provenance;
};
// A terminal, splice, sleeve or cover as the trade sells it.
struct Fitting {
  std::string name, kind, title;   // "blue", "terminal", "insulated terminal"
  std::string colour;              // of its insulation, printed; "" = none
  std::vector<WireSizeName> awg, metric;   // the wire it takes, thinnest and thickest; none = not by wire
  std::string use;                 // printed: where it belongs, what to mind
  Provenance provenance;
};
// A terminal's designation by DIN 72552. Some meant another thing in older lists: they need a context.
struct Designation {
  std::string name, meaning, older;   // "54L", "left stop/turn", "flasher output, now 49a"; older may be empty
  Provenance provenance;
};
struct TableRow {                // of a truth table
  std::vector<std::string> in, out;   // 0 1 F G, x = any; out also =NAME of an input
  bool otherwise = false;             // matches what no row above does
  bool uncertain = false;             // a known limit of the device: these lamps may differ
};
// A box that looks at its inputs: a truth table over waveforms (0, 1, F flashes, G in the other phase).
struct ModuleModel {
  std::string name, title;
  double works_from_v = 0, stops_at_v = 0, draw_a = 0;   // its supply
  double high_v = 0, low_v = 0, input_ohm = 0;           // its inputs
  double on_ohm = 0, leak_a = 0;                         // its outputs
  PlacedText body_diode;                                 // inside each output's transistor, "" = none
  std::optional<Thermal> thermal;
  int late_flashes = 0;                                  // flashes until it has understood
  std::vector<std::string> inputs, outputs;              // signals: terminals are in_left, out_left
  std::vector<TableRow> rows;
  std::vector<std::string> limits;                       // sentences for the customer
  Provenance provenance;
};
// A function of a lamp: what lights it in the car, and which coach signal in tow.
struct LampFunction {
  std::string name, title;         // "stop-turn", "stop/turn"
  std::string car;                 // car.pedal; SIDE stands for left or right
  std::vector<PlacedText> tow;     // the first signal that the tow line has; SIDE as above
  std::string only;                // combined | separate: the tow rows count for that kind only
  bool optional = false;           // may stay dark where the coach has none of these signals
};

// ---- scenes: what is solved; see specs/scenes.yaml ------------------------------------------
using SceneSignals = std::map<std::string, std::string>;   // signal -> off | on | flash
struct SceneRow {
  std::string name, why;           // "tail + left"; words joined by " + ", none for "all off", "at rest"
  std::vector<std::string> words;
};
struct SceneState {                // how else it can stand in tow: "pedal pressed", "engine off"
  std::string name, of, why;
  std::string why_with_brake;      // where an auxiliary brake presses the pedal
  std::vector<std::string> stop_lamps;   // surveys that it counts for; none = all
  SceneSignals set;
};
struct SceneTable {
  std::map<std::string, SceneSignals> coach_words, car_words;
  SceneSignals in_tow, driven;     // in every scene of that kind
  std::vector<SceneRow> towing, towing_with_logic, car_alone, coach_alone;
  std::vector<SceneState> states;
  std::vector<std::string> printed;   // of the scenes in a state, and of the coach alone: those that sheets print
  Provenance provenance;
};

// ---- circuit fragments: methods and feeds --------------------------------------------------
// A fragment names parts and joins (nets); it owns no wire and no length.
struct FragmentPart {
  std::string name, kind;          // "block", "diode-pair"
  std::map<std::string, PlacedText> values;  // model: $diode, signal: car.pedal, rating: $fuse ...
  PlacedText at;                   // lamp | inlet | battery | stop switch | $choice | a place of the runs
  Place place;
};
struct FragmentJoin { std::vector<PlacedText> ends; };   // "block.A1", "signal", "feed", "lamp" ...
// Laid once for each lamp that is towed, for each added lamp, for each trunk that feeds one of the lamp
// functions in `of`, or once in the job.
struct Fragment {
  std::string scope;               // lamp | added | trunk | job
  std::string cut;                 // leg | trunk | negative | none: the factory wire that is parted
  std::vector<std::string> of;     // lamp functions that are meant; lamp scope: none = all
  PlacedText side;                 // lamp scope: left, right or a $choice of them; "" = both
  std::map<std::string, std::vector<std::string>> only;   // counts only where these choices have these values
  std::vector<FragmentPart> parts;
  std::vector<FragmentJoin> joins;
  std::map<std::string, PlacedText> gives;   // tow signal -> part.terminal that carries it from here on
  Place place;
};
struct Choice {                    // what a job may set
  std::string key;
  std::string of;                  // diodes, parts, modules, places, signals, amps, ohms; "" = one of `words`
  std::vector<std::string> words;
  std::string fallback;
  Place place;
};
// The names behind each $ of a text: "signal.$from" -> from.
std::vector<std::string> choice_names(const std::string& text);
// Rows are read from the top: one that asks for an extra or doubts speaks and reading goes on; the first one that
// says suited or unsuited ends it.
struct SuitRow {
  std::map<std::string, std::vector<std::string>> when;   // keys and words: suit_words()
  std::string verdict;             // suited | with-extra | doubtful | unsuited
  std::string extra, why;
  Place place;
};
// A method of isolation or an extra: both are fragments with what a fitter should know of them.
struct Method {
  std::string name, title, says;
  bool extra = false;
  bool added_lamps = false;        // lamps of its own; the car's stay dark in tow
  bool presses_pedal = false;      // in tow the car's pedal goes down with the coach's
  bool opens_battery = false;      // in tow the car's battery is disconnected
  bool charges_battery = false;    // in tow the coach charges the car's battery over it
  std::string gives_signals;       // combined | separate: of a converter
  std::map<std::string, std::string> brings;   // added lamps that it usually brings: function -> source
  std::vector<std::map<std::string, PlacedText>> remedies;   // extra: choices that advise may try to mend a candidate with
  double hours_from = 0, hours_to = 0;         // to fit, lamps only
  bool each_journey = false;                   // they are spent before every journey
  std::string reversible;          // printed: "with splices"
  Provenance effort;               // of hours and reversible
  std::vector<SuitRow> suits;
  std::vector<Choice> choices;
  std::vector<Fragment> fragments;
  std::vector<std::string> steps, cautions;
  Provenance provenance;
};
// How a factory node is driven: a fragment whose ports are node outputs.
struct Feed {
  std::string name, title;         // "turn-switch-combined"
  std::vector<FragmentPart> parts;
  std::vector<FragmentJoin> joins; // ports: supply, stop, out.left, out.right, out
  std::vector<std::string> drives; // lamp functions
  std::string drive;               // switched | controller | pulse-modulated | data-bus | ground-switched
  bool each_node = false;          // a part of its own for every node; else one for the car
  Provenance provenance;
};

struct CircuitColour {
  std::string colour;              // IEC 60757 letters
  bool returns = false;            // its current runs to where it begins: grounds
  Provenance provenance;
};
struct Instrument {                // what a reading is taken with
  std::string name, title;         // "test-lamp", "test lamp, 5 W"
  double ohm = 0;                  // or
  PlacedText lamp;                 // a bulb of the catalogue with one filament
  Provenance provenance;
};
struct FaultKind {                 // one kind of single fault; see specs/faults/
  std::string name, title;         // "wire-open", "{at} open": {at} stands for the wire, part or contact
  double ohm = 0;                  // in the way or across; 0 where the kind needs none
  Provenance provenance;
};

struct Surface {                   // what a ground screw was found to bite in
  std::string name;                // "painted"
  double ohm = 0;                  // between ring and body
  std::string says;                // what is wrong with it; empty = nothing
  Provenance provenance;
};
struct Rule {                      // a default or limit with its source: drop budget, spare lengths ...
  double value = 0;
  Provenance provenance;
};

struct JobKey {                    // what a job file may say
  std::string block, under;        // "contact", "coach: found: CONTACT"
  std::string key, write, says;    // capitals stand for a name of the fitter's own
  bool needed = false;
};

struct Catalogue {
  std::map<std::string, Connector> connectors;
  std::map<std::string, ContactFunction> contact_functions;
  std::map<std::string, ColourConvention> colour_conventions;
  std::map<std::string, Bulb> bulbs;
  std::map<std::string, WireSeries> wires;
  std::map<std::string, AmpacityBasis> ampacity;   // holds the basis of every wire series: checked when loaded
  std::vector<FuseRating> fuses;
  std::map<std::string, DiodeModel> diodes;
  std::map<std::string, PartModel> parts;
  std::map<std::string, ModuleModel> modules;
  std::map<std::string, Fitting> fittings;
  std::map<std::string, Designation> designations;
  std::vector<LampFunction> functions;
  std::map<std::string, CircuitColour> circuits;   // by name: where no connector's convention says one
  std::vector<JobKey> job_keys;                         // in the order of their file
  std::map<std::string, ContactFunction> tow_signals;   // the contact functions that carry something
  std::map<std::string, Method> methods, extras;
  std::map<std::string, Feed> feeds;
  std::map<std::string, Instrument> instruments;   // holds meter and meter-1k: checked when loaded
  std::map<std::string, FaultKind> faults;
  SceneTable scenes;               // never empty: checked when loaded
  std::map<std::string, Surface> surfaces;
  std::map<std::string, Rule> rules;   // by name, SI units; see specs/rules.yaml
  const Rule& rule(const std::string& name) const;   // must exist: checked when loaded
  const LampFunction* function(const std::string& name) const;
};

// Names of the rules that the program asks for; read_catalogue reports a missing one.
const std::vector<const char*>& required_rules();

// Reads every *.yaml below `folder` (specs/, without jobs/). Files are added to `sources`.
// `own`: further folders, read after it and held to the same rules; their place is where they were named.
// `definitions`: what a job's own file defines, each as a catalogue file of its own would.
std::optional<Catalogue> read_catalogue(const std::filesystem::path& folder, Sources& sources, Diagnostics&,
                                        const std::vector<PlacedText>& own = {}, const std::vector<Node>& definitions = {});

// What a row of suits: may ask of a survey: each key with its words.
const std::map<std::string, std::vector<std::string>>& suit_words();

}  // namespace towloom
