// Drawing geometry: whole hundredths of a millimetre, x to the right, y downwards.
#pragma once

#include <compare>
#include <cstdint>
#include <vector>

namespace towloom {

using Mm100 = std::int32_t;  // 1/100 mm
constexpr Mm100 mm(double millimetres) {
  return static_cast<Mm100>(millimetres * 100 + (millimetres < 0 ? -0.5 : 0.5));
}
constexpr double to_mm(Mm100 v) { return v / 100.0; }

struct Point {
  Mm100 x = 0, y = 0;
  auto operator<=>(const Point&) const = default;
};
struct Rect {
  Mm100 x = 0, y = 0, w = 0, h = 0;
  Mm100 right() const { return x + w; }
  Mm100 bottom() const { return y + h; }
  bool contains(Point p) const { return p.x >= x && p.x <= right() && p.y >= y && p.y <= bottom(); }
  // True if the insides share any area (touching edges do not count).
  bool overlaps(const Rect& o) const {
    return x < o.right() && o.x < right() && y < o.bottom() && o.y < bottom();
  }
  auto operator<=>(const Rect&) const = default;
};
using Polyline = std::vector<Point>;

}  // namespace towloom
