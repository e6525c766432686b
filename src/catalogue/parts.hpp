// Shared by the files of this room: one reader a kind of file.
#pragma once

#include "catalogue/catalogue.hpp"

namespace towloom {

// source: and confidence: of a row; both are required unless `fallback` is given.
Provenance read_provenance(Fields&, const Provenance* fallback = nullptr);
std::optional<Confidence> read_confidence(Fields&, const char* key);
// thermal: hottest: thermal source: thermal confidence:; nothing where `thermal` is absent.
std::optional<Thermal> read_thermal(Fields&);
Provenance read_provenance_node(const Node* node, const std::string& what, Diagnostics&);

void read_connector(const Node&, Catalogue&, Diagnostics&);
void read_colour_conventions(const Node&, Catalogue&, Diagnostics&);
void read_contact_functions(const Node&, Catalogue&, Diagnostics&);
// Parts of a connector's file. `contacts` must be read before layouts and allocations.
FacePoint read_face_point(const Node*, const std::string& what, Diagnostics&);
void read_contacts(Fields&, Connector&, Diagnostics&);
ContactLayout read_layout(Fields&, const Connector&, Diagnostics&);
Allocation read_allocation(Fields&, const Connector&, Diagnostics&);
void check_connectors(const Catalogue&, Diagnostics&);
void read_lamps_file(const Node&, Catalogue&, Diagnostics&);
void read_wire_series(const Node&, Catalogue&, Diagnostics&);
void read_ampacity(const Node&, Catalogue&, Diagnostics&);
void check_ampacity(const Catalogue&, Diagnostics&);   // once everything is read
void read_fuses(const Node&, Catalogue&, Diagnostics&);
void read_diodes(const Node&, Catalogue&, Diagnostics&);
void read_feed(const Node&, Catalogue&, Diagnostics&);
void read_method(const Node&, Catalogue&, Diagnostics&);
void read_extra(const Node&, Catalogue&, Diagnostics&);
void read_rules(const Node&, Catalogue&, Diagnostics&);
void read_part_models(const Node&, Catalogue&, Diagnostics&);
void read_module(const Node&, Catalogue&, Diagnostics&);
void read_faults(const Node&, Catalogue&, Diagnostics&);
void read_surfaces(const Node&, Catalogue&, Diagnostics&);
void read_job_keys(const Node&, Catalogue&, Diagnostics&);
void read_instruments(const Node&, Catalogue&, Diagnostics&);
void check_instruments(const Catalogue&, Diagnostics&);   // once everything is read
void read_functions(const Node&, Catalogue&, Diagnostics&);
void read_scenes(const Node&, Catalogue&, Diagnostics&);
void read_fittings(const Node&, Catalogue&, Diagnostics&);
void read_designations(const Node&, Catalogue&, Diagnostics&);
// Once everything is read: every signal that a lamp function, method or module names is one that a contact can carry.
void check_signals(const Catalogue&, Diagnostics&);

// A name that stands in file names and job files: small letters, digits, hyphens.
void check_file_word(const PlacedText&, const char* what, Diagnostics&);

// Calls `read(fields, entry)` for every row of the map under `key`; what it leaves unread is reported.
template <class Read>
void each_row(Fields& file, const char* key, const std::string& what, const Read& read) {
  const Node* rows = file.need_node(key);
  if (rows == nullptr) return;
  for (const Entry& e : rows->entries) {
    Fields fields(e.value, what + " " + e.key, file.diagnostics());
    read(fields, e);
    fields.finish();
  }
}

// Adds a named thing; a name that stands in the catalogue already is an error at `place`: which of the two
// would count must not depend on the order of files.
template <class Map, class Value>
void keep(Map& map, const std::string& name, Value value, Place place, const char* what, Diagnostics& diagnostics) {
  if (!map.emplace(name, std::move(value)).second)
    diagnostics.error("twice", place, std::string("a ") + what + " '" + name + "' stands in the catalogue already",
                      "give one of them another name");
}

// parts: and join: of a method's fragment or of a feed.
std::vector<FragmentPart> read_parts(const Node&, Diagnostics&);
std::vector<FragmentJoin> read_joins(const Node&, Diagnostics&);
// Every end of every join is a port named in `ports` or part.terminal of a known part. A port that ends in
// a dot takes any name behind it: "signal.".
void check_joins(const std::vector<FragmentJoin>&, const std::vector<FragmentPart>&,
                 const std::vector<std::string>& ports, Diagnostics&);

}  // namespace towloom
