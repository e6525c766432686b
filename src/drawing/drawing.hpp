// A finished sheet as a display list. All meaning is attached (what wire, what part, what net), so
// that writers need nothing else and prove/ can read the drawing back. Nothing is computed here.
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "base/geometry.hpp"

namespace towloom {

struct Rgb {
  unsigned char r = 0, g = 0, b = 0;
  auto operator<=>(const Rgb&) const = default;
};

struct Pen {
  Mm100 width = 0;             // 0 = no stroke
  Rgb colour;
  std::vector<Mm100> dash;     // empty = solid
  bool round = false;          // round caps and joins, else butt and mitre
};

// Absolute path: move, line, cubic, close.
struct PathStep {
  enum class Kind { move, line, cubic, close } kind = Kind::move;
  Point a, b, c;               // move, line: a. cubic: controls a, b, end c
};
struct Shape {
  std::vector<PathStep> path;
  Pen pen;
  bool filled = false;
  Rgb fill;
};
struct Disc {                  // a circle
  Point centre;
  Mm100 radius = 0;
  Pen pen;
  bool filled = false;
  Rgb fill;
};
using Mark = std::variant<Shape, Disc>;

Shape line(Point a, Point b, Pen);
Shape polyline(const Polyline&, Pen);
Shape box(Rect, Pen, Mm100 corner_radius = 0);
Shape filled_box(Rect, Rgb fill, Mm100 corner_radius = 0);

enum class Anchor { start, middle, end };
enum class Weight { regular, semibold };
struct Label {
  std::string text;            // UTF-8, one line
  Point at;                    // on the base line
  Anchor anchor = Anchor::start;
  Mm100 size = mm(3.44);       // em size; capitals are about 0.727 em in the sheet face: 2.5 mm capitals = 3.44 mm em
  Weight weight = Weight::regular;
  Rgb colour;
  Rect room;                   // reserved for the widest face of the stack; set by text measuring
  std::string about;           // id of the wire, part, contact … it belongs to; may be empty
  std::string wire;            // number of a wire that it names besides; may be empty
  int page = 0;                // of the set, that it leads to: a row of the index; 0 = none
  bool decoration = false;     // frame, title strip, zone heads: not subject to label rules
};

struct WireRun {               // one wire, or its piece on this page
  std::string wire, net, from, to;   // "W12" "N7" "J1.3" "S2.1"
  std::string colour, size, status;  // "YE/BK" "16 AWG" new|factory|removed
  int piece = 1, pieces = 1;
  Polyline path;               // centre line, horizontal and vertical only, from → to
  Pen casing, core, tracer;    // drawn in this order; width 0 = absent
};

struct Pin {
  std::string terminal, net;   // "D1.A" "N7"
  Point at;
};
struct PartFigure {
  std::string part, unit, kind, value, title;  // unit: "" or which portion of a part drawn apart
  std::string joins;           // data-joins
  std::string side, role;      // left, right or ""; what it is but for the side: equal for mirror images
  Rect body;
  std::vector<Pin> pins;
  std::vector<Mark> marks;     // the symbol, absolute
  bool repeat = false;
};
struct Junction {
  std::string net;
  Point at;
  Mm100 radius = mm(0.75);
  Rgb colour{0x1B, 0x1E, 0x23};
};
struct LinkBar {               // several terminals of one splice on a bar
  std::string part, net;
  Polyline path;
  Pen pen;
};
struct ContactFigure {         // pin faces
  std::string connector, contact, function, view;   // view: mating | wire
  Point centre;
  std::vector<Mark> marks;
};
struct Decor {                 // frame, zones, outlines: no meaning
  std::vector<Mark> marks;
};

using Item = std::variant<Decor, WireRun, LinkBar, PartFigure, Junction, ContactFigure, Label>;

struct Drawing {
  std::string sheet;           // "bench" "faces"
  std::string job;             // job number
  std::string title, description;
  Mm100 width = mm(297), height = mm(210);
  std::vector<Item> items;     // in painting order
};

// Frame and drawing space of a sheet, shared by all sheets.
struct Frame {
  Rect outer;                  // the frame line
  Rect space;                  // inside, above the title strip
};

}  // namespace towloom
