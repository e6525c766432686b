// What a lamp does, as a sign in a cell of a matrix.
#pragma once

#include "sheets/sheet_pen.hpp"
#include "solve/solve.hpp"

namespace towloom {

// Lit a full disc, flashing half of it, the other half in the other phase, glowing a ring with a point, dark a dash.
void draw_seen(Seen, Point at, SheetPen&);

}  // namespace towloom
