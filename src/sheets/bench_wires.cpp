#include <algorithm>
#include <cmath>
#include <functional>

#include "sheets/bench_draft.hpp"

namespace towloom {
namespace {

std::string size_text(const Wire& w) { return w.size && w.fixed_ohm < 0 ? w.size->text() : ""; }
std::string length_text(const Wire& w) { return w.length_m > 0 ? format_fixed(std::ceil(w.length_m * 10 - 1e-6) / 10, 1) + " m" : ""; }

struct Level {                   // the longest level stretch of a wire, in modules
  double left = 0, right = 0, y = 0;
  double length() const { return right - left; }
};

struct Upright {                 // the longest upright stretch
  double x = 0, top = 0, bottom = 0;
  double length() const { return bottom - top; }
};

Upright longest_upright(const Routed& r) {
  Upright best;
  for (std::size_t i = 0; i + 1 < r.path.size(); ++i) {
    const GridPoint a = r.path[i], b = r.path[i + 1];
    if (a.x != b.x) continue;
    const double top = std::min(a.y, b.y), bottom = std::max(a.y, b.y);
    if (bottom - top > best.length()) best = {double(a.x), top, bottom};
  }
  return best;
}

Level longest_level(const Routed& r) {
  Level best;
  for (std::size_t i = 0; i + 1 < r.path.size(); ++i) {
    const GridPoint a = r.path[i], b = r.path[i + 1];
    if (a.y != b.y) continue;
    const double left = std::min(a.x, b.x), right = std::max(a.x, b.x);
    if (right - left > best.length()) best = {left, right, double(a.y)};
  }
  return best;
}

// Boxes that a label must not touch, in drawing units: parts, labels, all wires as inked.
struct Taken {
  std::vector<Rect> rooms;
  bool free(const Rect& r) const {
    return std::none_of(rooms.begin(), rooms.end(), [&](const Rect& t) { return t.overlaps(r); });
  }
};

void take_path(Taken& taken, const Polyline& path, Mm100 around) {
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    const Point a = path[i], b = path[i + 1];
    taken.rooms.push_back({std::min(a.x, b.x) - around, std::min(a.y, b.y) - around, std::abs(a.x - b.x) + 2 * around,
                           std::abs(a.y - b.y) + 2 * around});
  }
}

// Frames of housings and cut marks are no parts, but no text may lie on them either.
void take_marks(const BenchDraft& d, const std::vector<Routed>& routed, Taken& out) {
  for (const Housing& h : d.place.housings) {
    const Point a = BenchDraft::at(h.left, h.top), b = BenchDraft::at(h.right, h.bottom);
    take_path(out, {a, {b.x, a.y}, b, {a.x, b.y}, a}, mm(0.3));
  }
  for (const CutPoint& cut : d.circuit().cuts) {
    const Point end = BenchDraft::at(routed[static_cast<std::size_t>(cut.car_side.v)].path.back());
    out.rooms.push_back({end.x - mm(4), end.y - mm(1.6), mm(4), mm(3.2)});
  }
}

Taken taken_by(const Drawing& drawing) {
  Taken out;
  for (const Item& item : drawing.items) {
    if (const auto* part = std::get_if<PartFigure>(&item)) out.rooms.push_back(part->body);
    if (const auto* label = std::get_if<Label>(&item)) out.rooms.push_back(label->room);
    if (const auto* run = std::get_if<WireRun>(&item)) take_path(out, run->path, mm(0.65));
    if (const auto* bar = std::get_if<LinkBar>(&item)) take_path(out, bar->path, mm(0.5));
  }
  return out;
}

struct Line {
  std::vector<std::string> texts;   // the fullest first
  Weight weight;
  const char* ink_name;
};

constexpr double step = 0.25, line_pitch = 1.45;  // modules

// Writes the first text that finds a free place above or below the stretch.
bool place_line(const BenchDraft& d, Taken& taken, const Level& level, const Line& line, const std::string& about, bool above) {
  constexpr double gap_above = 0.8, gap_below = 1.62, margin = 0.45;
  for (const std::string& text : line.texts) {
    if (text.empty()) continue;
    const double width = to_mm(d.measure.reserve(text, text_size(d.style, "small"), line.weight)) / BenchDraft::module;
    for (double x = level.left + margin; x + width <= level.right - margin; x += step) {
      Label label;
      label.text = text;
      label.at = BenchDraft::at(x, level.y + (above ? -gap_above : gap_below));
      label.size = text_size(d.style, "small");
      label.weight = line.weight;
      label.colour = ink(d.style, line.ink_name);
      label.about = about;
      d.measure.place(label);
      Rect room = label.room;
      room.x -= mm(0.9);
      room.w += mm(1.8);
      const Mm100 over = above ? mm(0.8) : mm(0.3);  // white space to what stands over it; below, its own wire does
      room.y -= over;
      room.h += over + mm(0.1);
      if (!taken.free(room)) continue;
      taken.rooms.push_back(label.room);
      d.drawing.items.emplace_back(std::move(label));
      return true;
    }
  }
  return false;
}

// Two lines that only make sense together: both find a place, or neither is written.
using Try = std::function<bool()>;
bool place_both(const BenchDraft& d, Taken& taken, const Try& first, const Try& second) {
  const auto items = static_cast<std::ptrdiff_t>(d.drawing.items.size());
  const Taken before = taken;
  if (first() && second()) return true;
  d.drawing.items.erase(d.drawing.items.begin() + items, d.drawing.items.end());
  taken = before;
  return false;
}

// Size and length of a wire too short for one line: below each other under the wire, or left of its upright part.
void stack_size(const BenchDraft& d, Taken& taken, const Wire& w, const Level& level, const Upright& upright, const Line& size, const Line& length) {
  const auto at = [&](double left, double right, double y, const Line& line, bool above) {
    return place_line(d, taken, {left, right, y}, line, w.id, above);
  };
  constexpr double lower_pitch = 1.6, widest = 6;   // white space is kept over what stands below a wire
  // The lower line lies far from its wire: nothing else may be as near.
  constexpr double depth = 5.5, below_wire = 0.4;
  const Point corner = BenchDraft::at(level.left + below_wire, level.y + below_wire);
  const Rect under{corner.x, corner.y, mm((std::min(level.length(), widest) - 2 * below_wire) * BenchDraft::module), mm((depth - below_wire) * BenchDraft::module)};
  if (taken.free(under) &&
      place_both(d, taken, [&] { return at(level.left, level.right, level.y, size, false); },
                 [&] { return at(level.left, level.left + widest, level.y + lower_pitch, length, false); }))
    return;
  const Line whole{{w.id + " " + size.texts[0] + " " + length.texts[0]}, size.weight, size.ink_name};
  const double width = to_mm(d.measure.reserve(whole.texts[0], text_size(d.style, "small"), whole.weight)) / BenchDraft::module;
  constexpr double beside = 1.4;
  for (double y = std::floor((upright.top + upright.bottom) / 2); y >= upright.top + line_pitch; y -= step)
    if (at(upright.x - width - beside, upright.x, y, whole, true)) return;
  at(level.left, level.right, level.y, size, false);
}

void label_wire(const BenchDraft& d, Taken& taken, const Wire& w, const Level& level, const Upright& upright) {
  const bool fitted = w.status != Status::factory;
  const std::string circuit = w.circuit.empty() ? "" : word(d.style, "circuit-" + w.circuit);
  const std::string size = size_text(w), length = length_text(w), colour = colour_text(w.colour, d.style);
  Line above{{}, Weight::semibold, "ink"}, below{{}, Weight::regular, "quiet"};
  if (fitted) {
    above.texts = {w.id + " " + circuit + " " + colour, w.id + " " + colour};
    below.texts = {size + (length.empty() ? "" : " " + length)};
  } else {
    above.weight = Weight::regular;
    above.ink_name = "factory";
    above.texts = {colour + (colour.empty() ? "" : " " + size), colour};
  }
  // A short wire's label may reach beyond its end, as long as it begins at the wire.
  const Level longer{level.left, level.left + 24, level.y};
  for (const bool over : {true, false}) {
    if (!place_line(d, taken, level, above, w.id, over)) continue;
    if (fitted && over && !place_line(d, taken, level, below, w.id, false))
      stack_size(d, taken, w, level, upright, {{size}, below.weight, below.ink_name}, {{length}, below.weight, below.ink_name});
    return;
  }
  if (!fitted) return;
  // Below a short wire are other parts: both lines stand over it, name first.
  const Level upper{longer.left, longer.right, longer.y - line_pitch};
  if (place_both(d, taken, [&] { return place_line(d, taken, longer, below, w.id, true); },
                 [&] { return place_line(d, taken, upper, above, w.id, true); }))
    return;
  for (const bool over : {true, false})
    if (place_line(d, taken, longer, above, w.id, over)) return;
}

}  // namespace

