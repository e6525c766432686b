// Reads a finished drawing back from its geometry alone and holds it against the circuit; counts
// defects. Shares no code with layout/.
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "drawing/drawing.hpp"

namespace towloom {

struct Defect {
  std::string kind;     // wrong-pin overlap symbol-hit false-junction label-overlap label-on-foreign-wire
                        // outside-frame missing-wire extra-net small-text diagonal …
  std::string message;  // names the pins or wires, and the place in mm
};
struct SheetStats {     // anchors table: printed by --stats
  int wires = 0, crossings = 0, bends = 0, straight = 0, overlaps = 0, symbol_hits = 0, pin_misses = 0;
  int label_overlaps = 0, false_junctions = 0;
  double straight_share = 0, bends_per_wire = 0, length_ratio = 0, worst_detour = 0, min_gap_mm = 0;
  double twin_symmetry = 0, fill = 0;
};
// Every {wire, terminal, terminal} recovered from the geometry of all pages together must equal the
// circuit's; defects of geometry are found page by page.
std::vector<Defect> prove(const std::vector<Drawing>& pages, const Circuit&);
std::vector<Defect> prove_geometry(const Drawing&);   // overlaps, hits, labels; any sheet
SheetStats measure(const Drawing&);

}  // namespace towloom
