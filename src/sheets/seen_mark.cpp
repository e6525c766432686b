#include "sheets/seen_mark.hpp"

namespace towloom {
namespace {

constexpr Mm100 mark_radius = mm(1.45);

Shape half_disc(Point c, bool left, Rgb fill) {
  const Mm100 r = mark_radius, k = r * 5523 / 10000, s = left ? -1 : 1;   // 0.5523: a quarter circle as a cubic
  Shape out;
  using Kind = PathStep::Kind;
  out.path = {{Kind::move, {c.x, c.y - r}, {}, {}},
              {Kind::cubic, {c.x + s * k, c.y - r}, {c.x + s * r, c.y - k}, {c.x + s * r, c.y}},
              {Kind::cubic, {c.x + s * r, c.y + k}, {c.x + s * k, c.y + r}, {c.x, c.y + r}},
              {Kind::close, {}, {}, {}}};
  out.filled = true;
  out.fill = fill;
  return out;
}

}  // namespace

void draw_seen(Seen seen, Point at, SheetPen& pen) {
  const Rgb dark = ink(pen.style, "ink");
  const Pen thin = pen.pen("outline");
  if (seen == Seen::may) {
    pen.write(pen.text(word(pen.style, "seen-may"), {at.x, at.y + mm(1.25)}, Anchor::middle, Weight::regular, "quiet"));
    return;
  }
  if (seen == Seen::dark) return pen.add({line({at.x - mm(0.8), at.y}, {at.x + mm(0.8), at.y}, pen.pen("outline", "quiet"))});
  if (seen == Seen::lit) return pen.add({Disc{at, mark_radius, thin, true, dark}});
  std::vector<Mark> marks{Disc{at, mark_radius, thin, false, {}}};
  if (seen == Seen::glow) marks.push_back(Disc{at, mark_radius / 3, {}, true, dark});
  if (seen == Seen::flash || seen == Seen::counterflash) marks.push_back(half_disc(at, seen == Seen::flash, dark));
  pen.add(std::move(marks));
}

}  // namespace towloom