void draw_wires(const BenchDraft& d, const std::vector<Routed>& routed) {
  for (std::size_t i = 0; i < routed.size(); ++i) {
    const Wire& w = d.circuit().wires[i];
    WireRun run;
    run.wire = w.id;
    run.net = d.net(w.from);
    run.from = d.circuit().name(w.from);
    run.to = d.circuit().name(w.to);
    run.colour = w.colour;
    run.size = size_text(w);
    run.status = w.status == Status::factory || w.group == "coach" ? "factory" : "new";
    for (const GridPoint& p : routed[i].path) run.path.push_back(BenchDraft::at(p));
    set_pens(run, d.style);
    d.drawing.items.emplace_back(std::move(run));
  }
  // Cut marks lie on the car side of each cut, close to where it ends.
  for (const CutPoint& cut : d.circuit().cuts) {
    const auto& path = routed[static_cast<std::size_t>(cut.car_side.v)].path;
    const GridPoint end = path.back();
    Decor mark;
    mark.marks = symbol_marks(d.style.symbol("cut"), BenchDraft::at(end.x - 1, end.y), false, d.style, ink(d.style, "cut"));
    d.drawing.items.emplace_back(std::move(mark));
  }
}

void label_wires(const BenchDraft& d, const std::vector<Routed>& routed) {
  Taken taken = taken_by(d.drawing);
  take_marks(d, routed, taken);
  // New wires first: they are what the fitter makes.
  for (const bool fitted : {true, false})
    for (std::size_t i = 0; i < routed.size(); ++i) {
      const Wire& w = d.circuit().wires[i];
      if ((w.status == Status::fitted || w.group == "cord") != fitted || w.group == "coach" || w.group == "inside") continue;
      label_wire(d, taken, w, longest_level(routed[i]), longest_upright(routed[i]));
    }
}

