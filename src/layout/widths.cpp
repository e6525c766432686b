// How wide the gaps between columns must be: tracks for upright stretches, labels of short wires.
#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "base/quantity.hpp"
#include "layout/sketch.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
constexpr double frame_margin = 0.8;   // modules from what a lamp takes to the frame round it
constexpr int least_gap = 2, cord_gap = 12, volts_room = 7, ground_room = 4, cut_mark = 2;

int pin_y(const SketchNode& n, int terminal) {
  const PinSpot* pin = terminal < 0 ? nullptr : pin_of(n, terminal);
  return n.y + (pin == nullptr || n.bar ? 0 : pin->at.y);
}

}  // namespace

std::string short_label(const Wire& w, const Style& style) {
  if (w.group == "coach" || w.group == "inside") return "";
  if (w.status == Status::factory) return colour_text(w.colour, style);
  return w.id + " " + colour_text(w.colour, style);
}

// Up to a tenth of a metre: what the fitter cuts is never shorter than what is printed.
CutText cut_text(const Wire& w) {
  return {w.size && w.fixed_ohm < 0 ? w.size->text() : "", w.length_m > 0 && w.status != Status::factory ? format_fixed(std::ceil(w.length_m * 10 - 1e-6) / 10, 1) + " m" : ""};
}

