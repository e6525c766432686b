// What is written beside wires, lamps and splices, and the names of the sides.
#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>

#include "layout/sides.hpp"
#include "sheets/bench_flags.hpp"
#include "sheets/bench_labels.hpp"

namespace towloom {
namespace {

// What is missed where a label found no room for all its words.
constexpr int no_circuit = 1, led = 3, no_letters = 6, no_length = 8, no_size = 16, no_volts = 24, no_label = 40;
constexpr Mm100 car_room = mm(11);   // the small car beside a side's name

// A circuit that no word was given for prints by its own name.
std::string circuit_text(const Style& style, const std::string& circuit) {
  const std::string key = "circuit-" + circuit, text = word(style, key);
  if (text != key) return text;
  std::string out = circuit;
  for (char& c : out) c = c == '-' ? ' ' : static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return out;
}

}  // namespace

// Whether the same factory wire goes on behind a splice, and farther there: its letters stand there.
bool Labels::goes_on(std::size_t index) const {
  const Circuit& c = d_.circuit();
  const Wire& w = c.wires[index];
  const auto reach = [&](std::size_t i) { return std::abs(routed_[i].path.front().x - routed_[i].path.back().x); };
  for (const TerminalRef end : {w.from, w.to})
    for (std::size_t i = 0; i < c.wires.size(); ++i) {
      const Wire& x = c.wires[i];
      const bool same = i != index && (x.from == end || x.to == end) && x.status == Status::factory && x.colour == w.colour;
      if (same && c.part(end.part).kind == "splice" && reach(i) > reach(index)) return true;
    }
  return false;
}

int Labels::label_factory(std::size_t index) {
  const Wire& w = d_.circuit().wires[index];
  const std::string colour = colour_text(w.colour, d_.style);
  if (colour.empty()) return 0;
  const LabelLine full{colour + " " + cut_text(w).size, Weight::regular, "factory"}, letters{colour, Weight::regular, "factory"};
  if (level({full}, index) || level({letters}, index) || upright({letters}, index) || goes_on(index)) return 0;
  return leader({letters}, index) ? led : no_letters;
}

int Labels::label_new(std::size_t index) {
  const Wire& w = d_.circuit().wires[index];
  const std::string colour = colour_text(w.colour, d_.style);
  const auto [size, length] = cut_text(w);
  const std::string circuit = w.circuit.empty() ? "" : circuit_text(d_.style, w.circuit) + " ";
  const LabelLine full{w.id + " " + circuit + colour, Weight::semibold, "ink"}, brief{w.id + " " + colour, Weight::semibold, "ink"};
  const LabelLine cut{size + (length.empty() ? "" : " " + length)};
  const LabelLine size_only{size}, length_only{length}, whole{brief.text + " " + cut.text, Weight::semibold, "ink"};
  LabelBlock under{cut}, split{size_only, length_only};
  for (LabelBlock* block : {&under, &split})
    block->erase(std::remove_if(block->begin(), block->end(), [](const LabelLine& l) { return l.text.empty() || l.text == " "; }), block->end());
  LabelBlock block{full}, narrow{brief}, narrowest{brief};
  block.insert(block.end(), under.begin(), under.end());
  narrow.insert(narrow.end(), under.begin(), under.end());
  narrowest.insert(narrowest.end(), split.begin(), split.end());
  if (astride({full}, under, index) || level(block, index) || upright(block, index)) return 0;
  if (astride({brief}, under, index) || astride({brief}, split, index) || level(narrow, index) || level({whole}, index) || upright({whole}, index) || upright(narrowest, index)) return no_circuit;
  if (leader(block, index)) return led;
  const LabelLine number{w.id, Weight::semibold, "ink"}, letters{colour, Weight::semibold, "ink"};
  if (astride({brief}, {size_only}, index)) return no_length;
  if (level({brief}, index) || upright({brief}, index)) return no_size;
  if (astride({number}, {letters}, index) || level({number, letters}, index) || upright({number, letters}, index)) return no_size;
  return no_label;
}

int Labels::label(std::size_t index) { return d_.circuit().wires[index].status == Status::factory ? label_factory(index) : label_new(index); }

// A fitted splice is named beside its dot or its bar; so is what stands on other sheets too.
bool Labels::splice(const Standing& s) {
  const Part& part = d_.circuit().part(s.part);
  if ((part.kind != "splice" || part.status != Status::fitted) && part.value.empty()) return true;
  if (part.kind != "splice" && part.kind != "joint") return true;
  const LabelLine line{part.value.empty() ? part.id : part.id + " " + part.value, Weight::semibold, "ink"};
  const double wide = width(line);
  const double tall = s.bar.empty() ? 0 : s.bar[1].y - s.bar[0].y;
  std::vector<std::pair<double, double>> tries;
  for (const double off : {0.6, 1.2, 2.0}) {
    if (!s.bar.empty()) tries.insert(tries.end(), {{-wide / 2, -off}, {-wide / 2, tall + off + 1.1}});
    for (const double y : {-off, tall + off + 1.1})
      for (const double x : {-off - wide, off}) tries.emplace_back(x, y);
  }
  if (!s.bar.empty())   // beside the bar, between its wires
    for (double y = 0.5; y < tall + 1; y += 0.5)
      for (const double x : {-0.6 - wide, 0.6}) tries.emplace_back(x, y);
  for (const auto& [x, y] : tries) {
    Label label = make(line, s.at.x + x, s.at.y + y, 0);
    label.about = part.id;
    if (taken_.meets(label.room)) continue;
    if (label.room.x < frame_.x || label.room.right() > frame_.right() || label.room.y < frame_.y || label.room.bottom() > frame_.bottom()) continue;
    if (!s.bar.empty() && !nearest(label.room, s)) continue;
    taken_.add(label.room);
    texts_.add(label.room);
    items_.emplace_back(std::move(label));
    return true;
  }
  return false;
}

// Whether a bar is nearer than every wire.
bool Labels::nearest(const Rect& text, const Standing& bar) const {
  const double own = apart(text, around(BenchDraft::at(bar.bar[0]), BenchDraft::at(bar.bar[1]), 0));
  for (const std::vector<Rect>& wire : lines_)
    for (const Rect& line : wire)
      if (apart(text, line) < own) return false;
  return true;
}

// A car from above, its front to the left as on the sheet, the named half shaded. `at`: middle of its nose.
Decor Labels::top_view(Point at, bool right) const {
  const Mm100 long_ = mm(9), half = mm(2.1), nose = mm(1.5);
  Decor out;
  out.marks.push_back(filled_box({at.x + nose, right ? at.y - half : at.y, long_ - nose, half}, ink(d_.style, "faint")));
  const Pen pen{line_width(d_.style, "outline"), ink(d_.style, "quiet"), {}, true};
  out.marks.push_back(polyline({{at.x + nose, at.y - half}, {at.x + long_, at.y - half}, {at.x + long_, at.y + half}, {at.x + nose, at.y + half},
                                {at.x, at.y + half / 2}, {at.x, at.y - half / 2}, {at.x + nose, at.y - half}}, pen));
  for (const Mm100 x : {mm(3), mm(7.4)}) out.marks.push_back(line({at.x + x, at.y - half + mm(0.5)}, {at.x + x, at.y + half - mm(0.5)}, pen));
  return out;
}

// The names of the sides, as far above the axis as below it, where both are free; not on a page with lamps of one side
// only, which fill both halves.
void Labels::sides(double x, double from, double to) {
  if (!is_mirrored(d_.page.circuit)) return;
  std::vector<Label> both;       // written once, then moved about
  for (const char* name : {"side-right", "side-left"}) {
    both.push_back(make({word(d_.style, name), Weight::semibold, "quiet"}, x, d_.place.axis, 0));
    both.back().about.clear();
    both.back().decoration = true;
  }
  for (double shift = 0; shift < 60; shift += 0.5)
    for (double d = from; d <= to; d += 0.5) {
      bool free = true;
      for (std::size_t i = 0; i < both.size() && free; ++i) {
        move(both[i], BenchDraft::at(x + shift, d_.place.axis + (i == 0 ? -d : d) + 0.5));
        const Rect& text = both[i].room;
        const Rect room{text.x - car_room - mm(3), text.y - mm(3), text.w + car_room + mm(6), text.h + mm(6)};   // it belongs to nothing near it
        free = room.x >= frame_.x && room.right() <= frame_.right() && room.y >= frame_.y && room.bottom() <= frame_.bottom() && !taken_.meets(room);
      }
      if (!free) continue;
      for (std::size_t i = 0; i < both.size(); ++i) {
        items_.emplace_back(top_view({both[i].room.x - car_room, both[i].room.y + both[i].room.h / 2}, i == 0));
        items_.emplace_back(std::move(both[i]));
      }
      return;
    }
}

std::string lamp_volts(const Facts& facts, const PageCircuit& page, std::size_t l) {
  const States& states = facts.states;
  const LampIntent& lamp = page.circuit.lamps[l];
  if (lamp.tow_signal.empty()) return "";
  const bool tail = lamp.tow_signal.find("tail") != std::string::npos;
  const auto named = [&](const std::string& name) {
    return std::find_if(states.scenes.begin(), states.scenes.end(), [&](const Scene& s) { return s.name == name; }) - states.scenes.begin();
  };
  std::size_t scene = static_cast<std::size_t>(named(tail ? "tail" : "tail + " + lamp.tow_signal));
  if (scene == states.scenes.size()) scene = static_cast<std::size_t>(named(lamp.tow_signal));
  if (scene == states.scenes.size()) return "";
  return format_fixed(states.lamps[scene][static_cast<std::size_t>(page.lamp_of[l])].meter_v, 1) + " V";
}

// On the wire that feeds the lamp.
int Labels::volts(std::size_t l) {
  const LampIntent& lamp = d_.circuit().lamps[l];
  const LabelLine line{lamp_volts(d_.facts, d_.page, l), Weight::semibold, "test"};
  if (line.text.empty()) return 0;
  for (std::size_t w = 0; w < routed_.size(); ++w)
    if (d_.circuit().wires[w].to == TerminalRef{lamp.lamp, 0}) return test_point(line, w, d_.circuit().part(lamp.lamp).id) ? 0 : no_volts;
  return 0;
}

// In a frame below the wire, else above it; close to its end, else anywhere along.
bool Labels::test_point(const LabelLine& line, std::size_t wire, const std::string& about) {
  constexpr double pad = 0.3, near_end = 16;
  for (const bool air : {true, false})
    for (const auto& [below, off] : {std::pair{true, near_end}, {false, near_end}, {true, 1e3}, {false, 1e3}})
      for (const Stretch& s : stretches(wire, true))
        for (double x = std::max(s.left + 0.3, s.right - off); x + width(line) + pad <= s.right; x += label_step) {
          airy_ = air;
          Label label = make(line, x + pad, s.top + (below ? 1.85 : -1.0), wire);
          label.about = about;
          const Rect room{label.room.x - mm(0.7), label.room.y - mm(0.5), label.room.w + mm(1.4), label.room.h + mm(0.6)};
          constexpr Mm100 framed = mm(0.4);   // its own frame parts it from what stands beside it: it asks for less air than bare text
          if (!fits({room.x + framed, room.y, room.w - 2 * framed, room.h}, wire, mm(0.2))) continue;
          // Above each other two frames would read as one lamp's.
          const Rect beside{room.x, room.y - mm(1.5), room.w, room.h + mm(3)};
          if (air && std::any_of(points_.begin(), points_.end(), [&](const Rect& r) { return r.overlaps(beside); })) continue;
          Decor frame;
          frame.marks.push_back(filled_box(room, ink(d_.style, "test-fill"), mm(0.8)));
          frame.marks.push_back(box(room, Pen{mm(0.2), ink(d_.style, "test"), {}, false}, mm(0.8)));
          items_.emplace_back(std::move(frame));
          items_.emplace_back(std::move(label));
          taken_.add(room);
          texts_.add(room);
          points_.push_back(room);
          return true;
        }
  return false;
}

}  // namespace towloom
