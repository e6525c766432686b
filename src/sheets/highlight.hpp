// One function's path in full, the rest quiet: laid over a sheet that is drawn already.
#pragma once

#include "check/live.hpp"
#include "drawing/drawing.hpp"
#include "drawing/style.hpp"

namespace towloom {

void highlight(Drawing&, const Circuit&, const LivePath&, const Style&);

}  // namespace towloom
