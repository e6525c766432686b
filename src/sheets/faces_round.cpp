// Round connectors: contacts on a circle and inside it, labels left, right, above and below.
#include <algorithm>
#include <cmath>

#include "sheets/faces_tags.hpp"

namespace towloom {
namespace {

constexpr Mm100 beside = mm(1.2);

Mm100 reach(const Picture& p) { return p.compact ? mm(3) : mm(5); }

struct Bounds {
  Mm100 left = 0, right = 0, top = 0, bottom = 0;
};

Bounds bounds_of(const Picture& p, const std::vector<Tag>& tags, const FacesPen& pen) {
  const Mm100 outer = mm(shell_rim * p.unit);
  Bounds b{-outer, outer, -outer, outer};
  b.top -= named_above(p);
  b.bottom += named_below(p);
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

// A closed patch on the rim in direction (x, y): from radius `in` to `out`, `half` to either side.
Shape patch(Point centre, FacePoint direction, double unit, double in, double out, double half) {
  const double r = std::hypot(direction.first, direction.second);
  const double rx = direction.first / r, ry = -direction.second / r, tx = -ry, ty = rx;
  const auto at = [&](double along, double across) {
    return Point{centre.x + mm((rx * along + tx * across) * unit),
                 centre.y + mm((ry * along + ty * across) * unit)};
  };
  Shape out_shape = polyline({at(in, -half), at(out, -half), at(out, half), at(in, half)}, {});
  out_shape.path.push_back({PathStep::Kind::close, {}, {}, {}});
  out_shape.filled = true;
  return out_shape;
}

// The key's name, outside the shell where it is.
void name_key(const Picture& p, Point centre, FacesPen& pen) {
  const FaceView& v = *p.view;
  const double r = std::hypot(v.key_x, v.key_y);
  if (v.connector->key.empty() || r == 0) return;
  const bool behind_hinge = has_lid(v) && lid_at(v).first * v.key_x + lid_at(v).second * v.key_y > 0;
  const Mm100 out = mm((behind_hinge ? shell_rim + hinge_depth : shell_rim) * p.unit) + mm(1.3);
  const Mm100 x = centre.x + static_cast<Mm100>(v.key_x / r * out),
              y = centre.y - static_cast<Mm100>(v.key_y / r * out);
  const bool side = std::fabs(v.key_x / r) > 0.3;
  const Anchor anchor = !side ? Anchor::middle : v.key_x < 0 ? Anchor::end : Anchor::start;
  const Mm100 down = side ? mm(1.2) : v.key_y > 0 ? 0 : mm(2.9);
  // Where a contact stands behind the key, its lead passes at the right of the name.
  const bool lead = !side && std::any_of(v.contacts.begin(), v.contacts.end(), [&](const FaceContact& c) {
    return std::hypot(c.x, c.y) > 0.9 && std::fabs(c.x) < 0.1 && c.y * v.key_y > 0;
  });
  if (!lead) {   // a short line ties the name to the key, past a lid's hinge
    const auto at = [&](double radius) {
      return Point{centre.x + static_cast<Mm100>(v.key_x / r * radius), centre.y - static_cast<Mm100>(v.key_y / r * radius)};
    };
    pen.add({polyline({at(mm((shell_cavity + 0.13) * p.unit)), at(out - mm(1.2))}, pen.pen("outline", "quiet"))});
  }
  pen.write(pen.text(v.connector->key, {lead ? x - mm(1.5) : x, y + down}, lead ? Anchor::end : anchor, Weight::regular, "quiet"));
}

void draw_shell(const Picture& p, Point centre, FacesPen& pen) {
  const FaceView& v = *p.view;
  std::vector<Mark> marks;
  if (has_lid(v)) {
    Shape hinge = patch(centre, lid_at(v), p.unit, shell_rim - 0.05, shell_rim + hinge_depth, 0.4);
    hinge.fill = ink(pen.style, "zone");
    hinge.pen = pen.pen("outline", "quiet");
    marks.push_back(hinge);
  }
  marks.push_back(ring(centre, shell_rim * p.unit, pen.pen("symbol"), ink(pen.style, "zone")));
  marks.push_back(ring(centre, shell_cavity * p.unit, pen.pen("outline"), ink(pen.style, "paper")));
  if (!v.connector->key.empty() && std::hypot(v.key_x, v.key_y) > 0) {
    Shape key = patch(centre, {v.key_x, v.key_y}, p.unit, shell_cavity - 0.03, shell_cavity + 0.13, 0.11);
    key.fill = ink(pen.style, "ink");
    marks.push_back(key);
  }
  pen.add(std::move(marks));
  name_key(p, centre, pen);
}

// From the contact out of the shell, then to the label's first lines.
void draw_lead(const Picture& p, const Tag& t, Point centre, Point target, FacesPen& pen) {
  const FaceContact& c = *t.contact;
  const double to_x = t.sine * (shell_rim + 0.08), to_y = t.cosine * (shell_rim + 0.08);
  const double length = std::hypot(to_x - c.x, to_y - c.y);
  const double clear = (c.contact->shape == "blade" ? 0.1 : c.contact->larger ? 0.23 : 0.2) / length;
  const auto at = [&](double x, double y) {
    return Point{centre.x + mm(x * p.unit), centre.y - mm(y * p.unit)};
  };
  Polyline path{at(c.x + (to_x - c.x) * clear, c.y + (to_y - c.y) * clear), at(to_x, to_y)};
  if (t.spot == Spot::left || t.spot == Spot::right) {
    const Mm100 step = t.spot == Spot::left ? mm(1.6) : -mm(1.6);
    path.push_back({target.x + step, target.y});
    path.push_back(target);
  } else {
    path.push_back({path.back().x, target.y});
  }
  pen.add({polyline(path, pen.pen("outline", "quiet"))});
}

void draw_tag(const Picture& p, const Tag& t, Point centre, FacesPen& pen) {
  const Mm100 outer = mm(shell_rim * p.unit) + reach(p);
  Point target{centre.x, centre.y + t.y + std::min<Mm100>(t.height() / 2, face_line)};
  if (t.spot == Spot::above) target.y = centre.y + t.y + t.height() + mm(0.4);
  if (t.spot == Spot::below) target.y = centre.y + t.y - mm(0.4);
  Anchor anchor = Anchor::middle;
  Mm100 x = centre.x;
  if (t.spot == Spot::above || t.spot == Spot::below) x += mm(t.sine * shell_rim * p.unit);
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
