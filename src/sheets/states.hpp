// One panel of the strip of signal states: what is live and which lamps are lit, seen at a glance.
#pragma once

#include "check/live.hpp"
#include "sheets/sheet_pen.hpp"

namespace towloom {

struct StatePanel {
  std::size_t scene = 0;
  LivePath live;
};
// Lit a full glass with rays, flashing half of both and a square wave, dark an empty thin ring.
void draw_state_lamp(Seen, Point at, SheetPen&);
// The wires of the bench drawing shrunk into `room`, live ones in colour; its lamps with their names at the right.
// Words for those who cannot see it are returned: "left stop/turn flashes, tail lit".
std::string draw_state_panel(const StatePanel&, const Facts&, const Drawing& bench, const Rect& room, SheetPen&);

}  // namespace towloom
