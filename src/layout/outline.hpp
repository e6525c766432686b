// How a part looks on the bench sheet, in modules of 2.5 mm round its own origin: symbol or generated box,
// terminals, and the room its labels need.
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "drawing/style.hpp"
#include "drawing/text.hpp"
#include "layout/route.hpp"

namespace towloom {

struct PinSpot {
  int terminal = 0;              // index in the part
  GridPoint at;
  Way way = Way::any;            // the side a wire leaves on
};
struct OutlineLabel {
  std::string text;
  double x = 0, y = 0;           // base line
  Anchor anchor = Anchor::middle;
  bool strong = false;
};
struct Room { double left = 0, top = 0, right = 0, bottom = 0; };
struct Outline {
  std::string symbol;            // in the style; empty = a box made from the terminal list, or a bar
  bool flipped = false;          // top and bottom changed: parts of the lower half that have an outer side
  std::vector<PinSpot> pins;
  GridBox body;                  // what no wire may touch
  std::vector<OutlineLabel> labels;
  Room room;                     // body and labels
  std::vector<GridBox> label_cells;   // grid points that the labels cover
};

struct Look {                    // what shapes are made from
  const Style& style;
  const TextMeasure& measure;
  double width(const std::string& text, bool strong) const;   // of a printed label, modules
};

enum class LampLines { two, one };   // function and bulb below each other, or in one line above
// `variant`: another symbol of the kind, "" or "-common-first". Upper half: coach side up.
Outline outline_of(const Part&, const std::string& variant, bool lower, LampLines, const Look&);
void measure_room(Outline&, const Look&);

}  // namespace towloom
