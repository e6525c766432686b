// The car from above as an outline, its nose at the left with the corners cut off.
#pragma once

#include "drawing/drawing.hpp"

namespace towloom {

inline Polyline car_edges(Rect r, Mm100 corner_x, Mm100 corner_y) {
  return {{r.x, r.y + corner_y}, {r.x + corner_x, r.y}, {r.right(), r.y}, {r.right(), r.bottom()}, {r.x + corner_x, r.bottom()}, {r.x, r.bottom() - corner_y}};
}
inline Shape car_outline(Rect r, Mm100 corner_x, Mm100 corner_y, const Pen& pen) {
  Shape out = polyline(car_edges(r, corner_x, corner_y), pen);
  out.path.push_back({PathStep::Kind::close, {}, {}, {}});
  return out;
}

}  // namespace towloom
