// A small drawing made by hand, with its circuit: a feed through a splice to two lamps, each to its
// own stud; a second circuit crosses the first at a right angle. Millimetres.
//
//   A ──W1──●S1──W2── L1.feed   L1.return ──W4── G1
//           └──────W3── L2.feed   L2.return ──W5── G2
//   X ────W6──── Y upright, through W1
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"
#include "prove/prove.hpp"

namespace towloom::testing {

struct Example {
  Circuit circuit;
  Drawing drawing;
};

inline int add_part(Example& e, const std::string& id, const std::string& kind, Rect body,
                    std::vector<std::pair<std::string, Point>> pins, std::vector<std::string> nets,
                    const std::string& joins = "", const std::string& title = "") {
  Part part;
  part.id = id;
  part.kind = kind;
  part.joins = joins;
  PartFigure figure;
  figure.part = id;
  figure.kind = kind;
  figure.joins = joins;
  figure.title = title;
  if (const size_t space = title.find(' '); space != std::string::npos) {   // "left stop"
    figure.side = title.substr(0, space);
    figure.role = title.substr(space + 1);
  }
  figure.body = body;
  for (size_t i = 0; i < pins.size(); ++i) {
    part.terminals.push_back(pins[i].first);
    figure.pins.push_back({id + "." + pins[i].first, nets[i], pins[i].second});
  }
  if (!joins.empty()) part.terminals.push_back(joins);
  e.circuit.parts.push_back(part);
  e.drawing.items.push_back(figure);
  return static_cast<int>(e.circuit.parts.size()) - 1;
}

inline void add_wire(Example& e, const std::string& id, const std::string& net,
                     const std::string& from, const std::string& to, Polyline path) {
  Wire wire;
  wire.id = id;
  wire.from = e.circuit.terminal(from);
  wire.to = e.circuit.terminal(to);
  wire.colour = "YE";
  wire.size = WireSizeName{"16", WireSizeName::System::awg};
  e.circuit.wires.push_back(wire);
  WireRun run;
  run.wire = id;
  run.net = net;
  run.from = from;
  run.to = to;
  run.colour = "YE";
  run.size = "16 AWG";
  run.status = "new";
  run.path = std::move(path);
  run.casing.width = mm(1.2);
  e.drawing.items.push_back(run);
}

inline void add_label(Example& e, const std::string& text, const std::string& about, Rect room) {
  Label label;
  label.text = text;
  label.about = about;
  label.room = room;
  label.at = {room.x, room.bottom() - 80};
  e.drawing.items.push_back(label);
}

inline Point at_mm(double x, double y) { return {mm(x), mm(y)}; }
inline Rect box_mm(double x, double y, double w, double h) { return {mm(x), mm(y), mm(w), mm(h)}; }

inline Example example() {
  Example e;
  e.drawing.sheet = "bench";
  e.drawing.items.push_back(Decor{{box(box_mm(20, 10, 267, 190), {})}});
  add_part(e, "A", "fuse", box_mm(35, 45, 5, 10), {{"1", at_mm(40, 50)}}, {"N1"});
  add_part(e, "S1", "splice", box_mm(80, 50, 0, 0), {{"1", at_mm(80, 50)}}, {"N1"});
  add_part(e, "L1", "lamp", box_mm(120, 45, 10, 10),
           {{"feed", at_mm(120, 50)}, {"return", at_mm(130, 50)}}, {"N1", "N2"}, "", "left stop");
  add_part(e, "L2", "lamp", box_mm(120, 65, 10, 10),
           {{"feed", at_mm(120, 70)}, {"return", at_mm(130, 70)}}, {"N1", "N3"}, "", "right stop");
  add_part(e, "G1", "stud", box_mm(155, 45, 5, 10), {{"1", at_mm(155, 50)}}, {"N2"}, "body");
  add_part(e, "G2", "stud", box_mm(155, 65, 5, 10), {{"1", at_mm(155, 70)}}, {"N3"}, "body");
  add_part(e, "X", "fuse", box_mm(55, 30, 10, 5), {{"1", at_mm(60, 35)}}, {"N4"});
  add_part(e, "Y", "fuse", box_mm(55, 80, 10, 5), {{"1", at_mm(60, 80)}}, {"N4"});
  add_wire(e, "W1", "N1", "A.1", "S1.1", {at_mm(40, 50), at_mm(80, 50)});
  add_wire(e, "W2", "N1", "S1.1", "L1.feed", {at_mm(80, 50), at_mm(120, 50)});
  add_wire(e, "W3", "N1", "S1.1", "L2.feed", {at_mm(80, 50), at_mm(80, 70), at_mm(120, 70)});
  add_wire(e, "W4", "N2", "L1.return", "G1.1", {at_mm(130, 50), at_mm(155, 50)});
  add_wire(e, "W5", "N3", "L2.return", "G2.1", {at_mm(130, 70), at_mm(155, 70)});
  add_wire(e, "W6", "N4", "X.1", "Y.1", {at_mm(60, 35), at_mm(60, 80)});
  e.drawing.items.push_back(Junction{"N1", at_mm(80, 50), mm(0.75)});
  add_label(e, "W2 YE", "W2", box_mm(95, 45, 12, 3.5));
  add_label(e, "W4 YE", "W4", box_mm(136, 45, 12, 3.5));
  add_label(e, "stop", "L1", box_mm(120, 40, 10, 3.5));
  return e;
}

template <class T>
T& item(Example& e, int index) {
  int seen = 0;
  for (Item& i : e.drawing.items)
    if (T* found = std::get_if<T>(&i))
      if (seen++ == index) return *found;
  throw std::out_of_range("no such item");
}
inline WireRun& wire(Example& e, const std::string& id) {
  for (Item& i : e.drawing.items)
    if (WireRun* run = std::get_if<WireRun>(&i); run != nullptr && run->wire == id) return *run;
  throw std::out_of_range(id);
}
inline PartFigure& part(Example& e, const std::string& id) {
  for (Item& i : e.drawing.items)
    if (PartFigure* figure = std::get_if<PartFigure>(&i); figure != nullptr && figure->part == id)
      return *figure;
  throw std::out_of_range(id);
}

inline std::vector<Defect> proved(const Example& e) { return prove({e.drawing}, e.circuit); }
// The messages of all defects of this kind, "" if there is none.
inline std::string of_kind(const std::vector<Defect>& all, const std::string& kind) {
  std::string out;
  for (const Defect& d : all)
    if (d.kind == kind) out += d.message + "\n";
  return out;
}
inline bool names(const std::string& message, const std::string& word) {
  return message.find(word) != std::string::npos;
}

}  // namespace towloom::testing
