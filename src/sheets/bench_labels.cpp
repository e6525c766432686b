// Labels of wires and volts at lamps: each finds a free place close to its own wire, nearer to it than to any
// other, in room that nothing else takes.
#include <algorithm>
#include <cmath>
#include <limits>

#include "sheets/bench_draft.hpp"

namespace towloom {
namespace {

constexpr double step = 0.25, line_pitch = 1.45;           // modules
constexpr double gap_above = 0.8, gap_below = 1.62, beside = 0.7;   // from a wire to the base line, or to the text
constexpr Mm100 farthest = mm(5.8);                        // a label farther off reads as another's

struct Line {
  std::string text;
  Weight weight = Weight::regular;
  const char* ink_name = "quiet";
};
using Block = std::vector<Line>;   // lines below each other

class Labels {
 public:
  Labels(const BenchDraft& d, const std::vector<Routed>& routed, const Frame& frame);
  void label(std::size_t wire);
  void volts(std::size_t lamp);
  void splice(const Standing&);
  void sides(double x, double from, double to);

 private:
  struct Stretch { double left, top, right, bottom; };
  std::vector<Stretch> stretches(std::size_t wire, bool level) const;
  Label make(const Line&, double x, double y, std::size_t wire) const;
  double width(const Line&) const;
  bool fits(const Rect& text, std::size_t wire, Mm100 above) const;
  bool put(const std::vector<Label>&, std::size_t wire);
  bool along(const Block& above, const Block& below, const Stretch&, std::size_t wire, double reach);
  bool upright(const Block&, const Stretch&, std::size_t wire);
  bool level(const Block& above, const Block& below, std::size_t wire);
  bool upright(const Block&, std::size_t wire);

