// One page taken apart for proving: its lines as segments, its parts, dots, labels and frame.
#pragma once

#include <string>
#include <vector>

#include "drawing/drawing.hpp"
#include "prove/prove.hpp"

namespace towloom {

struct TracedLine {              // a wire or a link bar
  std::string id, net;           // wire id, or the bar's part
  const WireRun* run = nullptr;  // nothing for a bar
  Polyline path;
  Mm100 width = 0;  // as inked
};
struct Segment {  // upright or level stretch of a line, a ≤ b
  Point a, b;
  int line = 0;
  bool level() const { return a.y == b.y; }
};
struct Leader {  // a thin line with a dot on a wire, at whose other end that wire's label stands
  Point dot, end;
};
struct Page {
  const Drawing* drawing = nullptr;
  std::vector<TracedLine> lines;
  std::vector<Segment> segments;  // by rising a.x; diagonals left out (they are a defect already)
  std::vector<const PartFigure*> parts;
  std::vector<const Junction*> dots;
  std::vector<const Label*> labels;
  std::vector<Leader> leaders;
  std::vector<const ContactFigure*> contacts;
  Rect frame;  // the frame line, or the paper less a printer's margin
};
Page take_apart(const Drawing&);

constexpr Mm100 pin_tolerance = 2;    // 0.01 of the 2.5 mm module, rounded down to whole hundredths
bool same_place(Point, Point);        // within pin_tolerance
bool touches(const Segment&, Point);  // the point lies on it, ends included
Mm100 gap(const Rect&, const Segment&);  // 0 if they meet; Chebyshev would lie at corners: Euclid
Rect extent(const Segment&, Mm100 half_width);
Rect extent(const std::vector<Mark>&);
std::string at(Point);  // " at (12.50, 40.00) mm"
// Equal, or one names a portion of the other: "J2.3" and "J2.3.car".
bool related(const std::string& a, const std::string& b);
bool same_net_part(const PartFigure&);  // all its pins are one net: splice, joint

using Defects = std::vector<Defect>;
void check_wires(const Page&, Defects&);  // wires against pins, parts and one another
void check_dots(const Page&, Defects&);   // junction dots, link bars
void check_parts(const Page&, Defects&);  // overlaps, frame
void check_labels(const Page&, Defects&);
void check_leaders(const Page&, Defects&);
// Whether a leader joins this label with its own wire.
bool has_leader(const Page&, const Label&);

}  // namespace towloom
