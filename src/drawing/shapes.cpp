#include <algorithm>

#include "drawing/drawing.hpp"

namespace towloom {
namespace {

using Kind = PathStep::Kind;

// Cubic approximation of a quarter circle: control points at 0.5523 of the radius.
Mm100 handle(Mm100 radius) { return static_cast<Mm100>(radius * 0.5522847 + 0.5); }

std::vector<PathStep> rounded(Rect r, Mm100 radius) {
  const Mm100 c = radius - handle(radius);
  const Mm100 x0 = r.x, y0 = r.y, x1 = r.right(), y1 = r.bottom(), q = radius;
  return {{Kind::move, {x0 + q, y0}, {}, {}},
          {Kind::line, {x1 - q, y0}, {}, {}},
          {Kind::cubic, {x1 - c, y0}, {x1, y0 + c}, {x1, y0 + q}},
          {Kind::line, {x1, y1 - q}, {}, {}},
          {Kind::cubic, {x1, y1 - c}, {x1 - c, y1}, {x1 - q, y1}},
          {Kind::line, {x0 + q, y1}, {}, {}},
          {Kind::cubic, {x0 + c, y1}, {x0, y1 - c}, {x0, y1 - q}},
          {Kind::line, {x0, y0 + q}, {}, {}},
          {Kind::cubic, {x0, y0 + c}, {x0 + c, y0}, {x0 + q, y0}},
          {Kind::close, {}, {}, {}}};
}

std::vector<PathStep> corners(Rect r, Mm100 radius) {
  const Mm100 fits = std::min({radius, r.w / 2, r.h / 2});
  if (fits > 0) return rounded(r, fits);
  return {{Kind::move, {r.x, r.y}, {}, {}},
          {Kind::line, {r.right(), r.y}, {}, {}},
          {Kind::line, {r.right(), r.bottom()}, {}, {}},
          {Kind::line, {r.x, r.bottom()}, {}, {}},
          {Kind::close, {}, {}, {}}};
}

}  // namespace

Shape polyline(const Polyline& points, Pen pen) {
  Shape out;
  out.pen = std::move(pen);
  for (const Point& p : points)
    out.path.push_back({out.path.empty() ? Kind::move : Kind::line, p, {}, {}});
  return out;
}

Shape line(Point a, Point b, Pen pen) { return polyline({a, b}, std::move(pen)); }

Shape box(Rect r, Pen pen, Mm100 corner_radius) {
  Shape out;
  out.pen = std::move(pen);
  out.path = corners(r, corner_radius);
  return out;
}

Shape filled_box(Rect r, Rgb fill, Mm100 corner_radius) {
  Shape out;
  out.path = corners(r, corner_radius);
  out.filled = true;
  out.fill = fill;
  return out;
}

}  // namespace towloom
