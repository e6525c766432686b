// Tow connectors: contacts, halves, faces. Every figure with its source and how far it can be trusted.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "yaml/fields.hpp"

namespace towloom {

// Confidence: standard (read in a standard or law) > agreed (several sources) > practice (common
// practice, no source) > memory > low. Memory and low never become a hard limit without a note.
enum class Confidence { standard, agreed, practice, memory, low };
struct Provenance {
  std::string source;       // "33 CFR 183.425 Table 5", "common practice, no source"
  Confidence confidence = Confidence::practice;
  Place place;              // catalogue line
  bool weak() const { return confidence >= Confidence::memory; }
};

using FacePoint = std::pair<double, double>;  // circle of contacts = 1, or one pitch = 1; y UP

struct ConnectorContact {
  std::string number;              // "1"; unique within the connector
  std::string mark;                // moulded letters, may be empty: "GD"
  std::string terminal;            // designation of DIN 72552, may be empty: "58L"
  std::string function;            // one of the catalogue's contact functions
  std::string title;               // printed: "left stop/turn"
  std::string minimum_size;        // "16 AWG", may be empty
  std::optional<double> rating_a;
  std::string shape;               // bullet blade pin
  bool larger = false, longer = false;   // than the others of its face
  double x = 0, y = 0;             // on the mating face of `view_half`, see FacePoint
  std::map<std::string, std::string> gender;   // half -> pin | sleeve | blade | receiver
  std::map<std::string, std::string> colour;   // convention -> IEC 60757 letters, e.g. automotive: YE
  Provenance provenance;           // of function and title
  Provenance position;             // confidence of x, y (weak = "match the moulded letters")
  bool stated = false;             // the job says what it carries, against or beside the catalogue
  Place place;
};
struct ConnectorHalf {
  std::string name;                // "socket" "plug", for flat: "live" "trailer"
  std::string title;               // "vehicle half", printed
  std::string looks_mating, looks_wire;  // "you stand behind the coach and look into the socket"
};
// A named set of wire colours. Colours mean nothing without one.
struct ColourSet { std::string title; Provenance provenance; };
// Another order of the same contacts that is met on the road.
struct ContactLayout { std::string title; std::map<std::string, FacePoint> at; Provenance provenance; };
// Another use of some contacts of the same part.
struct ContactUse { std::string function, title; Place place; };
struct Allocation { std::string title; std::map<std::string, ContactUse> contacts; Provenance provenance; };
// What is known of this connector against another form: `mates` though the uses differ, or does not.
struct MatingNote { bool mates = false; std::string says; Provenance provenance; };
struct Lid { std::string half; FacePoint at; Provenance provenance; };   // its hinge, direction from the centre

struct Connector {
  std::string name;                // "flat-4"
  std::string form;                // the catalogue's form; differs from `name` where a job states a variant
  std::string title;               // "four-way flat"
  std::string shell;               // round | flat
  std::string view_half;           // the half whose mating face the coordinates describe
  std::vector<ConnectorHalf> halves;            // two; they mate each other
  std::string outlet_half;                      // half usually on the coach
  std::string inlet_half;                       // half usually on the car
  std::vector<ConnectorContact> contacts;
  std::string key;                 // printed: "notch", "" if none
  double key_x = 0, key_y = 0;     // same units as contacts
  std::optional<Lid> lid;
  std::optional<double> unit_mm;   // one unit of the coordinates, where a dimension was seen
  Provenance unit_source;
  std::string default_colours;     // convention
  std::map<std::string, ColourSet> colour_sets;
  std::vector<std::string> conventions;         // names of colour_sets
  double contact_ohm = 0;          // one mated contact
  Provenance contact_ohm_source;
  double rating_a = 0;             // of a circuit, 0 = unknown
  Provenance provenance;           // of functions and numbers
  Provenance sizes, ratings, genders, shapes, key_source;   // of these facts of every contact
  std::map<std::string, ContactLayout> layouts;
  std::map<std::string, Allocation> allocations;
  std::vector<std::string> separate_returns;    // contacts never joined on the towed side
  std::map<std::string, MatingNote> others;     // by form
  std::vector<std::string> cautions;            // printed beside the faces
  Place place;
  const ConnectorContact* contact(std::string_view number_mark_or_terminal) const;
  const ConnectorHalf* half(std::string_view name) const;
};

// How colours of wires are written in one country or trade. `codes` maps a code to IEC 60757 letters, in
// file order (IEC's own is the order in which it joins several).
struct ColourConvention {
  enum class Joined { no, base_first, table_order };
  std::string title;
  std::vector<std::string> between;          // marks between base and tracer
  Joined joined = Joined::no;                // what codes run together mean
  std::vector<std::pair<std::string, std::string>> codes;
  Provenance provenance;
};

// What a contact can carry: "left": "left turn or stop/turn", short "LT". With a kind it is a signal of the tow line.
struct ContactFunction {
  std::string title, short_title;
  std::string kind;                // lamp | supply | brake | ground | report (the car feeds it) | presence (the coach looks at it); "" = carries nothing
  Placed<std::string> with;        // the coach's driver works it with this one, itself unless stated; engine = while it runs; always
  std::string beside;              // where signals are combined: what it carries while that is off
  std::string own;                 // the coach's own lamp on that wire: bright | dim, "" = none
  int count = 1;                   // of those lamps
};

}  // namespace towloom
