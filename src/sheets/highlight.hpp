// One function's path in full, the rest quiet: laid over a sheet that is drawn already.
#pragma once

#include "check/live.hpp"
#include "drawing/drawing.hpp"
#include "drawing/style.hpp"

namespace towloom {

bool on_path(Point, const Polyline&);   // of level and upright stretches, ends included
void highlight(Drawing&, const Circuit&, const LivePath&, const Style&);

}  // namespace towloom
