// Lines and boxes of the plan map: what meets what.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "sheets/map_figure.hpp"

namespace towloom::map {

inline Rect grown(Rect r, Mm100 by) { return {r.x - by, r.y - by, r.w + 2 * by, r.h + 2 * by}; }

inline double length_mm(const Segment& s) {
  const double dx = to_mm(s.a.x - s.b.x), dy = to_mm(s.a.y - s.b.y);
  return std::sqrt(dx * dx + dy * dy);
}
inline std::int64_t turn(Point a, Point b, Point c) { return static_cast<std::int64_t>(b.x - a.x) * (c.y - a.y) - static_cast<std::int64_t>(b.y - a.y) * (c.x - a.x); }
inline bool meet(const Segment& s, const Segment& t) {   // touching counts
  const auto between = [](Point a, Point b, Point p) { return std::min(a.x, b.x) <= p.x && p.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= p.y && p.y <= std::max(a.y, b.y); };
  const auto a = turn(s.a, s.b, t.a), b = turn(s.a, s.b, t.b), c = turn(t.a, t.b, s.a), d = turn(t.a, t.b, s.b);
  if (((a > 0 && b < 0) || (a < 0 && b > 0)) && ((c > 0 && d < 0) || (c < 0 && d > 0))) return true;
  return (a == 0 && between(s.a, s.b, t.a)) || (b == 0 && between(s.a, s.b, t.b)) || (c == 0 && between(t.a, t.b, s.a)) || (d == 0 && between(t.a, t.b, s.b));
}
inline bool meets(const Segment& s, const Rect& r) {
  if (std::max(s.a.x, s.b.x) < r.x || std::min(s.a.x, s.b.x) > r.right() || std::max(s.a.y, s.b.y) < r.y || std::min(s.a.y, s.b.y) > r.bottom()) return false;
  if (r.contains(s.a) || r.contains(s.b) || s.a.x == s.b.x || s.a.y == s.b.y) return true;   // level and upright ones span their box
  const Point p[] = {{r.x, r.y}, {r.right(), r.y}, {r.right(), r.bottom()}, {r.x, r.bottom()}};
  for (int k = 0; k < 4; ++k)
    if (meet(s, {p[k], p[(k + 1) % 4]})) return true;
  return false;
}
inline bool along(const Segment& s, const Segment& t) {   // one lies on the other, or so close that they read as one
  const bool level = s.a.y == s.b.y && t.a.y == t.b.y && std::abs(s.a.y - t.a.y) < mm(1);
  const bool upright = s.a.x == s.b.x && t.a.x == t.b.x && std::abs(s.a.x - t.a.x) < mm(1);
  return (level || upright) && meets(s, grown({std::min(t.a.x, t.b.x), std::min(t.a.y, t.b.y), std::abs(t.a.x - t.b.x), std::abs(t.a.y - t.b.y)}, mm(1)));
}

}  // namespace towloom::map