  const BenchDraft& d_;
  const std::vector<Routed>& routed_;
  Rect frame_;
  std::vector<Rect> taken_;
  std::vector<std::vector<Rect>> lines_;   // of each wire, bare centre lines
};

Rect around(Point a, Point b, Mm100 by) {
  return {std::min(a.x, b.x) - by, std::min(a.y, b.y) - by, std::abs(a.x - b.x) + 2 * by, std::abs(a.y - b.y) + 2 * by};
}

double apart(const Rect& a, const Rect& b) {
  const double dx = std::max({a.x - b.right(), b.x - a.right(), 0}), dy = std::max({a.y - b.bottom(), b.y - a.bottom(), 0});
  return std::sqrt(dx * dx + dy * dy);
}

Labels::Labels(const BenchDraft& d, const std::vector<Routed>& routed, const Frame& frame) : d_(d), routed_(routed), frame_(frame.space) {
  for (const Item& item : d.drawing.items) {
    if (const auto* part = std::get_if<PartFigure>(&item)) taken_.push_back(part->body);
    if (const auto* label = std::get_if<Label>(&item)) taken_.push_back(label->room);
    if (const auto* bar = std::get_if<LinkBar>(&item)) taken_.push_back(around(bar->path.front(), bar->path.back(), mm(0.5)));
  }
  for (const Routed& r : routed) {
    lines_.emplace_back();
    for (std::size_t i = 0; i + 1 < r.path.size(); ++i) {
      const Point a = BenchDraft::at(r.path[i]), b = BenchDraft::at(r.path[i + 1]);
      lines_.back().push_back(around(a, b, 0));
      taken_.push_back(around(a, b, mm(0.65)));
    }
  }
  // Frames of housings and cut marks are no parts, but no text may lie on them either.
  for (const Housing& h : d.place.housings) {
    const Point a = BenchDraft::at(h.left, h.top), b = BenchDraft::at(h.right, h.bottom);
    for (const auto& [p, q] : {std::pair{a, Point{b.x, a.y}}, {Point{b.x, a.y}, b}, {Point{a.x, b.y}, b}, {a, Point{a.x, b.y}}}) taken_.push_back(around(p, q, mm(0.3)));
  }
  for (const CutPoint& cut : d.circuit().cuts) {
    const Point end = BenchDraft::at(routed[static_cast<std::size_t>(cut.car_side.v)].path.back());
    taken_.push_back({end.x - mm(4), end.y - mm(1.6), mm(4), mm(3.2)});
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

double Labels::width(const Line& line) const {
  return to_mm(d_.measure.reserve(line.text, text_size(d_.style, "small"), line.weight)) / BenchDraft::module;
}

Label Labels::make(const Line& line, double x, double y, std::size_t wire) const {
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
  if (std::any_of(taken_.begin(), taken_.end(), [&](const Rect& t) { return t.overlaps(room); })) return false;
  if (room.x < frame_.x || room.right() > frame_.right() || room.y < frame_.y || room.bottom() > frame_.bottom()) return false;
  double own = std::numeric_limits<double>::max(), foreign = own;
  for (std::size_t w = 0; w < lines_.size(); ++w)
    for (const Rect& line : lines_[w]) (w == wire ? own : foreign) = std::min(w == wire ? own : foreign, apart(text, line));
  return own <= farthest && own < foreign;
}

bool Labels::put(const std::vector<Label>& labels, std::size_t wire) {
  for (std::size_t i = 0; i < labels.size(); ++i)
    if (!fits(labels[i].room, wire, i == 0 ? mm(0.6) : mm(0.2))) return false;
  for (const Label& label : labels) {
    taken_.push_back(label.room);
    d_.drawing.items.emplace_back(label);
  }
  return true;
}

// Beginning at one x: `above` over the stretch, `below` under it. `reach`: how far text may run past its end.
bool Labels::along(const Block& above, const Block& below, const Stretch& s, std::size_t wire, double reach) {
  double wide = 0;
  for (const Line& line : above) wide = std::max(wide, width(line));
  for (const Line& line : below) wide = std::max(wide, width(line));
  constexpr double margin = 0.45;
  for (double x = s.left + margin; x + wide <= s.right - margin + reach; x += step) {
    if (x > s.right - 1) break;
    std::vector<Label> labels;
    for (std::size_t i = 0; i < above.size(); ++i)
      labels.push_back(make(above[i], x, s.top - gap_above - line_pitch * static_cast<double>(above.size() - 1 - i), wire));
    for (std::size_t i = 0; i < below.size(); ++i) labels.push_back(make(below[i], x, s.top + gap_below + line_pitch * static_cast<double>(i), wire));
    if (put(labels, wire)) return true;
  }
  return false;
}

// Right or left of an upright stretch, from its middle outwards.
bool Labels::upright(const Block& block, const Stretch& s, std::size_t wire) {
  double wide = 0;
  for (const Line& line : block) wide = std::max(wide, width(line));
  const double middle = (s.top + s.bottom) / 2, tall = line_pitch * static_cast<double>(block.size());
  for (double off = 0; middle + off + tall / 2 <= s.bottom && off <= (s.bottom - s.top) / 2; off += step)
    for (const double y : {middle + off, middle - off})
      for (const double x : {s.left + beside, s.left - beside - wide}) {
        std::vector<Label> labels;
        for (std::size_t i = 0; i < block.size(); ++i)
          labels.push_back(make(block[i], x, y - tall / 2 + line_pitch * static_cast<double>(i + 1) - 0.2, wire));
        if (put(labels, wire)) return true;
      }
  return false;
}

bool Labels::level(const Block& above, const Block& below, std::size_t wire) {
  Block stacked = above;
  stacked.insert(stacked.end(), below.begin(), below.end());
  for (const double reach : {0.0, 8.0})
    for (const Stretch& s : stretches(wire, true))
      if (along(above, below, s, wire, reach) || along(stacked, {}, s, wire, reach) || along({}, stacked, s, wire, reach)) return true;
  return false;
}

bool Labels::upright(const Block& block, std::size_t wire) {
  for (const Stretch& s : stretches(wire, false))
    if (upright(block, s, wire)) return true;
  return false;
}

void Labels::label(std::size_t index) {
  const Wire& w = d_.circuit().wires[index];
  const std::string size = w.size && w.fixed_ohm < 0 ? w.size->text() : "", colour = colour_text(w.colour, d_.style);
  if (w.status == Status::factory) {
    if (colour.empty()) return;
    const Line full{colour + " " + size, Weight::regular, "factory"}, letters{colour, Weight::regular, "factory"};
    if (!level({full}, {}, index) && !level({letters}, {}, index)) upright({letters}, index);
    return;
  }
  // Up to a tenth of a metre: what the fitter cuts is never shorter than what is printed.
  const std::string length = w.length_m > 0 ? format_fixed(std::ceil(w.length_m * 10 - 1e-6) / 10, 1) + " m" : "";
  const std::string circuit = w.circuit.empty() ? "" : word(d_.style, "circuit-" + w.circuit) + " ";
  const Line full{w.id + " " + circuit + colour, Weight::semibold, "ink"}, brief{w.id + " " + colour, Weight::semibold, "ink"};
  const Line cut{size + (length.empty() ? "" : " " + length)};
  const Line size_only{size}, length_only{length}, whole{brief.text + " " + cut.text, Weight::semibold, "ink"};
  Block under{cut}, split{size_only, length_only};
  for (Block* block : {&under, &split})
    block->erase(std::remove_if(block->begin(), block->end(), [](const Line& l) { return l.text.empty() || l.text == " "; }), block->end());
  if (level({full}, under, index) || level({brief}, under, index) || level({brief}, split, index)) return;
  if (upright({full, cut}, index) || level({whole}, {}, index) || upright({whole}, index)) return;
  if (!level({brief}, {size_only}, index) && !level({brief}, {}, index)) upright({brief}, index);
}

// A fitted splice is named beside its dot or its bar.
void Labels::splice(const Standing& s) {
  const Part& part = d_.circuit().part(s.part);
  if (part.kind != "splice" || part.status != Status::fitted) return;
  const Line line{part.id, Weight::semibold, "ink"};
  const double wide = width(line);
  const double tall = s.bar.empty() ? 0 : s.bar[1].y - s.bar[0].y;
  for (const double off : {0.6, 1.2, 2.0})
    for (const double y : {-off, tall + off + 1.1})
      for (const double x : {-off - wide, off}) {
        Label label = make(line, s.at.x + x, s.at.y + y, 0);
        label.about = part.id;
        if (std::any_of(taken_.begin(), taken_.end(), [&](const Rect& t) { return t.overlaps(label.room); })) continue;
        taken_.push_back(label.room);
        d_.drawing.items.emplace_back(std::move(label));
        return;
      }
}

// The names of the sides, as far above the axis as below it, where both are free.
void Labels::sides(double x, double from, double to) {
  for (double shift = 0; shift < 30; shift += 0.5)
    for (double d = from; d <= to; d += 0.5) {
      std::vector<Label> both = {make({word(d_.style, "side-right"), Weight::semibold, "quiet"}, x + shift, d_.place.axis - d + 0.5, 0),
                                 make({word(d_.style, "side-left"), Weight::semibold, "quiet"}, x + shift, d_.place.axis + d + 0.5, 0)};
      bool free = true;
      for (Label& label : both) {
        label.about.clear();
        label.decoration = true;
        const Rect room{label.room.x - mm(1), label.room.y - mm(1), label.room.w + mm(2), label.room.h + mm(2)};
        free = free && std::none_of(taken_.begin(), taken_.end(), [&](const Rect& t) { return t.overlaps(room); });
      }
      if (!free) continue;
      for (Label& label : both) d_.drawing.items.emplace_back(std::move(label));
      return;
    }
}

// Expected volts of a lamp, on the wire that feeds it.
void Labels::volts(std::size_t l) {
  const States& states = d_.facts.states;
  const LampIntent& lamp = d_.circuit().lamps[l];
  if (lamp.tow_signal.empty()) return;
  const std::string scene = lamp.tow_signal == "tail" ? "tail" : "tail + " + lamp.tow_signal;
  for (std::size_t k = 0; k < states.scenes.size(); ++k) {
    if (states.scenes[k].name != scene) continue;
    for (std::size_t w = 0; w < routed_.size(); ++w) {
      const Wire& wire = d_.circuit().wires[w];
      if (wire.to != TerminalRef{lamp.lamp, 0}) continue;
      const Line line{format_fixed(states.lamps[k][l].volts, 1) + " V", Weight::semibold, "test"};
      constexpr double pad = 0.3;
      for (const bool below : {true, false})
        for (const Stretch& s : stretches(w, true))
          for (double x = s.left + 0.6; x + width(line) + pad <= s.right; x += step) {
            Label label = make(line, x + pad, s.top + (below ? 1.85 : -1.0), w);
            label.about = d_.circuit().part(lamp.lamp).id;
            const Rect room{label.room.x - mm(0.7), label.room.y - mm(0.5), label.room.w + mm(1.4), label.room.h + mm(0.6)};
            if (!fits(room, w, mm(0.2))) continue;
            Decor frame;
            frame.marks.push_back(filled_box(room, ink(d_.style, "test-fill"), mm(0.8)));
            frame.marks.push_back(box(room, Pen{mm(0.2), ink(d_.style, "test"), {}, false}, mm(0.8)));
            d_.drawing.items.emplace_back(std::move(frame));
            d_.drawing.items.emplace_back(std::move(label));
            taken_.push_back(room);
            return;
          }
    }
    return;
  }
}

}  // namespace

void label_wires(const BenchDraft& d, const std::vector<Routed>& routed, const Frame& frame) {
  Labels labels(d, routed, frame);
  for (std::size_t l = 0; l < d.circuit().lamps.size(); ++l) labels.volts(l);
  for (const Standing& s : d.place.parts) labels.splice(s);
  // New wires first: they are what the fitter makes; the short ones before those that have room to spare.
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < routed.size(); ++i)
    if (d.circuit().wires[i].group != "coach" && d.circuit().wires[i].group != "inside") order.push_back(i);
  const auto rank = [&](std::size_t i) {
    const Wire& w = d.circuit().wires[i];
    int longest = 0;
    for (std::size_t k = 0; k + 1 < routed[i].path.size(); ++k) longest = std::max(longest, std::abs(routed[i].path[k].x - routed[i].path[k + 1].x));
    return std::pair(w.status == Status::factory, longest);
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  for (std::size_t i : order) labels.label(i);
  const double x = d.place.columns.run + 2;
  labels.sides(x, 11, 30);
}

}  // namespace towloom
