#include <algorithm>
#include <cctype>

#include "sheets/bench_draft.hpp"

namespace towloom {
namespace {

std::string capitals(std::string s) {
  for (char& c : s) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return s;
}

Rect box_of(double left, double top, double right, double bottom) {
  const Point a = BenchDraft::at(left, top), b = BenchDraft::at(right, bottom);
  return {a.x, a.y, b.x - a.x, b.y - a.y};
}

PartFigure figure_of(const BenchDraft& d, const Standing& s) {
  const Part& part = d.circuit().part(s.part);
  PartFigure f;
  f.part = part.id;
  f.kind = part.kind;
  f.value = part.value;
  f.title = part.title.empty() ? part.id : part.title;
  f.joins = part.joins;
  for (const PinSpot& p : s.pins) {
    const TerminalRef t{s.part, p.terminal};
    f.pins.push_back({d.circuit().name(t), d.net(t), BenchDraft::at(p.at)});
  }
  return f;
}

int wires_at(const Circuit& c, PartId part) {
  return static_cast<int>(std::count_if(c.wires.begin(), c.wires.end(), [&](const Wire& w) { return w.from.part == part || w.to.part == part; }));
}

void draw_part(const BenchDraft& d, const Standing& s) {
  PartFigure f = figure_of(d, s);
  const Part& part = d.circuit().part(s.part);
  if (!s.bar.empty()) {
    const Point a = BenchDraft::at(s.bar[0]), b = BenchDraft::at(s.bar[1]);
    f.body = {a.x - mm(0.3), a.y - mm(0.3), mm(0.6), b.y - a.y + mm(0.6)};
    d.drawing.items.emplace_back(LinkBar{f.part, f.pins[0].net, {a, b}, Pen{mm(0.9), ink(d.style, "factory"), {}, true}});
  } else if (s.symbol.empty()) {
    f.body = box_of(s.body.left, s.body.top, s.body.right, s.body.bottom);
    f.marks.push_back(box(f.body, Pen{line_width(d.style, "symbol"), ink(d.style, "factory"), {}, false}, mm(1)));
  } else {
    const Symbol& symbol = d.style.symbol(s.symbol);
    f.body = symbol_body(symbol, BenchDraft::at(s.at), false, d.style);
    const bool dot = part.kind == "splice" || part.kind == "joint";
    if (!dot) f.marks = symbol_marks(symbol, BenchDraft::at(s.at), false, d.style, ink(d.style, "ink"));
    if (dot && wires_at(d.circuit(), s.part) >= 3)
      d.drawing.items.emplace_back(Junction{f.pins[0].net, BenchDraft::at(s.at), mm(0.75)});
  }
  d.drawing.items.emplace_back(std::move(f));
}

const char* words_inside(const std::string& kind) { return kind == "turn-switch" ? "TURN" : ""; }

void label_part(const BenchDraft& d, const Standing& s) {
  const Part& p = d.circuit().part(s.part);
  const double x = s.at.x, y = s.at.y;
  const auto say = [&](const std::string& text, double lx, double ly, Anchor anchor = Anchor::middle, bool strong = false) {
    d.write(text, lx, ly, anchor, "small", strong ? Weight::semibold : Weight::regular, strong ? "ink" : "quiet", p.id);
  };
  if (p.kind == "contact") {
    say(p.title, x + 1.5, y - 0.9, Anchor::middle, true);
  } else if (p.kind == "coach-feed") {
    for (std::size_t t = 0; t < s.pins.size(); ++t)
      say(word(d.style, "circuit-" + p.terminals[t]), x + 2, s.pins[t].at.y + 0.5, Anchor::middle, true);
  } else if (p.kind == "lamp" && p.side != Side::centre && p.function != "reverse") {
    say(word(d.style, "lamp-" + p.function), x + 2, y - 1.8, Anchor::middle, true);
    say(p.value, x + 2, y + 2.7);
  } else if (p.kind == "lamp") {
    const bool below = p.side == Side::centre && y < d.place.axis;
    d.write(word(d.style, "lamp-" + p.function) + " " + p.value, below ? x + 1 : x + 2, below ? y + 2.9 : p.side == Side::centre ? y - 2.2 : y - 1.8, Anchor::middle, "small", Weight::semibold, "ink", p.id);
  } else if (p.kind == "diode-pair") {
    say(p.id, x + 4.7, y + 0.5, Anchor::middle, true);
  } else if (p.kind == "stud") {
    if (p.zone == Zone::lamp) say(p.id, x + 1.0, y + 3.2, Anchor::end, true);
    else if (p.zone == Zone::source) say(p.id, x - 1.9, y + 1.7, Anchor::end, true);
    else say(p.id, x - 0.2, y + 3.2, Anchor::middle, true);
  } else if (p.kind == "battery") {
    say(p.id, x + 2, y + 3, Anchor::middle, true);
    say(p.value, x + 2, y + 4.5);
  } else if (p.kind == "fuse") {
    say(p.id, x + 2, y + 2, Anchor::middle, true);
    say(p.value, x + 2, y + 3.5);
  } else if (p.kind == "switch") {
    say(p.id, x + 0.4, y - 0.8, Anchor::start, true);
  } else if (p.kind == "cap") {
    say("cap old branch", x + 2.4, y + 0.5, Anchor::start);
  } else if (p.kind == "splice" && p.status == Status::fitted) {
    const bool right_of = x > 80;  // beside a block: its frame stands at the left
    say(p.id, right_of ? x + 0.6 : x - 0.6, right_of ? y - 2.6 : y - 0.7, right_of ? Anchor::start : Anchor::end, true);
  }
  if (*words_inside(p.kind) != 0) say(words_inside(p.kind), x + 2.5, y + 0.5, Anchor::middle, true);
}

}  // namespace

void draw_zones(const BenchDraft& d, const Frame& frame) {
  const Columns& c = d.place.columns;
  struct Band {
    double left, right;
    const char* head;
    std::string under;
    bool tinted;
  };
  const Spec& spec = d.facts.spec;
  double runs = 0;
  for (const RunRow& r : spec.runs) runs += r.length_m.value;
  const Band bands[] = {
      {double(c.coach), double(c.cord), "zone-coach", "outlet J1", true},
      {double(c.cord), double(c.inlet), "zone-cord", format_plain(spec.cord.length_m.value) + " m", false},
      {double(c.inlet), double(c.run), "zone-inlet", "J2", true},
      {double(c.run), double(c.pocket), "zone-run", format_plain(runs) + " m in all; car's own feeds", false},
      {double(c.pocket), double(c.lamp), "zone-pocket", "isolation", true},
      {double(c.lamp), double(c.end), "zone-lamp", "factory, untouched", false},
  };
  const double top = to_mm(frame.space.y) / BenchDraft::module, bottom = to_mm(frame.space.bottom()) / BenchDraft::module;
  Decor decor;
  for (const Band& b : bands)
    if (b.tinted) decor.marks.push_back(filled_box(box_of(std::max(b.left, to_mm(frame.space.x) / 2.5), top, b.right, bottom - 2), ink(d.style, "zone")));
  for (const Housing& h : d.place.housings) {
    Pen pen{line_width(d.style, "outline"), ink(d.style, "quiet"), {mm(1.5), mm(1)}, false};
    decor.marks.push_back(box(box_of(h.left, h.top, h.right, h.bottom), pen, mm(1)));
  }
  d.drawing.items.emplace_back(std::move(decor));
  for (const Band& b : bands) {
    const double middle = (b.left + b.right) / 2;
    d.write(word(d.style, b.head), middle, top + 1.5, Anchor::middle, "small", Weight::semibold, "ink", "", 1000, true);
    d.write(b.under, middle, top + 2.9, Anchor::middle, "small", Weight::regular, "quiet", "", 1000, true);
  }
  for (const Housing& h : d.place.housings)
    d.write(capitals(h.name), (h.left + h.right) / 2, h.top - 0.5, Anchor::middle, "small", Weight::semibold, "ink", "", 1000, true);
  d.write(word(d.style, "side-right"), 60, d.place.axis - 28.4, Anchor::start, "small", Weight::semibold, "quiet", "", 1000, true);
  d.write(word(d.style, "side-left"), 60, d.place.axis + 28.6, Anchor::start, "small", Weight::semibold, "quiet", "", 1000, true);
  d.write(word(d.style, "volts-at-lamps") + " ± " + format_fixed(d.catalogue.rule("reading_band_v").value, 1) + " V. " +
              word(d.style, "switches-at-rest"),
          8.9, bottom - 0.4, Anchor::start, "small", Weight::regular, "quiet", "", 1000, true);
  d.write(word(d.style, "order-not-face") + " " + word(d.style, "cut-here") + " " + word(d.style, "no-letters"), 8.9, bottom - 1.9, Anchor::start, "small", Weight::regular, "quiet", "", 1000, true);
}

void draw_parts(const BenchDraft& d) {
  for (const Standing& s : d.place.parts) draw_part(d, s);
}

void label_parts(const BenchDraft& d) {
  for (const Standing& s : d.place.parts) label_part(d, s);
}

}  // namespace towloom
