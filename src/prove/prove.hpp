// Reads a finished drawing back from its geometry alone and holds it against the circuit; counts
// defects. Shares no code with layout/.
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "drawing/drawing.hpp"

namespace towloom {

struct Defect {
  // Of geometry: diagonal degenerate fold-back pin-miss wrong-pin overlap too-near symbol-hit
  // false-junction link-crossed no-dot crowded-point stray-dot part-overlap outside-frame
  // label-overlap label-on-part label-on-foreign-wire label-on-own-wire label-far label-ambiguous
  // small-text leader-loose leader-crossed.
  // Against the circuit: missing-wire extra-wire missing-piece wrong-ends wrong-data missing-part
  // extra-part missing-pin unknown-terminal repeated-terminal split-net extra-net wrong-net.
  std::string kind;
  std::string message;  // names the pins or wires, and the place in mm
};
struct SheetStats {  // anchors table A4: printed by --stats
  int wires = 0, crossings = 0, bends = 0, straight = 0, overlaps = 0, symbol_hits = 0,
      pin_misses = 0;
  int label_overlaps = 0, label_ambiguity = 0, false_junctions = 0, most_bends = 0;
  int layered_crossings = 0;   // that the order in which wires pass and leave the columns of terminals asks for
  double crossing_score = 1;   // 1 - crossings / the most there could be
  double straight_share = 0, bends_per_wire = 0, length_ratio = 0, worst_detour = 0;
  double excess_bends = 0;     // a wire, over what the sides of its pins ask for
  double min_gap_mm = 0;       // 0: no two parallel wires of different nets face each other
  double twin_symmetry = 0;    // 1 where nothing has a twin
  double twin_routes = 1;      // share of twin wires that are mirror images
  double aligned_share = 1;    // parts level with one they are wired to
  double flow_share = 1;       // wires that run to the right or downwards from source to load
  double fill = 0, aspect = 0; // used box by frame; |ln| of its proportions by the frame's
  double least_capital_mm = 0, thinnest_line_mm = 0;
};
// Every {wire, terminal, terminal} recovered from the geometry of all pages together must equal the
// circuit's; defects of geometry are found page by page.
std::vector<Defect> prove(const std::vector<Drawing>& pages, const Circuit&);
std::vector<Defect> prove_geometry(const Drawing&);  // overlaps, hits, labels; any sheet
SheetStats measure(const Drawing&);
// The figures one a line, each with its goal.
std::string stats_table(const std::string& name, const SheetStats&);

}  // namespace towloom
