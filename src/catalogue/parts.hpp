// Shared by the files of this room: one reader a kind of file.
#pragma once

#include "catalogue/catalogue.hpp"

namespace towloom {

// source: and confidence: of a row; both are required unless `fallback` is given.
Provenance read_provenance(Fields&, const Provenance* fallback = nullptr);
Provenance read_provenance_node(const Node* node, const std::string& what, Diagnostics&);

void read_connector(const Node&, Catalogue&, Diagnostics&);
void read_lamps_file(const Node&, Catalogue&, Diagnostics&);
void read_wire_series(const Node&, Catalogue&, Diagnostics&);
void read_bundling(const Node&, Catalogue&, Diagnostics&);
void read_fuses(const Node&, Catalogue&, Diagnostics&);
void read_diodes(const Node&, Catalogue&, Diagnostics&);
void read_feed(const Node&, Catalogue&, Diagnostics&);
void read_method(const Node&, Catalogue&, Diagnostics&);
void read_rules(const Node&, Catalogue&, Diagnostics&);
void read_part_models(const Node&, Catalogue&, Diagnostics&);
void read_module(const Node&, Catalogue&, Diagnostics&);
void read_functions(const Node&, Catalogue&, Diagnostics&);

// parts: and join: of a method's fragment or of a feed.
std::vector<FragmentPart> read_parts(const Node&, Diagnostics&);
std::vector<FragmentJoin> read_joins(const Node&, Diagnostics&);
// Every end of every join is a port named in `ports` or part.terminal of a known part.
void check_joins(const std::vector<FragmentJoin>&, const std::vector<FragmentPart>&,
                 const std::vector<std::string>& ports, Diagnostics&);

}  // namespace towloom
