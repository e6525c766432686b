#include <algorithm>
#include <map>
#include <set>

#include "prove/page.hpp"

namespace towloom {
namespace {

// How many wire stretches come together at a point: an end counts one, a bend or a passing wire
// two.
int arms(const Page& page, Point p) {
  int count = 0;
  for (const TracedLine& line : page.lines) {
    if (line.run == nullptr || line.path.size() < 2) continue;
    if (same_place(line.path.front(), p)) ++count;
    if (same_place(line.path.back(), p)) ++count;
  }
  std::set<int> passing;
  for (const Segment& s : page.segments) {
    const TracedLine& line = page.lines[static_cast<size_t>(s.line)];
    const bool at_end = same_place(line.path.front(), p) || same_place(line.path.back(), p);
    if (line.run != nullptr && !at_end && touches(s, p)) passing.insert(s.line);
  }
  return count + 2 * static_cast<int>(passing.size());
}

bool on_own_bar(const Page& page, Point p) {
  return std::any_of(page.segments.begin(), page.segments.end(), [&](const Segment& s) {
    return page.lines[static_cast<size_t>(s.line)].run == nullptr && touches(s, p);
  });
}

void check_ends(const Page& page, Defects& out) {
  std::set<Point> seen;
  for (const TracedLine& line : page.lines) {
    if (line.run == nullptr || line.path.size() < 2) continue;
    for (Point p : {line.path.front(), line.path.back()}) {
      if (!seen.insert(p).second) continue;
      const int met = arms(page, p);
      const bool dotted = std::any_of(page.dots.begin(), page.dots.end(),
                                      [&](const Junction* dot) { return same_place(dot->at, p); });
      if (met > 3)
        out.push_back({"crowded-point", "more than three wires meet, with " + line.id + at(p)});
      if (met >= 3 && !dotted && !on_own_bar(page, p))
        out.push_back({"no-dot", "three wires meet without a dot, with " + line.id + at(p)});
    }
  }
}

bool on_a_pin(const Page& page, Point p) {
  for (const PartFigure* part : page.parts)
    for (const Pin& pin : part->pins)
      if (same_place(pin.at, p)) return true;
  return false;
}

// A dot joins what it covers: only its own net may lie under it, and something must join there.
void check_dot(const Page& page, const Junction& dot, Defects& out) {
  const Rect cover{dot.at.x - dot.radius, dot.at.y - dot.radius, 2 * dot.radius, 2 * dot.radius};
  for (const Segment& s : page.segments) {
    const TracedLine& line = page.lines[static_cast<size_t>(s.line)];
    if (line.net != dot.net && gap(cover, s) == 0)
      out.push_back({"false-junction", "the dot of " + dot.net + " covers " + line.id + " (" +
                                           line.net + ")" + at(dot.at)});
  }
  const int met = arms(page, dot.at);
  const bool bar = on_own_bar(page, dot.at);
  const bool joins = met >= 3 || (met >= 1 && bar) || (met == 2 && on_a_pin(page, dot.at));
  if (!joins)
    out.push_back({"stray-dot", "a dot of " + dot.net + " where nothing joins" + at(dot.at)});
}

// Nothing but its own wires may meet a link bar, and each pin of its part that is on its net must lie on it.
void check_bars(const Page& page, Defects& out) {
  std::map<std::pair<std::string, std::string>, std::vector<const Segment*>> bars;   // part, net
  for (const Segment& s : page.segments) {
    const TracedLine& bar = page.lines[static_cast<size_t>(s.line)];
    if (bar.run != nullptr) continue;
    bars[{bar.id, bar.net}].push_back(&s);
    for (const Segment& t : page.segments) {
      const TracedLine& line = page.lines[static_cast<size_t>(t.line)];
      if (line.net != bar.net && gap(extent(s, 0), t) == 0)
        out.push_back({"link-crossed",
                       line.id + " (" + line.net + ") crosses the bar of " + bar.id + at(t.a)});
    }
  }
  for (const PartFigure* part : page.parts) {
    for (const Pin& pin : part->pins) {
      const auto bar = bars.find({part->part, pin.net});
      if (bar == bars.end()) continue;
      if (std::none_of(bar->second.begin(), bar->second.end(),
                       [&](const Segment* s) { return touches(*s, pin.at); }))
        out.push_back(
            {"pin-miss", pin.terminal + " is not on the bar of " + part->part + at(pin.at)});
    }
  }
}

}  // namespace

void check_dots(const Page& page, Defects& out) {
  check_ends(page, out);
  for (const Junction* dot : page.dots) check_dot(page, *dot, out);
  check_bars(page, out);
}

}  // namespace towloom
