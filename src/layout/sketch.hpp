// The circuit as columns of nodes and links between neighbouring columns, before it has coordinates.
#pragma once

#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "layout/columns.hpp"
#include "layout/outline.hpp"
#include "layout/sides.hpp"

namespace towloom {

struct SketchNode {
  PartId part;                   // none: a wire that passes this column
  int wire = -1;                 // the passing wire
  Side side = Side::centre;      // right above the axis, left below, centre on it
  int twin = -1;                 // its mirror image on the other side
  int column = 0;
  Outline outline;
  bool bar = false;              // splice or joint of four and more: its terminals find their own heights
  std::vector<int> posts;        // terminals of a symbol that four wires and more end on: each gets a bar
  int x = 0, y = 0;              // of its origin, modules; y from the axis
  bool passing() const { return !part; }
};
struct SketchLink {              // a wire, or its stretch between two neighbouring columns
  int wire = 0;
  int left = 0, right = 0;       // nodes
  int left_terminal = -1, right_terminal = -1;   // -1 at passing nodes
};
struct Sketch {
  std::vector<SketchNode> nodes;
  std::vector<SketchLink> links;           // only those between neighbouring columns
  std::vector<std::vector<int>> columns;   // nodes from top to bottom
  std::vector<int> zone;                   // of each column: see Zones
};
// What a first try lacked: the next one is placed with it.
struct Wishes {
  int widen = 0;                 // modules added to each gap, for wires that found no way
  std::map<int, int> wider;      // wire -> modules added to the gap where it begins, for its label
  std::set<int> roomy;           // wires that want two lines of text above or below them
  bool whole_grounds = false;    // no label is given room at a ground symbol's cost
  unsigned start = 0;            // where the search for an order begins; 0: as the library has it
  bool over_at_dots = false;     // wires from a dot to the other side of the sheet go over at the dot, as those of bars do
};

// Which side and column each part stands in, and its mirror image. Studs are left out: each wire to one
// gets a ground symbol of its own. `lit`: lines of text at the lamps that light in tow; the others have one.
Sketch make_sketch(const Circuit&, const Look&, LampLines, const Wishes&);
// Orders each column, looking from `start` on for better ones: right side, centre, left side from the top; mirror images at mirrored places.
// It does not ask how much room the labels want: each start is searched from once, and kept in `known`.
using KnownOrders = std::map<std::pair<unsigned, bool>, std::vector<std::vector<int>>>;   // by start and `over_at_dots`
void order_columns(Sketch&, const Circuit&, const Wishes&, KnownOrders& known);
// Heights by the axis: straight links first, then as near the axis as the order allows. `spread`: modules
// added between parts. Returns the greatest distance from the axis above and below.
struct Heights { int above = 0, below = 0; };
Heights set_heights(Sketch&, const Circuit&, int spread);
// Gap to the right of each column, modules: tracks for what is upright in it, and labels of short wires.
// wanted: all labels; least: those of new wires and the volts; hard: tracks and the shortest labels only; bare: hard
// without what the wishes ask for.
struct GapNeed {
  int hard = 1, least = 1, wanted = 2, bare = 1;
};
std::vector<GapNeed> gap_needs(const Sketch&, const Circuit&, const Look&, const Wishes&);
// What is printed beside a wire: at least number and letters; on a second line size and length to cut.
std::string short_label(const Wire&, const Style&);
struct CutText { std::string size, length; };
CutText cut_text(const Wire&);

const PinSpot* pin_of(const SketchNode&, int terminal);

}  // namespace towloom
