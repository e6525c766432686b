// Where every part of the bench sheet stands, in modules. Right side of the vehicle above the axis, left
// below, mirrored; coach lanes outside, factory lanes inside, the car's own sources on the axis.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "check/check.hpp"
#include "layout/route.hpp"

namespace towloom {

struct PinSpot {
  int terminal = 0;              // index in the part
  GridPoint at;
  Way way = Way::any;            // the side a wire leaves on
};
struct Standing {                // one part
  PartId part;
  std::string symbol;            // in the style; empty = a bar or a plain box
  GridPoint at;                  // the symbol's origin, or the box's upper left corner
  GridBox body;                  // what no wire may touch
  std::vector<PinSpot> pins;
  std::vector<GridPoint> bar;    // splice or joint drawn as a bar, two ends
};
struct Housing {                 // frame round the lamps of one unit
  std::string name;
  Side side = Side::centre;
  double left = 0, top = 0, right = 0, bottom = 0;
};
struct Columns {                 // left edges of the zones, and the right edge of the last
  int coach = 8, cord = 20, inlet = 32, run = 37, pocket = 74, lamp = 91, end = 114;
};
struct Placement {
  Columns columns;
  int axis = 38;                 // y of the vehicle's centre line
  std::vector<Standing> parts;
  std::vector<Housing> housings;
  // The wire end's spot: bars have several for one terminal.
  std::map<std::pair<int, bool>, PinSpot> ends;   // wire index, from-end?
  const Standing* of(PartId) const;
};
// Nothing when the job holds more than this sheet has lanes for; `problem` names what.
std::optional<Placement> place_bench(const Circuit&, std::string& problem);

}  // namespace towloom
