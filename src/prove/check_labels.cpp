#include <algorithm>
#include <cmath>
#include <limits>

#include "base/quantity.hpp"
#include "drawing/text.hpp"
#include "prove/page.hpp"

namespace towloom {
namespace {

constexpr Mm100 farthest = mm(6);      // a label farther from its wire is taken for another's
constexpr double least_capital = 2.5;  // mm on technician sheets

std::string said(const Label& label) { return "\"" + label.text + "\""; }
Point corner(const Label& label) { return {label.room.x, label.room.y}; }

void check_size(const Label& label, Defects& out) {
  const double capital = to_mm(label.size) * cap_height_em;
  if (capital < least_capital - 0.001)
    out.push_back({"small-text", said(label) + " has capitals of " + format_fixed(capital, 2) +
                                     " mm" + at(corner(label))});
}

bool inside(const Rect& inner, const Rect& outer) {
  return inner.x >= outer.x && inner.y >= outer.y && inner.right() <= outer.right() &&
         inner.bottom() <= outer.bottom();
}

void check_frame(const Page& page, const Label& label, Defects& out) {
  const Rect paper{0, 0, page.drawing->width, page.drawing->height};
  if (!inside(label.room, label.decoration ? paper : page.frame))
    out.push_back({"outside-frame", said(label) + " leaves the frame" + at(corner(label))});
}

void check_others(const Page& page, size_t index, Defects& out) {
  const Label& label = *page.labels[index];
  for (size_t k = 0; k < page.labels.size(); ++k) {
    const Label& other = *page.labels[k];
    // Each pair once; furniture against furniture is the sheet maker's affair.
    if (k == index || (k < index && !other.decoration) || !label.room.overlaps(other.room))
      continue;
    out.push_back(
        {"label-overlap", said(label) + " and " + said(other) + " overlap" + at(corner(label))});
  }
}

void check_bodies(const Page& page, const Label& label, Defects& out) {
  for (const PartFigure* part : page.parts)
    if (!related(label.about, part->part) && label.room.overlaps(part->body))
      out.push_back({"label-on-part", said(label) + " lies on " + part->part + at(corner(label))});
  for (const ContactFigure* contact : page.contacts) {
    const Rect body = extent(contact->marks);
    const std::string id = contact->connector + "." + contact->contact;
    if (label.room.overlaps(body))
      out.push_back({"label-on-part", said(label) + " lies on contact " + id + at(corner(label))});
  }
}

void check_ink(const Page& page, const Label& label, Defects& out) {
  for (const Segment& s : page.segments) {
    const TracedLine& line = page.lines[static_cast<size_t>(s.line)];
    if (!label.room.overlaps(extent(s, std::max<Mm100>(line.width / 2, 1)))) continue;
    const bool own = line.id == label.about;
    out.push_back({own ? "label-on-own-wire" : "label-on-foreign-wire",
                   said(label) + " lies on " + line.id + at(corner(label))});
  }
}

Mm100 gap(const Rect& a, const Rect& b) {
  const double dx = std::max({a.x - b.right(), b.x - a.right(), 0}), dy = std::max({a.y - b.bottom(), b.y - a.bottom(), 0});
  return static_cast<Mm100>(std::sqrt(dx * dx + dy * dy));
}

// A label of a wire must lie near it, and nearer to it than to any other.
void check_owner(const Page& page, const Label& label, Defects& out) {
  constexpr Mm100 none = std::numeric_limits<Mm100>::max();
  Mm100 own = none, foreign = none;
  std::string rival;
  for (const Segment& s : page.segments) {
    const TracedLine& line = page.lines[static_cast<size_t>(s.line)];
    const Mm100 distance = gap(label.room, s);
    if (line.id == label.about) {
      own = std::min(own, distance);
    } else if (line.run != nullptr && distance < foreign) {
      foreign = distance;
      rival = line.id;
    }
  }
  if (own == none || has_leader(page, label)) return;  // not about a wire, or a thin line leads to it
  for (const PartFigure* part : page.parts)            // a bar on a terminal bears the name of its part, which is meant
    if (part->part == label.about) own = std::min(own, gap(label.room, part->body));
  if (own > farthest)
    out.push_back({"label-far", said(label) + " is far from " + label.about + at(corner(label))});
  if (foreign < own)
    out.push_back({"label-ambiguous", said(label) + " of " + label.about + " is nearer to " +
                                          rival + at(corner(label))});
}

}  // namespace

void check_labels(const Page& page, Defects& out) {
  for (size_t i = 0; i < page.labels.size(); ++i) {
    const Label& label = *page.labels[i];
    if (label.text.empty()) continue;
    check_size(label, out);
    check_frame(page, label, out);
    check_ink(page, label, out);
    if (label.decoration) continue;
    check_others(page, i, out);
    check_bodies(page, label, out);
    check_owner(page, label, out);
  }
}

}  // namespace towloom
