// Contacts as each half shows them.
#include <cmath>

#include "sheets/faces_pen.hpp"

namespace towloom {
namespace {

// Base (0) or tracer (1) of the wire on this contact.
std::optional<Rgb> colour_of(const FaceContact& c, size_t which, const Style& style) {
  const auto letters = colour_letters(c.colour, style);
  const auto found = letters.size() <= which ? style.colours.end() : style.colours.find(letters[which]);
  if (found == style.colours.end()) return std::nullopt;
  return found->second.rgb;
}

Disc disc(Point centre, double radius_mm, Pen pen, std::optional<Rgb> fill) {
  Disc out;
  out.centre = centre;
  out.radius = mm(radius_mm);
  out.pen = std::move(pen);
  out.filled = fill.has_value();
  if (fill) out.fill = *fill;
  return out;
}

// A bar lying along the contact circle at the contact's own angle; at the centre it lies level.
Shape bar(Point centre, double x, double y, double length, double depth, Pen pen,
          std::optional<Rgb> fill) {
  const double r = std::hypot(x, y);
  const double rx = r > 0.01 ? x / r : 0, ry = r > 0.01 ? -y / r : -1;  // outwards, y down
  const double tx = -ry, ty = rx;
  const double sides[4][2] = {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}};
  Polyline corners;
  for (const auto& s : sides)
    corners.push_back({centre.x + mm((s[0] * length * tx + s[1] * depth * rx) / 2),
                       centre.y + mm((s[0] * length * ty + s[1] * depth * ry) / 2)});
  Shape out = polyline(corners, std::move(pen));
  out.path.push_back({PathStep::Kind::close, {}, {}, {}});
  out.filled = fill.has_value();
  if (fill) out.fill = *fill;
  return out;
}

struct Look {
  Pen outline, slit, edge;  // edge: round a hole, so that it shows in a black contact
  Rgb fill, ink, shroud, paper;
  std::optional<Rgb> tracer;
};

// The second colour of the wire: a band across its contact.
void add_tracer(std::vector<Mark>& out, Point at, double radius, const Look& look) {
  if (!look.tracer) return;
  Pen band;
  band.width = mm(radius * 0.5);
  band.colour = *look.tracer;
  out.push_back(line({at.x - mm(radius * 0.85), at.y}, {at.x + mm(radius * 0.85), at.y}, band));
}

void add_blade(std::vector<Mark>& out, const FaceView& v, const FaceContact& c, Point at,
               double unit, const Look& look) {
  const double length = 0.42 * unit, depth = 0.17 * unit;
  out.push_back(bar(at, c.x, c.y, length, depth, look.outline, look.fill));
  if (v.view == View::wire || c.gender != "receiver") return;
  // A receiver is a slot: its mouth is open.
  out.push_back(bar(at, c.x, c.y, length * 0.66, depth * 0.3, look.edge, look.ink));
}

void add_round(std::vector<Mark>& out, const FaceView& v, const FaceContact& c, Point at,
               double radius, const Look& look) {
  if (v.view == View::wire) {  // the wire as it enters: insulation round the strands
    out.push_back(disc(at, radius, look.outline, look.fill));
    add_tracer(out, at, radius, look);
    out.push_back(disc(at, radius * 0.42, look.outline, look.paper));
    return;
  }
  const bool bare = c.gender == "pin" || c.gender == "blade";
  if (bare) {
    out.push_back(disc(at, radius * 0.72, look.outline, look.fill));
    add_tracer(out, at, radius * 0.72, look);
    if (c.contact->longer) {   // a ring inside that shows on dark and on light wires
      out.push_back(disc(at, radius * 0.46, look.edge, look.fill));
      out.push_back(disc(at, radius * 0.36, look.outline, look.fill));
    }
    return;
  }
  out.push_back(disc(at, radius * 1.22, look.outline, look.shroud));
  out.push_back(disc(at, radius * 0.86, look.outline, look.fill));
  add_tracer(out, at, radius * 0.86, look);
  out.push_back(disc(at, radius * 0.4, look.edge, look.ink));
  if (c.gender != "receiver") return;
  // A round receiver is split, so that it springs round its pin.
  for (double side : {-1.0, 1.0})
    out.push_back(line({at.x + mm(side * radius * 0.3), at.y}, {at.x + mm(side * radius * 1.0), at.y}, look.slit));
}

double round_radius(const FaceView& v, const ConnectorContact& c, double unit) {
  const bool in_row = v.connector != nullptr && v.connector->shell == "flat";
  return (c.shape == "bullet" ? 0.3 : in_row ? 0.24 : 0.16) * (c.larger ? 1.35 : 1) * unit;
}

}  // namespace

ContactFigure contact_figure(const FaceView& v, const FaceContact& c, Point centre, double unit,
                             const FacesPen& pen) {
  ContactFigure out;
  out.connector = v.name;
  out.contact = c.contact->number;
  out.function = c.function;
  out.view = v.view == View::mating ? "mating" : "wire";
  out.centre = centre;
  const bool small = unit < 8;
  Look look{pen.pen(small ? "outline" : "symbol"), pen.pen("symbol-heavy", "paper"), pen.pen("outline", "paper"), colour_of(c, 0, pen.style).value_or(ink(pen.style, "paper")), ink(pen.style, "ink"),
            ink(pen.style, "zone"), ink(pen.style, "paper"), colour_of(c, 1, pen.style)};
  const bool blade = c.contact->shape == "blade";
  if (!c.used) {
    Pen dashed = pen.pen("outline", "quiet");
    dashed.dash = {mm(0.9), mm(0.6)};
    if (blade)
      out.marks.push_back(bar(centre, c.x, c.y, 0.42 * unit, 0.17 * unit, dashed, look.paper));
    else
      out.marks.push_back(disc(centre, round_radius(v, *c.contact, unit), dashed, look.paper));
  } else if (blade) {
    add_blade(out.marks, v, c, centre, unit, look);
  } else {
    add_round(out.marks, v, c, centre, round_radius(v, *c.contact, unit), look);
  }
  return out;
}

}  // namespace towloom
