// How sheets look, read from styles/: papers, line widths, text sizes, greys, wire colours, symbols.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostics.hpp"
#include "drawing/drawing.hpp"

namespace towloom {

struct Symbol {                // in modules of 2.5 mm, +x right, +y down; terminals on the grid
  std::string name;
  std::string title, stands_for, form;   // for the sheet of symbols: "diode"; what it means; number in its standard
  struct PinAt { std::string name; double x = 0, y = 0; };
  std::vector<PinAt> pins;
  double left = 0, top = 0, right = 0, bottom = 0;      // body box
  struct Stroke {
    std::string kind;          // line polyline polygon circle arc dot
    std::vector<double> xy;    // points; circle: cx cy r; arc: cx cy r from-degrees to-degrees
    bool filled = false;
    bool heavy = false;
    bool dashed = false;       // in the quiet ink: outlines of housings
  };
  std::vector<Stroke> strokes;
};
struct WireColour {
  std::string letters;         // IEC 60757
  std::string word;            // "yellow"
  Rgb rgb;                     // printed
  std::vector<double> dash;    // mm, of the core inside its casing: tells colours apart without colour; empty = solid
  std::map<std::string, std::string> in;   // other conventions: north-american -> YEL
};
struct Style {
  std::string name;
  std::map<std::string, std::pair<double, double>> papers;   // "a4": 297 × 210 mm, landscape
  std::vector<std::string> series;           // papers to try in turn where a job names none
  double module_mm = 2.5;
  std::map<std::string, double> line_mm;     // symbol, factory, new-core, casing, tracer, frame, strip, zone
  std::map<std::string, double> text_mm;     // em sizes: small, body, head (capitals ≥ 2.5 mm)
  std::map<std::string, Rgb> ink;            // ink, quiet, faint, zone, cut, test-point …
  std::map<std::string, WireColour> colours; // by letters
  bool tracers_contrast = false;             // tracers black on light and white on dark cores, not in their colour
  std::string symbol_source;                 // what the set of symbols follows
  std::string letters;                       // convention in which colours are printed, "" = IEC 60757
  std::map<std::string, Symbol> symbols;
  std::map<std::string, std::string> words;  // printed words by key: circuit-left -> LT …
  const Symbol& symbol(const std::string&) const;
};
std::optional<Style> read_style(const std::filesystem::path& folder, const std::string& name, Sources&, Diagnostics&);
// Marks of a symbol with its origin at `at`; `mirrored` changes left and right, `flipped` top and bottom.
std::vector<Mark> symbol_marks(const Symbol&, Point at, bool mirrored, const Style&, Rgb ink, bool flipped = false);
Point symbol_pin(const Symbol&, const std::string& pin, Point at, bool mirrored, const Style&);
// Colour letters apart: "GY/VT" -> GY, VT; "GNYE" -> GN, YE; unknown letters stay one piece.
std::vector<std::string> colour_letters(const std::string& colour, const Style&);
// A colour as the style prints it: "YE/BK", or "YEL/BLK" where the style says north-american.
std::string colour_text(const std::string& colour, const Style&);
// Casing, core and tracer of a wire from its colour letters and status.
void set_pens(WireRun&, const Style&);
// The paper that this one makes when folded once (a3: a4, tabloid: letter), itself where the style has none: for
// sheets of text and faces, which gain nothing from a larger one. ISO 216: the long side halves.
std::string folded_paper(const Style&, const std::string& paper);
Mm100 line_width(const Style&, const std::string& name);   // by name in line_mm; must exist
Mm100 text_size(const Style&, const std::string& name);    // by name in text_mm; must exist
Rgb ink(const Style&, const std::string& name);            // by name in ink; must exist
std::string word(const Style&, const std::string& key);    // printed word; the key itself if absent
Rect symbol_body(const Symbol&, Point at, bool mirrored, const Style&, bool flipped = false);

}  // namespace towloom
