// Round connectors: contacts on a circle and in the centre, labels left, right, above and below.
#include <algorithm>
#include <cmath>

#include "sheets/faces_pen.hpp"

namespace towloom {
namespace {

constexpr double cavity = 1.30, rim = 1.52;  // of the contact circle's radius
constexpr double upright = 0.25;             // |sin| of angles that are labelled above or below
constexpr Mm100 beside = mm(1.2), between = mm(1.2);

Mm100 reach(const Picture& p) { return p.compact ? mm(3) : mm(5); }

enum class Spot { left, right, above, below };
struct Tag {
  const FaceContact* contact = nullptr;
  Spot spot = Spot::left;
  double sine = 0, cosine = 1;  // direction of its lead, from the centre; cosine upwards
  std::vector<ContactLine> lines;
  Mm100 y = 0;  // top of its text, from the centre
  Mm100 height() const { return static_cast<Mm100>(lines.size()) * face_line; }
};

// A way out for the centre contact's lead that passes no other contact; downwards first.
double free_angle(const FaceView& v) {
  constexpr double degree = 3.14159265358979323846 / 180;
  for (int angle : {180, 150, 210, 120, 240, 90, 270, 60, 300, 30, 330, 0}) {
    const double s = std::sin(angle * degree), c = std::cos(angle * degree);
    const bool clear =
        std::none_of(v.contacts.begin(), v.contacts.end(), [&](const FaceContact& f) {
          const double along = f.x * s + f.y * c, across = std::fabs(f.x * c - f.y * s);
          return along > 0.1 && across < 0.3;
        });
    if (clear) return angle * degree;
  }
  return 165 * degree;
}

Tag tag_of(const Picture& p, const FaceContact& c, const Style& style) {
  Tag tag;
  tag.contact = &c;
  tag.lines = contact_lines(p, c, style);
  const double r = std::hypot(c.x, c.y);
  const double free = r < 0.1 ? free_angle(*p.view) : 0;
  tag.sine = r < 0.1 ? std::sin(free) : c.x / r;
  tag.cosine = r < 0.1 ? std::cos(free) : c.y / r;
  if (std::fabs(tag.sine) < upright)
    tag.spot = tag.cosine > 0 ? Spot::above : Spot::below;
  else
    tag.spot = tag.sine < 0 ? Spot::left : Spot::right;
  return tag;
}

bool key_above(const FaceView& v) {
  return !v.connector->key.empty() && v.key_y > 0 && std::fabs(v.key_x) < 0.3;
}

// Labels of one side keep their order downwards and clear one another; they stay near their
// contacts.
void spread(std::vector<Tag>& tags, Spot side) {
  std::vector<Tag*> column;
  for (Tag& t : tags)
    if (t.spot == side) column.push_back(&t);
  std::stable_sort(column.begin(), column.end(),
                   [](const Tag* a, const Tag* b) { return a->y < b->y; });
  if (column.empty()) return;
  for (size_t round = 0; round < 20; ++round) {
    for (size_t i = 1; i < column.size(); ++i) {
      const Mm100 overlap = column[i - 1]->y + column[i - 1]->height() + between - column[i]->y;
      if (overlap <= 0) continue;
      column[i - 1]->y -= (overlap + 1) / 2;
      column[i]->y += (overlap + 1) / 2;
    }
  }
}

std::vector<Tag> place_tags(const Picture& p, const Style& style) {
  std::vector<Tag> tags;
  const Mm100 outer = mm(rim * p.unit);
  for (const FaceContact& c : p.view->contacts) {
    Tag tag = tag_of(p, c, style);
    if (tag.spot == Spot::above)
      tag.y = -outer - (key_above(*p.view) ? face_line + mm(1) : 0) - mm(2) - tag.height();
    else if (tag.spot == Spot::below)
      tag.y = outer + mm(2.5);
    else
      tag.y = -mm(tag.cosine * 1.35 * p.unit) - tag.height() / 2;
    tags.push_back(std::move(tag));
  }
  spread(tags, Spot::left);
  spread(tags, Spot::right);
  return tags;
}

struct Bounds {
  Mm100 left = 0, right = 0, top = 0, bottom = 0;
};

Bounds bounds_of(const Picture& p, const std::vector<Tag>& tags, const FacesPen& pen) {
  const Mm100 outer = mm(rim * p.unit);
  Bounds b{-outer, outer, -outer, outer};
  if (key_above(*p.view)) b.top -= face_line + mm(1);
  for (const Tag& t : tags) {
    Mm100 widest = 0;
    for (const ContactLine& line : t.lines)
      widest = std::max(widest, pen.width(line.text, weight_of(line)));
    const Mm100 side = outer + reach(p) + beside + widest;
    if (t.spot == Spot::left) b.left = std::min(b.left, -side);
    if (t.spot == Spot::right) b.right = std::max(b.right, side);
    b.top = std::min(b.top, t.y);
    b.bottom = std::max(b.bottom, t.y + t.height());
  }
  return b;
}

Disc ring(Point centre, double radius_mm, Pen pen, Rgb fill) {
  Disc out;
  out.centre = centre;
  out.radius = mm(radius_mm);
  out.pen = std::move(pen);
  out.filled = true;
  out.fill = fill;
  return out;
}

void draw_shell(const Picture& p, Point centre, FacesPen& pen) {
  const FaceView& v = *p.view;
  std::vector<Mark> marks;
  marks.push_back(ring(centre, rim * p.unit, pen.pen("symbol"), ink(pen.style, "zone")));
  marks.push_back(ring(centre, cavity * p.unit, pen.pen("outline"), ink(pen.style, "paper")));
  const double r = std::hypot(v.key_x, v.key_y);
  if (!v.connector->key.empty() && r > 0) {
    const double rx = v.key_x / r, ry = -v.key_y / r, tx = -ry, ty = rx, half = 0.11 * p.unit;
    const double in = cavity * p.unit, out = (cavity + 0.13) * p.unit;
    const auto at = [&](double along, double across) {
      return Point{centre.x + mm(rx * along + tx * across),
                   centre.y + mm(ry * along + ty * across)};
    };
    Shape key = polyline({at(in - 0.03 * p.unit, -half), at(out, -half), at(out, half),
                          at(in - 0.03 * p.unit, half)},
                         {});
    key.path.push_back({PathStep::Kind::close, {}, {}, {}});
    key.filled = true;
    key.fill = ink(pen.style, "ink");
    marks.push_back(key);
  }
  pen.add(std::move(marks));
  if (v.connector->key.empty() || r == 0) return;
  const Mm100 out = mm(rim * p.unit) + mm(1.3);
  const Mm100 x = centre.x + static_cast<Mm100>(v.key_x / r * out),
              y = centre.y - static_cast<Mm100>(v.key_y / r * out);
  const bool top = key_above(v), side = !top && std::fabs(v.key_x) > 0.3;
  const Anchor anchor = !side ? Anchor::middle : v.key_x < 0 ? Anchor::end : Anchor::start;
  pen.write(pen.text(v.connector->key,
                     {x, y + (top    ? 0
                              : side ? mm(1.2)
                                     : mm(3.4))},
                     anchor, Weight::regular, "quiet"));
}

// Radially out of the shell, then to the label's first lines.
void draw_lead(const Picture& p, const Tag& t, Point centre, Point target, FacesPen& pen) {
  const FaceContact& c = *t.contact;
  const double from = std::hypot(c.x, c.y) + (c.contact->shape == "blade" ? 0.1 : 0.17);
  const auto at = [&](double r) {
    return Point{centre.x + mm(t.sine * r * p.unit), centre.y - mm(t.cosine * r * p.unit)};
  };
  Polyline path{at(from), at(rim + 0.08)};
  if (t.spot == Spot::left || t.spot == Spot::right) {
    const Mm100 step = t.spot == Spot::left ? mm(1.6) : -mm(1.6);
    path.push_back({target.x + step, target.y});
    path.push_back(target);
  }
  pen.add({polyline(path, pen.pen("outline", "quiet"))});
}

void draw_tag(const Picture& p, const Tag& t, Point centre, FacesPen& pen) {
  const Mm100 outer = mm(rim * p.unit) + reach(p);
  Point target{centre.x, centre.y + t.y + std::min<Mm100>(t.height() / 2, face_line)};
  Anchor anchor = Anchor::middle;
  Mm100 x = centre.x;
  if (t.spot == Spot::above || t.spot == Spot::below) x += mm(t.sine * rim * p.unit);
  if (t.spot == Spot::left) {
    target.x = centre.x - outer;
    x = target.x - beside;
    anchor = Anchor::end;
  } else if (t.spot == Spot::right) {
    target.x = centre.x + outer;
    x = target.x + beside;
    anchor = Anchor::start;
  }
  draw_lead(p, t, centre, target, pen);
  for (size_t k = 0; k < t.lines.size(); ++k)
    pen.write(contact_label(*p.view, *t.contact, t.lines[k],
                            {x, centre.y + t.y + mm(3.3) + static_cast<Mm100>(k) * face_line},
                            anchor, pen));
}

}  // namespace

Extent round_extent(const Picture& p, const FacesPen& pen) {
  const Bounds b = bounds_of(p, place_tags(p, pen.style), pen);
  const Mm100 half = std::max(-b.left, b.right);  // the shell stays in the middle
  return {2 * half, b.bottom - b.top};
}

void draw_round(const Picture& p, Rect room, FacesPen& pen) {
  const std::vector<Tag> tags = place_tags(p, pen.style);
  const Bounds b = bounds_of(p, tags, pen);
  const Point centre{room.x + room.w / 2, room.y - b.top};
  draw_shell(p, centre, pen);
  for (const Tag& t : tags) draw_tag(p, t, centre, pen);
  for (const FaceContact& c : p.view->contacts)
    pen.drawing.items.push_back(contact_figure(
        *p.view, c, {centre.x + mm(c.x * p.unit), centre.y - mm(c.y * p.unit)}, p.unit, pen));
}

}  // namespace towloom
