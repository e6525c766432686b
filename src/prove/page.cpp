#include "prove/page.hpp"

#include <algorithm>
#include <cmath>

#include "base/quantity.hpp"

namespace towloom {
namespace {

void grow(Rect& box, bool& empty, Point p) {
  if (empty) {
    box = {p.x, p.y, 0, 0};
    empty = false;
    return;
  }
  const Mm100 x0 = std::min(box.x, p.x), y0 = std::min(box.y, p.y);
  const Mm100 x1 = std::max(box.right(), p.x), y1 = std::max(box.bottom(), p.y);
  box = {x0, y0, x1 - x0, y1 - y0};
}

void add_points(const Mark& mark, Rect& box, bool& empty) {
  if (const auto* disc = std::get_if<Disc>(&mark)) {
    grow(box, empty, {disc->centre.x - disc->radius, disc->centre.y - disc->radius});
    grow(box, empty, {disc->centre.x + disc->radius, disc->centre.y + disc->radius});
    return;
  }
  for (const PathStep& step : std::get<Shape>(mark).path) {
    if (step.kind == PathStep::Kind::close) continue;
    grow(box, empty, step.kind == PathStep::Kind::cubic ? step.c : step.a);
  }
}

// The frame is the largest figure of the decoration that spans most of the paper yet stays on it.
Rect find_frame(const Drawing& drawing) {
  const Mm100 margin = mm(5);  // what printers commonly leave blank, no source
  Rect frame{margin, margin, drawing.width - 2 * margin, drawing.height - 2 * margin};
  for (const Item& item : drawing.items) {
    const auto* decor = std::get_if<Decor>(&item);
    if (decor == nullptr) continue;
    for (const Mark& mark : decor->marks) {
      const Rect box = extent(std::vector<Mark>{mark});
      const bool spans = box.w * 5 > drawing.width * 4 && box.h * 5 > drawing.height * 4;
      if (spans && box.w < drawing.width && box.h < drawing.height) return box;
    }
  }
  return frame;
}

// One straight thin line and a small filled dot at its beginning.
void add_leader(Page& page, const Decor& decor) {
  constexpr Mm100 widest = 25, largest = 60;
  if (decor.marks.size() != 2) return;
  const auto* shape = std::get_if<Shape>(&decor.marks[0]);
  const auto* dot = std::get_if<Disc>(&decor.marks[1]);
  if (shape == nullptr || dot == nullptr || shape->path.size() != 2 || shape->filled || shape->pen.width > widest) return;
  if (!dot->filled || dot->radius > largest || !same_place(shape->path[0].a, dot->centre)) return;
  page.leaders.push_back({dot->centre, shape->path[1].a});
}

void add_segments(Page& page, int line) {
  const Polyline& path = page.lines[static_cast<size_t>(line)].path;
  for (size_t i = 1; i < path.size(); ++i) {
    const Point a = path[i - 1], b = path[i];
    if ((a.x != b.x && a.y != b.y) || a == b) continue;
    page.segments.push_back({std::min(a, b), std::max(a, b), line});
  }
}

TracedLine traced(const WireRun& run) {
  const Mm100 width = std::max(run.casing.width, run.core.width);
  return {run.wire, run.net, &run, run.path, width};
}

}  // namespace

Page take_apart(const Drawing& drawing) {
  Page page;
  page.drawing = &drawing;
  page.frame = find_frame(drawing);
  for (const Item& item : drawing.items) {
    if (const auto* run = std::get_if<WireRun>(&item)) page.lines.push_back(traced(*run));
    if (const auto* bar = std::get_if<LinkBar>(&item))
      page.lines.push_back({bar->part, bar->net, nullptr, bar->path, bar->pen.width});
    if (const auto* part = std::get_if<PartFigure>(&item)) page.parts.push_back(part);
    if (const auto* dot = std::get_if<Junction>(&item)) page.dots.push_back(dot);
    if (const auto* label = std::get_if<Label>(&item)) page.labels.push_back(label);
    if (const auto* decor = std::get_if<Decor>(&item)) add_leader(page, *decor);
    if (const auto* contact = std::get_if<ContactFigure>(&item)) page.contacts.push_back(contact);
  }
  for (size_t i = 0; i < page.lines.size(); ++i) add_segments(page, static_cast<int>(i));
  std::stable_sort(page.segments.begin(), page.segments.end(),
                   [](const Segment& s, const Segment& t) { return s.a.x < t.a.x; });
  return page;
}

bool same_place(Point p, Point q) {
  return std::abs(p.x - q.x) <= pin_tolerance && std::abs(p.y - q.y) <= pin_tolerance;
}
bool touches(const Segment& s, Point p) {
  const Mm100 t = pin_tolerance;
  return p.x >= s.a.x - t && p.x <= s.b.x + t && p.y >= s.a.y - t && p.y <= s.b.y + t;
}
Mm100 gap(const Rect& r, const Segment& s) {
  const double dx = std::max({r.x - s.b.x, s.a.x - r.right(), 0});
  const double dy = std::max({r.y - s.b.y, s.a.y - r.bottom(), 0});
  return static_cast<Mm100>(std::sqrt(dx * dx + dy * dy) + 0.5);
}
Rect extent(const Segment& s, Mm100 half) {
  return {s.a.x - half, s.a.y - half, s.b.x - s.a.x + 2 * half, s.b.y - s.a.y + 2 * half};
}
Rect extent(const std::vector<Mark>& marks) {
  Rect box;
  bool empty = true;
  for (const Mark& mark : marks) add_points(mark, box, empty);
  return box;
}
std::string at(Point p) {
  return " at (" + format_fixed(to_mm(p.x), 2) + ", " + format_fixed(to_mm(p.y), 2) + ") mm";
}
bool related(const std::string& a, const std::string& b) {
  if (a.empty() || b.empty()) return false;
  return a == b || a.rfind(b + ".", 0) == 0 || b.rfind(a + ".", 0) == 0;
}
bool same_net_part(const PartFigure& part) { return part.kind == "splice" || part.kind == "joint"; }

}  // namespace towloom
