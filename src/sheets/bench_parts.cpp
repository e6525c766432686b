#include <algorithm>
#include <cctype>

#include "sheets/bench_draft.hpp"

namespace towloom {
namespace {

Rect box_of(double left, double top, double right, double bottom) {
  const Point a = BenchDraft::at(left, top), b = BenchDraft::at(right, bottom);
  return {a.x, a.y, b.x - a.x, b.y - a.y};
}

PartFigure figure_of(const BenchDraft& d, const Standing& s) {
  const Part& part = d.circuit().part(s.part);
  PartFigure f;
  f.part = part.id;
  if (s.unit > 0) f.unit = std::to_string(s.unit);
  f.kind = part.kind;
  f.value = part.value;
  f.title = part.title.empty() ? part.id : part.title;
  f.joins = part.joins;
  const bool alone = part.kind == "splice" || part.kind == "joint" || part.kind == "stud" || part.kind == "reference";   // no mirror image is meant
  const bool handed = part.kind != "contact" || without_side(part.function) != part.function;
  if (!alone && handed && is_mirrored(d.circuit()) && part.side != Side::centre) {
    f.side = part.side == Side::left ? "left" : "right";
    f.role = without_side(part.function) + " " + without_side(part.group);
  }
  f.repeat = s.repeat || ((part.kind == "stud" || part.kind == "splice" || part.kind == "joint") && !d.shown.insert(part.id).second);
  for (const PinSpot& p : s.pins) {
    const TerminalRef t{s.part, p.terminal};
    f.pins.push_back({d.circuit().name(t), d.net(t), BenchDraft::at(p.at)});
  }
  return f;
}

const PinSpot* pin_at(const Standing& s, int terminal) {
  const auto pin = std::find_if(s.pins.begin(), s.pins.end(), [&](const PinSpot& p) { return p.terminal == terminal; });
  return pin == s.pins.end() ? nullptr : &*pin;
}

int wires_at(const Circuit& c, PartId part) {
  return static_cast<int>(std::count_if(c.wires.begin(), c.wires.end(), [&](const Wire& w) { return w.from.part == part || w.to.part == part; }));
}

// Where a part was not fitted: its outline only, and the wire that goes through in its place.
std::vector<Mark> empty_place(const BenchDraft& d, const Standing& s, const Rect& body) {
  constexpr double as_good_as_joined = 0.01;   // ohm
  const Pen outline{line_width(d.style, "symbol"), ink(d.style, "cut"), {mm(0.8), mm(0.6)}, false};
  std::vector<Mark> out{box({body.x + body.w / 4, body.y, body.w / 2, body.h}, outline)};
  for (const Element& e : d.circuit().part(s.part).elements) {
    const PinSpot *a = pin_at(s, e.a), *b = pin_at(s, e.b);
    if (e.law == Law::resistor && e.ohm <= as_good_as_joined && a != nullptr && b != nullptr) out.push_back(line(BenchDraft::at(a->at), BenchDraft::at(b->at), Pen{line_width(d.style, "symbol"), ink(d.style, "ink"), {}, false}));
  }
  return out;
}

void draw_part(const BenchDraft& d, const Standing& s) {
  PartFigure f = figure_of(d, s);
  const Part& part = d.circuit().part(s.part);
  if (!s.bar.empty()) {
    const Point a = BenchDraft::at(s.bar[0]), b = BenchDraft::at(s.bar[1]);
    f.body = {a.x - mm(0.3), a.y - mm(0.3), mm(0.6), b.y - a.y + mm(0.6)};
    d.drawing.items.emplace_back(LinkBar{f.part, f.pins[0].net, {a, b}, Pen{mm(0.9), ink(d.style, "factory"), {}, true}});
  } else if (s.outline.symbol.empty()) {
    f.body = box_of(s.body.left, s.body.top, s.body.right, s.body.bottom);
    f.marks.push_back(box(f.body, Pen{line_width(d.style, "symbol"), ink(d.style, "factory"), {}, false}, mm(1)));
  } else {
    const Symbol& symbol = d.style.symbol(s.outline.symbol);
    f.body = symbol_body(symbol, BenchDraft::at(s.at), false, d.style, s.outline.flipped);
    const bool dot = part.kind == "splice" || part.kind == "joint";
    if (part.found == "missing") f.marks = empty_place(d, s, f.body);
    else if (!dot) f.marks = symbol_marks(symbol, BenchDraft::at(s.at), false, d.style, ink(d.style, part.found.empty() ? "ink" : "cut"), s.outline.flipped);
    if (dot && wires_at(d.circuit(), s.part) >= 3)
      d.drawing.items.emplace_back(Junction{f.pins[0].net, BenchDraft::at(s.at), mm(0.75)});
  }
  for (const auto& [a, b] : s.posts) {
    const auto post = std::find_if(f.pins.begin(), f.pins.end(), [&](const Pin& p) { return p.at == BenchDraft::at(a); });
    const std::string post_net = post == f.pins.end() ? "" : post->net;
    d.drawing.items.emplace_back(LinkBar{f.part, post_net, {BenchDraft::at(a), BenchDraft::at(b)}, Pen{mm(0.9), ink(d.style, "factory"), {}, true}});
  }
  // Three wires on one terminal, like three on a splice, get a dot.
  if (part.kind != "splice" && part.kind != "joint" && part.kind != "stud")
    for (const PinSpot& p : s.pins) {
      const TerminalRef t{s.part, p.terminal};
      const auto& wires = d.circuit().wires;
      const bool on_post = std::any_of(s.posts.begin(), s.posts.end(), [&](const auto& bar) { return bar.first.x == p.at.x; });
      if (!on_post && std::count_if(wires.begin(), wires.end(), [&](const Wire& w) { return w.from == t || w.to == t; }) >= 3)
        d.drawing.items.emplace_back(Junction{d.net(t), BenchDraft::at(p.at), mm(0.75)});
    }
  d.drawing.items.emplace_back(std::move(f));
}

void label_part(const BenchDraft& d, const Standing& s) {
  const Part& part = d.circuit().part(s.part);
  for (const OutlineLabel& l : s.outline.labels)
    d.write(l.text, s.at.x + l.x, s.at.y + l.y, l.anchor, "small", l.strong ? Weight::semibold : Weight::regular,
            part.found == "added" ? "cut" : l.strong ? "ink" : "quiet", part.id);
}

}  // namespace

std::string capitals(std::string s) {
  for (char& c : s) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return s;
}

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
  std::string outlets, cords, inlets;
  for (const Plug& plug : plugs(spec)) {
    const std::string between = outlets.empty() ? "" : ", ";
    outlets += between + plug.outlet_id();
    cords += between + format_plain(plug.cord->length_m.value) + " m";
    inlets += between + plug.inlet_id();
  }
  const auto& parts = d.circuit().parts;
  // Lamps fitted for towing are not the factory's.
  const bool added = std::any_of(parts.begin(), parts.end(), [](const Part& p) { return p.kind == "lamp" && p.status == Status::fitted; });
  const Band bands[] = {
      {double(c.coach), double(c.cord), "zone-coach", outlets, true},
      {double(c.cord), double(c.inlet), "zone-cord", cords, false},
      {double(c.inlet), double(c.run), "zone-inlet", inlets, true},
      {double(c.run), double(c.pocket), "zone-run", format_plain(runs) + " m " + word(d.style, "zone-run-under"), false},
      {double(c.pocket), double(c.lamp), "zone-pocket", added ? "" : word(d.style, "zone-pocket-under"), true},
      {double(c.lamp), double(c.end), "zone-lamp", word(d.style, added ? "zone-lamp-under-added" : "zone-lamp-under"), false},
  };
  const double top = to_mm(frame.space.y) / BenchDraft::module, bottom = to_mm(frame.space.bottom()) / BenchDraft::module;
  const double frame_left = to_mm(frame.space.x) / BenchDraft::module;
  Decor decor;
  for (const Band& b : bands)
    if (b.tinted && b.right - b.left >= 1) decor.marks.push_back(filled_box(box_of(std::max(b.left, to_mm(frame.space.x) / 2.5), top, b.right, bottom - 0.5 - note_pitch * static_cast<double>(d.notes.size())), ink(d.style, "zone")));
  for (const Housing& h : d.place.housings) {
    Pen pen{line_width(d.style, "outline"), ink(d.style, "quiet"), {mm(1.5), mm(1)}, false};
    decor.marks.push_back(box(box_of(h.left, h.top, h.right, h.bottom), pen, mm(1)));
  }
  d.drawing.items.emplace_back(std::move(decor));
  double last = frame_left - 0.4;         // where the head before ends; at first, the frame
  for (const Band& b : bands) {
    if (b.right - b.left < 1) continue;   // the page has nothing there
    const double half = to_mm(d.measure.reserve(word(d.style, b.head), text_size(d.style, "small"), Weight::semibold)) / BenchDraft::module / 2;
    const double middle = std::max((b.left + b.right) / 2, last + 0.8 + half);   // a narrow zone's head stands a little to the right
    last = middle + half;
    d.write(word(d.style, b.head), middle, top + 1.5, Anchor::middle, "small", Weight::semibold, "ink", "", 1000, true);
    d.write(b.under, middle, top + 2.9, Anchor::middle, "small", Weight::regular, "quiet", "", b.right - b.left + 1, true);   // left out where it would reach the next head
  }
  for (const Housing& h : d.place.housings)
    d.write(capitals(h.name), (h.left + h.right) / 2, h.top - 0.4, Anchor::middle, "small", Weight::semibold, "ink", "", 1000, true);
  for (std::size_t i = 0; i < d.notes.size(); ++i)
    d.write(d.notes[i], frame_left + 0.8, bottom - note_pitch * static_cast<double>(d.notes.size() - 1 - i), Anchor::start, "small", Weight::regular, "quiet",
            "", 1000, true);
}

void draw_parts(const BenchDraft& d) {
  for (const Standing& s : d.place.parts) draw_part(d, s);
}

void label_parts(const BenchDraft& d) {
  for (const Standing& s : d.place.parts) label_part(d, s);
}

}  // namespace towloom
