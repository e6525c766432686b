#include <algorithm>

#include "prove/page.hpp"

namespace towloom {
namespace {

bool within(Point p, const Rect& frame) { return frame.contains(p); }

void check_overlaps(const Page& page, Defects& out) {
  std::vector<const PartFigure*> order = page.parts;
  std::stable_sort(order.begin(), order.end(),
                   [](const PartFigure* a, const PartFigure* b) { return a->body.x < b->body.x; });
  for (size_t i = 0; i < order.size(); ++i) {
    for (size_t k = i + 1; k < order.size() && order[k]->body.x < order[i]->body.right(); ++k) {
      if (!order[i]->body.overlaps(order[k]->body)) continue;
      out.push_back({"part-overlap", order[i]->part + " and " + order[k]->part + " overlap" +
                                         at({order[k]->body.x, order[k]->body.y})});
    }
  }
}

// Two pins of different nets on one point would be read as joined.
void check_pins(const Page& page, Defects& out) {
  std::vector<const Pin*> pins;
  for (const PartFigure* part : page.parts)
    for (const Pin& pin : part->pins) pins.push_back(&pin);
  std::stable_sort(pins.begin(), pins.end(),
                   [](const Pin* a, const Pin* b) { return a->at.x < b->at.x; });
  for (size_t i = 0; i < pins.size(); ++i)
    for (size_t k = i + 1; k < pins.size() && pins[k]->at.x <= pins[i]->at.x + pin_tolerance; ++k)
      if (pins[i]->net != pins[k]->net && same_place(pins[i]->at, pins[k]->at))
        out.push_back({"false-junction", pins[i]->terminal + " and " + pins[k]->terminal +
                                             " lie on one point" + at(pins[i]->at)});
}

void check_frame(const Page& page, Defects& out) {
  const auto rect_within = [&](const Rect& r) {
    return within({r.x, r.y}, page.frame) && within({r.right(), r.bottom()}, page.frame);
  };
  for (const PartFigure* part : page.parts) {
    bool in = rect_within(part->body) && (part->marks.empty() || rect_within(extent(part->marks)));
    for (const Pin& pin : part->pins) in = in && within(pin.at, page.frame);
    if (!in)
      out.push_back(
          {"outside-frame", part->part + " leaves the frame" + at({part->body.x, part->body.y})});
  }
  constexpr Mm100 clear = mm(1);   // a wire nearer to the frame's line reads as part of it
  const Rect inner{page.frame.x + clear, page.frame.y + clear, page.frame.w - 2 * clear, page.frame.h - 2 * clear};
  for (const TracedLine& line : page.lines)
    for (Point p : line.path)
      if (!within(p, inner))
        out.push_back({"outside-frame", line.id + (within(p, page.frame) ? " lies on the frame" : " leaves the frame") + at(p)});
  for (const Junction* dot : page.dots)
    if (!within(dot->at, page.frame))
      out.push_back({"outside-frame", "a dot of " + dot->net + " leaves the frame" + at(dot->at)});
  for (const ContactFigure* c : page.contacts)
    if (!rect_within(extent(c->marks)))
      out.push_back({"outside-frame", "contact " + c->connector + "." + c->contact +
                                          " leaves the frame" + at(c->centre)});
}

}  // namespace

void check_parts(const Page& page, Defects& out) {
  check_overlaps(page, out);
  check_pins(page, out);
  check_frame(page, out);
}

Defects prove_geometry(const Drawing& drawing) {
  const Page page = take_apart(drawing);
  Defects out;
  check_wires(page, out);
  check_dots(page, out);
  check_parts(page, out);
  check_labels(page, out);
  check_leaders(page, out);
  return out;
}

}  // namespace towloom
