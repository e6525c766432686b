// Where every part of the bench sheet stands, in modules. Right side of the vehicle above the axis, left
// below, mirrored; coach lanes outside, factory lanes inside, the car's own sources on the axis.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "check/check.hpp"
#include "layout/sketch.hpp"

namespace towloom {

struct Standing {                // one part, a portion of one, or one more ground symbol of a stud
  PartId part;
  Outline outline;                   // pins, body and labels round the origin
  GridPoint at;
  GridBox body;                  // the same on the sheet: what no wire may touch
  std::vector<PinSpot> pins;
  std::vector<GridPoint> bar;    // splice or joint drawn as a bar, two ends
  std::vector<std::pair<GridPoint, GridPoint>> posts;   // bars on terminals of a symbol
  bool repeat = false;
  int unit = 0;                  // of a part drawn apart: 1, 2, ...
};
struct Housing {                 // frame round the lamps of one unit
  std::string name;
  Side side = Side::centre;
  double left = 0, top = 0, right = 0, bottom = 0;
};
struct Columns {                 // left edges of the zones, and the right edge of the last
  int coach = 0, cord = 0, inlet = 0, run = 0, pocket = 0, lamp = 0, end = 0;
};
struct Placement {
  Columns columns;
  int axis = 0;                  // y of the vehicle's centre line
  int top = 0, bottom = 1 << 20; // highest row that is free of the zones' names, lowest that is free of the notes
  int wide = 0, high = 0;        // modules needed at least; what the paper has is spread over the gaps
  std::vector<Standing> parts;
  std::vector<Housing> housings;
  std::vector<int> no_ground;    // wires whose ground symbol found no free place
  // The wire end's spot: bars have several for one terminal, studs a symbol for each wire.
  std::map<std::pair<int, bool>, PinSpot> ends;   // wire index, from-end?
  const Standing* of(PartId) const;
};
struct SheetRoom {               // free room of the paper, modules
  int left = 8, top = 8, right = 114, bottom = 66;
};
struct Problem {                 // why there is no drawing
  std::string text;
  double times = 1;              // how many times the room that was found it needs; 1: room is not what it lacks
  bool wide = false;             // it lacks width
};
// What other tries of the same page found: orders, and columns with their heights, by the wishes that these depend on and the
// height of the room.
struct Stack {
  std::optional<Sketch> sketch;  // nothing: no room, for this reason
  Problem problem;
  Heights heights;               // as far apart as the room allows
  int least = 0;                 // height that it takes at least
};
struct OtherTries {
  KnownOrders& orders;
  std::map<std::tuple<std::set<int>, unsigned, bool, int>, Stack> stacks = {};   // roomy, start, over_at_dots; height
};
// Nothing when the room is too small; `problem` then says how much is missing.
std::optional<Placement> place_bench(const Circuit&, const Look&, const SheetRoom&, const Wishes&, OtherTries& known, Problem& problem);

}  // namespace towloom