void label_volts(const BenchDraft& d) {
  const States& states = d.facts.states;
  for (std::size_t l = 0; l < d.circuit().lamps.size(); ++l) {
    const LampIntent& lamp = d.circuit().lamps[l];
    const Standing* s = d.place.of(lamp.lamp);
    if (lamp.tow_signal.empty() || s == nullptr) continue;
    const std::string scene = lamp.tow_signal == "tail" ? "tail" : "tail + " + lamp.tow_signal;
    for (std::size_t k = 0; k < states.scenes.size(); ++k) {
      if (states.scenes[k].name != scene) continue;
      const std::string text = format_fixed(states.lamps[k][l].volts, 1) + " V";
      Label label;
      label.text = text;
      const bool centre = d.circuit().part(lamp.lamp).side == Side::centre;
      label.anchor = Anchor::middle;
      label.at = BenchDraft::at(s->at.x - (centre ? 6.2 : 8.8), s->at.y + 1.85);
      label.size = text_size(d.style, "small");
      label.weight = Weight::semibold;
      label.colour = ink(d.style, "test");
      label.about = d.circuit().part(lamp.lamp).id;
      d.measure.place(label);
      Rect room = label.room;
      room.x -= mm(0.7);
      room.w += mm(1.4);
      room.y -= mm(0.5);
      room.h += mm(0.6);
      Decor frame;
      frame.marks.push_back(filled_box(room, ink(d.style, "test-fill"), mm(0.8)));
      frame.marks.push_back(box(room, Pen{mm(0.2), ink(d.style, "test"), {}, false}, mm(0.8)));
      d.drawing.items.emplace_back(std::move(frame));
      d.drawing.items.emplace_back(std::move(label));
    }
  }
}

}  // namespace towloom
