#include <algorithm>
#include <cstdlib>

#include "prove/page.hpp"

namespace towloom {
namespace {

constexpr Mm100 least_gap = mm(2);  // design: parallel wires of different nets at least 2 mm apart
constexpr Mm100 body_inset = mm(0.2);  // a wire may touch the outline of a part, not its inside

std::string part_of(const std::string& terminal) { return terminal.substr(0, terminal.rfind('.')); }

void check_shape(const TracedLine& line, Defects& out) {
  const Polyline& p = line.path;
  if (p.size() < 2) {
    out.push_back({"degenerate", line.id + " has no length"});
    return;
  }
  for (size_t i = 1; i < p.size(); ++i) {
    if (p[i] == p[i - 1]) out.push_back({"degenerate", line.id + " stands still" + at(p[i])});
    if (p[i].x != p[i - 1].x && p[i].y != p[i - 1].y)
      out.push_back({"diagonal", line.id + " runs aslant" + at(p[i - 1])});
  }
  for (size_t i = 2; i < p.size(); ++i) {
    const std::int64_t along =
        static_cast<std::int64_t>(p[i].x - p[i - 1].x) * (p[i - 1].x - p[i - 2].x) +
        static_cast<std::int64_t>(p[i].y - p[i - 1].y) * (p[i - 1].y - p[i - 2].y);
    if (along < 0) out.push_back({"fold-back", line.id + " turns back on itself" + at(p[i - 1])});
  }
}

// One end of a wire must lie on the pin that its data names, or on an off-sheet reference.
void check_end(const Page& page, const WireRun& run, Point end, const std::string& wanted,
               Defects& out) {
  std::string met;
  for (const PartFigure* part : page.parts) {
    for (const Pin& pin : part->pins) {
      if (!same_place(pin.at, end)) continue;
      const bool joined = same_net_part(*part) && part->part == part_of(wanted);
      const bool elsewhere = part->kind == "reference" && run.pieces > 1;
      if (pin.terminal == wanted || joined || elsewhere) return;
      met = pin.terminal;
    }
  }
  if (met.empty())
    out.push_back({"pin-miss", run.wire + " ends beside " + wanted + at(end)});
  else
    out.push_back({"wrong-pin", run.wire + " ends on " + met + " instead of " + wanted + at(end)});
}

std::vector<Point> pins_of(const PartFigure& part, const TracedLine& line) {
  std::vector<Point> out;
  if (line.run == nullptr) return out;
  const Point ends[] = {line.path.front(), line.path.back()};
  for (const Pin& pin : part.pins)
    for (Point end : ends)
      if (same_place(pin.at, end)) out.push_back(pin.at);
  return out;
}

// A wire may enter a part only in its last stretch and only to a pin that lies inside.
bool enters_lawfully(const Segment& s, const std::vector<Point>& pins, const Rect& inside) {
  return std::any_of(pins.begin(), pins.end(), [&](Point p) {
    const bool within =
        p.x > inside.x && p.x < inside.right() && p.y > inside.y && p.y < inside.bottom();
    return within && (same_place(p, s.a) || same_place(p, s.b));
  });
}

void check_bodies(const Page& page, Defects& out) {
  for (const PartFigure* part : page.parts) {
    const Rect b = part->body;
    const Rect inside{b.x + body_inset, b.y + body_inset, b.w - 2 * body_inset,
                      b.h - 2 * body_inset};
    if (inside.w <= 0 || inside.h <= 0) continue;
    for (const Segment& s : page.segments) {
      const TracedLine& line = page.lines[static_cast<size_t>(s.line)];
      const bool own_bar = line.run == nullptr && line.id == part->part;
      const bool meets =
          s.a.x < inside.right() && s.b.x > inside.x && s.a.y < inside.bottom() && s.b.y > inside.y;
      if (own_bar || !meets || enters_lawfully(s, pins_of(*part, line), inside)) continue;
      out.push_back({"symbol-hit", line.id + " runs through " + part->part + at({b.x, b.y})});
    }
  }
}

void check_vertex(const Page& page, const TracedLine& line, Point p, Defects& out) {
  for (const Segment& s : page.segments) {
    if (s.a.x > p.x + pin_tolerance) break;
    const TracedLine& other = page.lines[static_cast<size_t>(s.line)];
    if (other.net == line.net || !touches(s, p)) continue;
    out.push_back({"false-junction", line.id + " (" + line.net + ") ends or bends on " + other.id +
                                         " (" + other.net + ")" + at(p)});
  }
}

void check_foreign_pins(const Page& page, Defects& out) {
  for (const PartFigure* part : page.parts) {
    for (const Pin& pin : part->pins) {
      for (const Segment& s : page.segments) {
        if (s.a.x > pin.at.x + pin_tolerance) break;
        const TracedLine& line = page.lines[static_cast<size_t>(s.line)];
        if (line.net == pin.net || !touches(s, pin.at)) continue;
        out.push_back({"false-junction", line.id + " (" + line.net + ") touches " + pin.terminal +
                                             " (" + pin.net + ")" + at(pin.at)});
      }
    }
  }
}

// Two parallel stretches of different nets: on the same line they overlap, beside it they are too
// near.
void check_pair(const Page& page, const Segment& s, const Segment& t, Defects& out) {
  const TracedLine &one = page.lines[static_cast<size_t>(s.line)],
                   &two = page.lines[static_cast<size_t>(t.line)];
  if (one.net == two.net || s.level() != t.level()) return;
  const Mm100 apart = s.level() ? std::abs(s.a.y - t.a.y) : std::abs(s.a.x - t.a.x);
  const Mm100 shared = s.level() ? std::min(s.b.x, t.b.x) - std::max(s.a.x, t.a.x)
                                 : std::min(s.b.y, t.b.y) - std::max(s.a.y, t.a.y);
  if (shared <= 0 || apart >= least_gap) return;
  const bool overlap = apart <= pin_tolerance;
  out.push_back({overlap ? "overlap" : "too-near",
                 one.id + " (" + one.net + ") and " + two.id + " (" + two.net + ") run " +
                     (overlap ? "on one line" : "closer than 2 mm") + at(std::max(s.a, t.a))});
}

void check_pairs(const Page& page, Defects& out) {
  for (size_t i = 0; i < page.segments.size(); ++i) {
    const Segment& s = page.segments[i];
    for (size_t k = i + 1; k < page.segments.size(); ++k) {
      if (page.segments[k].a.x >= s.b.x + least_gap) break;
      check_pair(page, s, page.segments[k], out);
    }
  }
}

}  // namespace

void check_wires(const Page& page, Defects& out) {
  for (const TracedLine& line : page.lines) {
    check_shape(line, out);
    if (line.path.size() < 2) continue;
    if (line.run != nullptr) {
      check_end(page, *line.run, line.path.front(), line.run->from, out);
      check_end(page, *line.run, line.path.back(), line.run->to, out);
    }
    for (Point p : line.path) check_vertex(page, line, p, out);
  }
  check_foreign_pins(page, out);
  check_bodies(page, out);
  check_pairs(page, out);
}

}  // namespace towloom
