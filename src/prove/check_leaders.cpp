// Thin lines from a wire to its label: each begins on a wire, ends at a label of that wire, and meets nothing else.
#include <algorithm>
#include <cmath>

#include "prove/page.hpp"

namespace towloom {
namespace {

constexpr Mm100 reach = 100;   // from a leader's end to its label

Rect grown(const Rect& r, Mm100 by) { return {r.x - by, r.y - by, r.w + 2 * by, r.h + 2 * by}; }

bool holds(const Rect& r, Point p) { return p.x >= r.x && p.x <= r.right() && p.y >= r.y && p.y <= r.bottom(); }

bool begins_on(const Page& page, const Leader& leader, const std::string& wire) {
  return std::any_of(page.segments.begin(), page.segments.end(), [&](const Segment& s) {
    const TracedLine& line = page.lines[static_cast<size_t>(s.line)];
    return line.run != nullptr && line.id == wire && touches(s, leader.dot);
  });
}

long long turn(Point a, Point b, Point c) {
  return static_cast<long long>(b.x - a.x) * (c.y - a.y) - static_cast<long long>(b.y - a.y) * (c.x - a.x);
}
bool cross(Point a, Point b, Point c, Point d) {
  const long long p = turn(a, b, c), q = turn(a, b, d), r = turn(c, d, a), s = turn(c, d, b);
  return ((p > 0) != (q > 0) || p == 0 || q == 0) && ((r > 0) != (s > 0) || r == 0 || s == 0) &&
         std::max(std::min(a.x, b.x), std::min(c.x, d.x)) <= std::min(std::max(a.x, b.x), std::max(c.x, d.x)) &&
         std::max(std::min(a.y, b.y), std::min(c.y, d.y)) <= std::min(std::max(a.y, b.y), std::max(c.y, d.y));
}
bool meets(const Leader& l, const Rect& r) {
  const Point a{r.x, r.y}, b{r.right(), r.y}, c{r.right(), r.bottom()}, d{r.x, r.bottom()};
  return holds(r, l.dot) || holds(r, l.end) || cross(l.dot, l.end, a, b) || cross(l.dot, l.end, b, c) || cross(l.dot, l.end, c, d) ||
         cross(l.dot, l.end, d, a);
}

}  // namespace

bool has_leader(const Page& page, const Label& label) {
  // Lines of one label below each other share its leader: the block counts as one.
  return std::any_of(page.leaders.begin(), page.leaders.end(), [&](const Leader& l) {
    if (!begins_on(page, l, label.about)) return false;
    return std::any_of(page.labels.begin(), page.labels.end(), [&](const Label* other) {
      return other->about == label.about && holds(grown(other->room, reach), l.end) &&
             std::abs(other->room.x - label.room.x) <= reach && std::abs(other->room.y - label.room.y) <= 3 * label.size;
    });
  });
}

void check_leaders(const Page& page, Defects& out) {
  if (page.lines.empty()) return;   // leaders of other sheets
  for (const Leader& l : page.leaders) {
    const Label* own = nullptr;
    for (const Label* label : page.labels)
      if (begins_on(page, l, label->about) && holds(grown(label->room, reach), l.end)) own = label;
    if (own == nullptr) {
      out.push_back({"leader-loose", "a leader joins no wire with a label of it" + at(l.dot)});
      continue;
    }
    for (const Label* label : page.labels)
      if (label->about != own->about && meets(l, label->room))
        out.push_back({"leader-crossed", "the leader of \"" + own->text + "\" meets \"" + label->text + "\"" + at(l.dot)});
    for (const PartFigure* part : page.parts)
      if (meets(l, part->body)) out.push_back({"leader-crossed", "the leader of \"" + own->text + "\" meets " + part->part + at(l.dot)});
    for (const Segment& s : page.segments) {
      const TracedLine& line = page.lines[static_cast<size_t>(s.line)];
      if (line.id != own->about && cross(l.dot, l.end, s.a, s.b))
        out.push_back({"leader-crossed", "the leader of \"" + own->text + "\" crosses " + line.id + at(l.dot)});
    }
  }
}

}  // namespace towloom