std::vector<GapNeed> gap_needs(const Sketch& sketch, const Circuit& circuit, const Look& look, const Wishes& wishes) {
  std::vector<GapNeed> out(sketch.columns.size(), {1, 1, least_gap, 1});
  std::vector<std::vector<std::tuple<int, int, int>>> upright(sketch.columns.size());   // top, bottom, net
  std::vector<int> fitted_label(sketch.columns.size(), 0);
  std::map<int, int> stretches;                                                         // wire -> links
  for (const SketchLink& l : sketch.links) ++stretches[l.wire];
  const auto kind = [&](const SketchNode& n) { return n.passing() ? std::string() : circuit.part(n.part).kind; };
  // The frame of a housing crosses what leaves its lamps: labels of new wires stand behind it.
  const auto framed = [&](const SketchNode& n) {
    const bool housed = kind(n) == "lamp" && n.side != Side::centre;
    return housed ? static_cast<int>(std::ceil(std::max(n.outline.room.right - n.outline.body.right, 0.0) + frame_margin)) : 0;
  };
  for (const SketchLink& l : sketch.links) {
    const SketchNode &a = sketch.nodes[at(l.left)], &b = sketch.nodes[at(l.right)];
    const Wire& w = circuit.wires[at(l.wire)];
    const int ya = pin_y(a, l.left_terminal), yb = pin_y(b, l.right_terminal);
    const bool level = ya == yb || kind(a) == "coach-feed";
    if (!level) upright[at(a.column)].emplace_back(std::min(ya, yb), std::max(ya, yb), circuit.net(w.from).v);
    // What ends at the far side of a part turns back behind it.
    if (const PinSpot* end = l.right_terminal < 0 || b.bar ? nullptr : pin_of(b, l.right_terminal); end != nullptr && end->way == Way::right)
      upright[at(b.column)].emplace_back(std::min(ya, yb), std::max(ya, yb), circuit.net(w.from).v);
    GapNeed& need = out[at(a.column)];
    if (is_core(w)) need = {std::max(need.hard, cord_gap - 2), std::max(need.least, cord_gap - 1), std::max(need.wanted, cord_gap), 0};
    const bool lit = std::any_of(circuit.lamps.begin(), circuit.lamps.end(), [&](const LampIntent& lamp) { return lamp.lamp == b.part && !lamp.tow_signal.empty(); });
    if (lit) {   // between the last part and the housing's frame
      const int frame = static_cast<int>(std::ceil(1 - b.outline.room.left));
      need = {std::max(need.hard, volts_room + frame - 3), std::max(need.least, volts_room + frame - 1), std::max(need.wanted, volts_room + frame), 0};
    }
    if (stretches[l.wire] > 1) continue;
    const bool fitted = w.status != Status::factory;
    // A factory colour is read once: where the wire reaches a pocket or a lamp.
    const bool inner = !fitted && (sketch.zone[at(b.column)] < in_pocket || kind(b) == "splice");
    const CutText cut = cut_text(w);
    const double text = std::max({look.width(short_label(w, look.style), fitted), fitted ? look.width(cut.size, false) : 0.0, fitted ? look.width(cut.length, false) : 0.0});
    const double whole = fitted && !cut.length.empty() ? std::max(text, look.width(cut.size + " " + cut.length, false)) : text;   // size and length in one line
    const bool dot = kind(a) == "splice" && fitted;   // its other wires leave upwards or downwards
    const bool marked = std::any_of(circuit.cuts.begin(), circuit.cuts.end(), [&](const CutPoint& c) { return c.car_side.v == l.wire; });
    const int beside = (level && !dot ? 0 : 1) + (marked ? cut_mark : 0) + (fitted ? framed(a) : 0);
    const int label = static_cast<int>(std::ceil(text + 1.0)) + beside;
    if (marked) need.hard = std::max(need.hard, 2 + cut_mark);
    if (!inner) need.wanted = std::max(need.wanted, static_cast<int>(std::ceil(whole + 1.0)) + beside);
    if (fitted) fitted_label[at(a.column)] = std::max(fitted_label[at(a.column)], label);
    if (fitted && !short_label(w, look.style).empty()) {
      need.hard = std::max(need.hard, label - 1);
      need.least = std::max(need.least, label);
    }
  }
  for (std::size_t c = 0; c < out.size(); ++c) {
    // Density: the most nets that any height has at once; each needs a track of its own.
    int density = 0;
    for (const auto& [top, bottom, net] : upright[c]) {
      std::vector<int> nets;
      for (const auto& [t, b, n] : upright[c])
        if (t <= top && top <= b && std::find(nets.begin(), nets.end(), n) == nets.end()) nets.push_back(n);
      density = std::max(density, static_cast<int>(nets.size()));
    }
    if (density > 0) out[c].hard = std::max(out[c].hard, density + 1);
    out[c].least = std::max(out[c].least, out[c].hard);
    out[c].wanted = std::max(out[c].wanted, density > 0 ? density + 2 : 0);
    if (density > 0 && fitted_label[c] > 0) {   // label and tracks beside each other
      out[c].least = std::max(out[c].least, fitted_label[c] + density);
      out[c].wanted = std::max(out[c].wanted, fitted_label[c] + density + 1);
    }
  }
  // A wire that passes columns has all their gaps for its label.
  for (const auto& [wire, count] : stretches) {
    const Wire& w = circuit.wires[at(wire)];
    if (count < 2 || w.status == Status::factory || short_label(w, look.style).empty()) continue;
    int first = static_cast<int>(out.size()), last = 0, width = 0;
    for (const SketchLink& l : sketch.links)
      if (l.wire == wire) {
        first = std::min(first, sketch.nodes[at(l.left)].column), last = std::max(last, sketch.nodes[at(l.right)].column);
        width -= framed(sketch.nodes[at(l.left)]);
      }
    for (int c = first; c < last; ++c) width += out[at(c)].hard;
    const int missing = static_cast<int>(std::ceil(look.width(short_label(w, look.style), true) + 1)) - width;
    if (missing <= 0) continue;
    GapNeed& need = out[at(first)];
    need.hard += missing;
    need.least = std::max(need.least, need.hard);
    need.wanted = std::max(need.wanted, need.hard);
  }
  std::vector<int> wished(out.size(), 0);
  for (const auto& [wire, more] : wishes.wider)
    for (const SketchLink& l : sketch.links) {
      if (l.wire != wire) continue;
      wished[at(sketch.nodes[at(l.left)].column)] += more;
      break;   // links of a wire are listed from the left
    }
  const auto add = [&](int column, int hard, int least, int wanted) {
    GapNeed& need = out[at(column)];
    need.hard += hard, need.least += least, need.wanted += wanted;
  };
  // Ground symbols stand behind the inlet and before the battery.
  for (std::size_t i = 0; i < circuit.wires.size(); ++i) {
    const Wire& w = circuit.wires[i];
    const auto asked = wishes.wider.find(static_cast<int>(i));
    for (const auto& [stud, other] : {std::pair{w.from.part, w.to}, {w.to.part, w.from}}) {
      if (circuit.part(stud).kind != "stud") continue;
      for (const SketchNode& n : sketch.nodes) {
        if (n.part != other.part || sketch.zone[at(n.column)] == in_lamp) continue;
        const PinSpot* pin = pin_of(n, other.index);
        if (pin == nullptr || pin->way == Way::down) continue;
        const int column = pin->way == Way::left ? n.column - 1 : n.column;
        if (column < 0) continue;
        // The way down to the symbol passes what is written below the part.
        const double beside = pin->way == Way::right ? n.outline.room.right - n.outline.body.right : n.outline.body.left - n.outline.room.left;
        const int text = std::max(0, static_cast<int>(std::ceil(beside - 0.5)));
        const int room = (w.status == Status::fitted ? ground_room + 1 : ground_room) + text;
        add(column, room - (wishes.whole_grounds ? 1 : 2), room - 1, room);
        if (asked != wishes.wider.end()) wished[at(column)] += asked->second;
      }
    }
  }
  for (std::size_t c = 0; c < out.size(); ++c) {
    out[c].bare = out[c].hard;
    add(static_cast<int>(c), wished[c], wished[c], wished[c]);
  }
  return out;
}

}  // namespace towloom
