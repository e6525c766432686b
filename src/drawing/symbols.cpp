#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "drawing/style.hpp"

namespace towloom {
namespace {

using Kind = PathStep::Kind;
constexpr double pi = 3.14159265358979323846;

// Symbol coordinates (modules) to the sheet.
struct Place2D {
  Point at;
  bool mirrored = false, flipped = false;
  double module = 2.5;

  Mm100 length(double modules) const { return mm(modules * module); }
  Point point(double x, double y) const {
    const Mm100 dx = length(x);
    const Mm100 dy = length(y);
    return {mirrored ? at.x - dx : at.x + dx, flipped ? at.y - dy : at.y + dy};
  }
};

Pen pen_of(const Symbol::Stroke& s, const Style& style, Rgb ink_colour) {
  Pen pen;
  pen.round = true;
  pen.colour = s.dashed ? ink(style, "quiet") : ink_colour;
  pen.width = line_width(style, s.heavy ? "symbol-heavy" : s.dashed ? "outline" : "symbol");
  if (s.dashed) {
    pen.dash = {mm(1.2), mm(0.8)};
    pen.round = false;
  }
  return pen;
}

// An arc as cubics of at most a quarter turn each; angles in degrees, clockwise on the sheet.
std::vector<PathStep> arc(const Symbol::Stroke& s, const Place2D& place) {
  const double cx = s.xy[0], cy = s.xy[1], r = s.xy[2];
  const double from = s.xy[3] * pi / 180, to = s.xy[4] * pi / 180;
  const int pieces =
      std::max(1, static_cast<int>(std::ceil(std::fabs(to - from) / (pi / 2) - 1e-9)));
  const double step = (to - from) / pieces;
  const double k = 4.0 / 3.0 * std::tan(step / 4) * r;
  std::vector<PathStep> out{
      {Kind::move, place.point(cx + r * std::cos(from), cy + r * std::sin(from)), {}, {}}};
  for (int i = 0; i < pieces; ++i) {
    const double a = from + i * step, b = a + step;
    const double ax = cx + r * std::cos(a), ay = cy + r * std::sin(a);
    const double bx = cx + r * std::cos(b), by = cy + r * std::sin(b);
    out.push_back({Kind::cubic, place.point(ax - k * std::sin(a), ay + k * std::cos(a)),
                   place.point(bx + k * std::sin(b), by - k * std::cos(b)), place.point(bx, by)});
  }
  return out;
}

Mark disc(const Symbol::Stroke& s, const Place2D& place, Pen pen, Rgb ink_colour) {
  Disc out;
  out.centre = place.point(s.xy[0], s.xy[1]);
  out.radius = place.length(s.xy[2]);
  out.filled = s.filled || s.kind == "dot";
  out.fill = ink_colour;
  if (!out.filled) out.pen = std::move(pen);
  return out;
}

Mark shape(const Symbol::Stroke& s, const Place2D& place, Pen pen, Rgb ink_colour) {
  Shape out;
  if (s.kind == "arc") {
    out.path = arc(s, place);
  } else {
    Polyline points;
    for (size_t i = 0; i + 1 < s.xy.size(); i += 2)
      points.push_back(place.point(s.xy[i], s.xy[i + 1]));
    out = polyline(points, {});
    if (s.kind == "polygon") out.path.push_back({Kind::close, {}, {}, {}});
  }
  out.filled = s.filled;
  out.fill = ink_colour;
  if (!s.filled) out.pen = std::move(pen);
  return out;
}

}  // namespace

std::vector<Mark> symbol_marks(const Symbol& symbol, Point at, bool mirrored, const Style& style,
                               Rgb ink_colour, bool flipped) {
  const Place2D place{at, mirrored, flipped, style.module_mm};
  std::vector<Mark> out;
  for (const Symbol::Stroke& s : symbol.strokes) {
    Pen pen = pen_of(s, style, ink_colour);
    const bool round = s.kind == "circle" || s.kind == "dot";
    out.push_back(round ? disc(s, place, std::move(pen), ink_colour)
                        : shape(s, place, std::move(pen), ink_colour));
  }
  return out;
}

Point symbol_pin(const Symbol& symbol, const std::string& pin, Point at, bool mirrored,
                 const Style& style) {
  const Place2D place{at, mirrored, false, style.module_mm};
  for (const Symbol::PinAt& p : symbol.pins)
    if (p.name == pin) return place.point(p.x, p.y);
  throw std::logic_error("symbol " + symbol.name + " has no pin " + pin);
}

Rect symbol_body(const Symbol& symbol, Point at, bool mirrored, const Style& style, bool flipped) {
  const Place2D place{at, mirrored, flipped, style.module_mm};
  const Point a = place.point(symbol.left, symbol.top),
              b = place.point(symbol.right, symbol.bottom);
  return {std::min(a.x, b.x), std::min(a.y, b.y), std::abs(b.x - a.x), std::abs(b.y - a.y)};
}

}  // namespace towloom
