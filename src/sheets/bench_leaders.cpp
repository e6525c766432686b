// Labels that found no room beside their wire: they stand where there is some, and a thin line leads from the
// wire to them, with a small dot on the wire.
#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "sheets/bench_labels.hpp"

namespace towloom {
namespace {

constexpr double line_pitch = 1.45;                 // modules
constexpr double shortest = 1.2, longest = 9;       // of the thin line, modules
constexpr Mm100 dot_radius = mm(0.45), keep_off = mm(1.2), sample = mm(0.4);

}  // namespace

// Whether a straight line meets no text, no part, and no wire but its own at its beginning.
bool Labels::clear_way(Point from, Point to, std::size_t wire) const {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  const int steps = static_cast<int>(length / sample);
  const Rect whole = around(from, to, mm(1.2));   // nothing beyond can be met
  std::vector<Rect> solid, own, foreign;
  const auto keep = [&](const Rect& r) {
    if (r.overlaps(whole)) solid.push_back(r);
    return false;
  };
  texts_.any(whole, [&](const Clutter::Thing& t) { return keep(t.box); });
  std::for_each(bodies_.begin(), bodies_.end(), keep);
  all_lines_.any(whole, [&](const Clutter::Thing& line) {
    if (apart(line.box, whole) <= 0) (line.owner == static_cast<int>(wire) ? own : foreign).push_back(line.box);
    return false;
  });
  for (int i = 0; i <= steps; ++i) {
    const Point p{from.x + static_cast<Mm100>(std::lround((to.x - from.x) * double(i) / std::max(steps, 1))),
                  from.y + static_cast<Mm100>(std::lround((to.y - from.y) * double(i) / std::max(steps, 1)))};
    const Rect here = around(p, p, mm(0.5));
    const auto meets = [&](const Rect& r) { return r.overlaps(here); };
    const auto touches = [&](const Rect& line) { return apart(here, line) < mm(0.6); };
    const bool left_wire = length * i / std::max(steps, 1) > mm(1.5);
    if (std::any_of(solid.begin(), solid.end(), meets) || std::any_of(foreign.begin(), foreign.end(), touches) || (left_wire && std::any_of(own.begin(), own.end(), touches)))
      return false;
  }
  return true;
}

bool Labels::lead(std::vector<Label>& labels, std::size_t wire, Point dot, double x, double y) {
  for (std::size_t i = 0; i < labels.size(); ++i) move(labels[i], BenchDraft::at(x, y + line_pitch * static_cast<double>(i)));
  Rect whole = labels.front().room;
  for (const Label& label : labels) {
    const Mm100 right = std::max(whole.right(), label.room.right()), bottom = std::max(whole.bottom(), label.room.bottom());
    whole = {std::min(whole.x, label.room.x), std::min(whole.y, label.room.y), 0, 0};
    whole.w = right - whole.x;
    whole.h = bottom - whole.y;
  }
  const Rect room{whole.x - keep_off, whole.y - keep_off, whole.w + 2 * keep_off, whole.h + 2 * keep_off};
  if (room.x < frame_.x || room.y < frame_.y || room.right() > frame_.right() || room.bottom() > frame_.bottom()) return false;
  if (taken_.meets(room)) return false;
  // To the nearest end of the first line.
  const Rect& first = labels.front().room;
  const Point end{dot.x < first.x ? first.x - mm(0.5) : dot.x > first.right() ? first.right() + mm(0.5) : first.x + first.w / 2,
                  dot.x < first.x || dot.x > first.right() ? first.y + first.h / 2 : dot.y < whole.y ? whole.y - mm(0.4) : whole.bottom() + mm(0.4)};
  const double length = std::hypot(end.x - dot.x, end.y - dot.y) / mm(BenchDraft::module);
  if (length < shortest || length > longest || !clear_way(dot, end, wire)) return false;
  const Rgb colour = ink(d_.style, "quiet");
  Decor line_and_dot;
  line_and_dot.marks.push_back(line(dot, end, Pen{mm(0.18), colour, {}, false}));
  line_and_dot.marks.push_back(Disc{dot, dot_radius, {}, true, colour});
  items_.emplace_back(std::move(line_and_dot));
  taken_.add(around(dot, end, 0));
  for (Label& label : labels) {
    taken_.add(label.room);
    texts_.add(label.room);
    items_.emplace_back(std::move(label));
  }
  return true;
}

bool Labels::leader(const LabelBlock& block, std::size_t wire) {
  double wide = 0;
  std::vector<Label> labels;     // written once, then moved about
  for (const LabelLine& l : block) {
    wide = std::max(wide, width(l));
    labels.push_back(make(l, 0, 0, wire));
  }
  for (const bool flat : {true, false})
    for (const Stretch& s : stretches(wire, flat))
      for (double reach = 1.5; reach < longest; reach += 1)   // short lines first
        for (double along = 1; along < (flat ? s.right - s.left : s.bottom - s.top); along += 1) {
          const double px = flat ? s.left + along : s.left, py = flat ? s.top : s.top + along;
          const Point dot = BenchDraft::at(px, py);
          const double tall = line_pitch * static_cast<double>(block.size());
          for (const double sideways : {reach, -reach - wide})
            for (const double down : {-reach - tall + 1, reach + 1, -tall / 2, 0.5})
              if (lead(labels, wire, dot, px + sideways, py + down)) return true;
        }
  return false;
}

}  // namespace towloom
