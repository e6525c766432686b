// Labels of wires: each finds a free place close to its own wire, nearer to it than to any other, in room that
// nothing else takes.
#include <algorithm>
#include <cmath>
#include <limits>

#include "sheets/bench_labels.hpp"

namespace towloom {
namespace {

constexpr double line_pitch = 1.45;                        // modules
constexpr double gap_above = 0.8, gap_below = 1.62, beside = 0.7;   // from a wire to the base line, or to the text
constexpr double reach_past = 8;                           // how far a label may run past its stretch
constexpr Mm100 farthest = mm(5.8);                        // a label farther off reads as another's

}  // namespace

Rect around(Point a, Point b, Mm100 by) {
  return {std::min(a.x, b.x) - by, std::min(a.y, b.y) - by, std::abs(a.x - b.x) + 2 * by, std::abs(a.y - b.y) + 2 * by};
}

double apart(const Rect& a, const Rect& b) {
  const double dx = std::max({a.x - b.right(), b.x - a.right(), 0}), dy = std::max({a.y - b.bottom(), b.y - a.bottom(), 0});
  return std::sqrt(dx * dx + dy * dy);
}

void move(Label& label, Point to) {
  label.room.x += to.x - label.at.x;
  label.room.y += to.y - label.at.y;
  label.at = to;
}

Labels::Labels(const BenchDraft& d, const std::vector<Routed>& routed, const Frame& frame) : d_(d), routed_(routed), frame_(frame.space), floor_(frame.space.bottom() - mm((0.5 + note_pitch * static_cast<double>(d.notes.size())) * BenchDraft::module)) {
  for (const Item& item : d.drawing.items) {
    if (const auto* part = std::get_if<PartFigure>(&item)) taken_.add(part->body), bodies_.push_back(part->body);
    if (const auto* label = std::get_if<Label>(&item)) taken_.add(label->room), texts_.add(label->room);
    if (const auto* bar = std::get_if<LinkBar>(&item)) {
      bodies_.push_back(around(bar->path.front(), bar->path.back(), mm(0.5)));
      taken_.add(bodies_.back());
    }
  }
  for (const Routed& r : routed) {
    lines_.emplace_back();
    for (std::size_t i = 0; i + 1 < r.path.size(); ++i) {
      const Point a = BenchDraft::at(r.path[i]), b = BenchDraft::at(r.path[i + 1]);
      lines_.back().push_back(around(a, b, 0));
      all_lines_.add(lines_.back().back(), static_cast<int>(lines_.size()) - 1);
      taken_.add(around(a, b, mm(0.65)));
    }
  }
  // Frames of housings and cut marks are no parts, but no text may lie on them either.
  for (const Housing& h : d.place.housings) {
    const Point a = BenchDraft::at(h.left, h.top), b = BenchDraft::at(h.right, h.bottom);
    housings_.push_back(around(a, b, 0));
    for (const auto& [p, q] : {std::pair{a, Point{b.x, a.y}}, {Point{b.x, a.y}, b}, {Point{a.x, b.y}, b}, {a, Point{a.x, b.y}}}) taken_.add(around(p, q, mm(0.3)));
  }
  for (const CutPoint& cut : d.circuit().cuts) {
    const Point end = BenchDraft::at(routed[static_cast<std::size_t>(cut.car_side.v)].path.back());
    taken_.add({end.x - mm(4), end.y - mm(1.6), mm(4), mm(3.2)});
  }
}

std::vector<Labels::Stretch> Labels::stretches(std::size_t wire, bool level) const {
  std::vector<Stretch> out;
  const auto& path = routed_[wire].path;
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    const GridPoint a = path[i], b = path[i + 1];
    if ((a.y == b.y) == level) out.push_back({double(std::min(a.x, b.x)), double(std::min(a.y, b.y)), double(std::max(a.x, b.x)), double(std::max(a.y, b.y))});
  }
  const auto length = [](const Stretch& s) { return s.right - s.left + s.bottom - s.top; };
  std::stable_sort(out.begin(), out.end(), [&](const Stretch& s, const Stretch& t) { return length(s) > length(t); });
  return out;
}

double Labels::width(const LabelLine& line) const {
  return to_mm(d_.measure.reserve(line.text, text_size(d_.style, "small"), line.weight)) / BenchDraft::module;
}

Label Labels::make(const LabelLine& line, double x, double y, std::size_t wire) const {
  Label out;
  out.text = line.text;
  out.at = BenchDraft::at(x, y);
  out.size = text_size(d_.style, "small");
  out.weight = line.weight;
  out.colour = ink(d_.style, line.ink_name);
  out.about = d_.circuit().wires[wire].id;
  d_.measure.place(out);
  return out;
}

