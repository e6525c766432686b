// The plan map laid out: where its markers, ways and labels stand on the page.
#pragma once

#include <optional>

#include "sheets/map_plan.hpp"
#include "sheets/sheet_pen.hpp"

namespace towloom::map {

constexpr Mm100 grid = mm(2.5), marker_half = mm(3.75), line_height = mm(4.6), word_gap = mm(1.3), rule_gap = mm(0.8), nose_x = mm(16), nose_y = mm(13);

struct Segment {
  Point a, b;
};
struct Word {                    // what stands on a line, each a label of its own so that it leads on
  std::string text, about;       // about: part or wire
  Weight weight = Weight::regular;
  const char* ink = "ink";
};
struct TextBlock {               // lines of words
  std::vector<std::vector<Word>> lines;
  Mm100 width = 0;
  Mm100 height() const { return line_height * static_cast<Mm100>(lines.size()); }
};
struct Callout {                 // a block beside the car with the thin line that leads to its marker
  TextBlock text;
  int subject = 0;               // spot or way
  std::optional<Rect> at;        // nothing: no room was found
  std::optional<Segment> leader;
};
struct Figure {
  Rect room, body;
  std::vector<Rect> reserved;    // heads of the sides
  Polyline outline;              // of the body, closed
  std::vector<Rect> markers;     // by spot
  std::vector<Polyline> ways;    // by way
  std::vector<Callout> spots, runs;
};
// With all blocks placed as well as the room lets; those that found none have no place.
Figure lay_figure(const Plan&, const Facts&, Rect room, const SheetPen&);
// The same car for the blocks that found no room, laid out again; nothing where none is left or none could be placed.
std::optional<Figure> further_figure(const Figure&, const Plan&);

// none: where even an empty page has no way for one; the number in its head leads from a block to its marker.
enum class Leaders { drawn, none };
// Markers of the spots inside the body, none touching another.
std::vector<Rect> stand_markers(const Plan&, Rect body);
// Each way from marker to marker along a grid, right-angled: none upon another, none through a marker.
std::vector<Polyline> lay_ways(const Plan&, const std::vector<Rect>& markers, Rect body);
// Blocks of the spots around the car and of the ways beside their lines.
void find_room(Figure&, const Plan&, Leaders = Leaders::drawn);

}  // namespace towloom::map