bool Labels::fits(const Rect& text, std::size_t wire, Mm100 above) const {
  const Rect room{text.x - mm(0.9), text.y - above, text.w + mm(1.8), text.h + above + mm(0.1)};
  if (taken_.meets(room)) return false;
  const Rect air{text.x - mm(1.6), text.y - mm(1), text.w + mm(3.2), text.h + mm(2)};
  if (airy_ && texts_.meets(air)) return false;
  if (room.x < frame_.x || room.right() > frame_.right() || room.y < frame_.y || room.bottom() > floor_) return false;
  for (const Rect& inside : housings_)   // a frame holds nothing of wires that pass outside it
    if (inside.overlaps(room) && std::none_of(lines_[wire].begin(), lines_[wire].end(), [&](const Rect& line) { return line.overlaps(inside); })) return false;
  double own = std::numeric_limits<double>::max();
  for (const Rect& line : lines_[wire]) own = std::min(own, apart(text, line));
  if (own > farthest) return false;
  const double least = own + (airy_ ? mm(0.6) : 0);   // from every other wire
  const Mm100 reach = static_cast<Mm100>(least) + 1;
  const Rect near{text.x - reach, text.y - reach, text.w + 2 * reach, text.h + 2 * reach};
  return !all_lines_.any(near, [&](const Clutter::Thing& line) {
    return line.owner != static_cast<int>(wire) && line.box.x <= near.right() && line.box.right() >= near.x && apart(text, line.box) <= least;
  });
}

bool Labels::put(const std::vector<Label>& labels, std::size_t wire) {
  for (std::size_t i = 0; i < labels.size(); ++i)
    if (!fits(labels[i].room, wire, i == 0 ? mm(0.6) : mm(0.2))) return false;
  for (const Label& label : labels) {
    taken_.add(label.room);
    texts_.add(label.room);
    items_.emplace_back(label);
  }
  return true;
}

// Beginning at one x: `above` over the stretch, `below` under it. `reach`: how far text may run past its end.
bool Labels::along(const LabelBlock& above, const LabelBlock& below, const Stretch& s, std::size_t wire, double reach) {
  double wide = 0;
  for (const LabelLine& line : above) wide = std::max(wide, width(line));
  for (const LabelLine& line : below) wide = std::max(wide, width(line));
  constexpr double margin = 0.45;
  std::vector<Label> labels;     // written once, then moved along
  for (double x = s.left + margin; x + wide <= s.right - margin + reach; x += label_step) {
    if (x > s.right - 1) break;
    if (labels.empty()) {
      for (std::size_t i = 0; i < above.size(); ++i)
        labels.push_back(make(above[i], x, s.top - gap_above - line_pitch * static_cast<double>(above.size() - 1 - i), wire));
      for (std::size_t i = 0; i < below.size(); ++i) labels.push_back(make(below[i], x, s.top + gap_below + line_pitch * static_cast<double>(i), wire));
    }
    for (Label& label : labels) move(label, {BenchDraft::at(x, s.top).x, label.at.y});
    if (put(labels, wire)) return true;
  }
  return false;
}

// Right or left of an upright stretch, from its middle outwards.
bool Labels::upright(const LabelBlock& block, const Stretch& s, std::size_t wire) {
  double wide = 0;
  for (const LabelLine& line : block) wide = std::max(wide, width(line));
  const double middle = (s.top + s.bottom) / 2, tall = line_pitch * static_cast<double>(block.size());
  std::vector<Label> labels;     // written once, then moved along
  for (double off = 0; middle + off + tall / 2 <= s.bottom && off <= (s.bottom - s.top) / 2; off += label_step)
    for (const double y : {middle + off, middle - off})
      for (const double x : {s.left + beside, s.left - beside - wide}) {
        for (std::size_t i = 0; i < block.size(); ++i) {
          const double base = y - tall / 2 + line_pitch * static_cast<double>(i + 1) - 0.2;
          if (labels.size() <= i) labels.push_back(make(block[i], x, base, wire));
          else move(labels[i], BenchDraft::at(x, base));
        }
        if (put(labels, wire)) return true;
      }
  return false;
}

// One block above the wire, the other below it.
bool Labels::astride(const LabelBlock& above, const LabelBlock& below, std::size_t wire) {
  for (const bool air : {true, false})
    for (const double reach : {0.0, reach_past})
      for (const Stretch& s : stretches(wire, true)) {
        airy_ = air;
        if (along(above, below, s, wire, reach)) return true;
      }
  return false;
}

// All lines on one side of the wire.
bool Labels::level(const LabelBlock& block, std::size_t wire) {
  for (const bool air : {true, false})
    for (const double reach : {0.0, reach_past})
      for (const Stretch& s : stretches(wire, true)) {
        airy_ = air;
        if (along(block, {}, s, wire, reach) || along({}, block, s, wire, reach)) return true;
      }
  return false;
}

bool Labels::upright(const LabelBlock& block, std::size_t wire) {
  for (const bool air : {true, false})
    for (const Stretch& s : stretches(wire, false)) {
      airy_ = air;
      if (upright(block, s, wire)) return true;
    }
  return false;
}

}  // namespace towloom
