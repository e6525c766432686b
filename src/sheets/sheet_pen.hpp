// The tools with which a sheet is drawn by hand: lines as decoration, measured text.
#pragma once

#include <string>
#include <vector>

#include "drawing/style.hpp"
#include "drawing/text.hpp"

namespace towloom {

struct SheetPen {
  Drawing& drawing;
  const Style& style;
  const TextMeasure& measure;

  Pen pen(const char* line_name, const char* ink_name = "ink") const;
  void add(std::vector<Mark> marks);  // as decoration
  Label text(std::string, Point at, Anchor, Weight = Weight::regular, const char* ink_name = "ink",
             const char* size = "small") const;  // measured, not yet added
  void write(Label);
  Mm100 width(const std::string&, Weight = Weight::regular, const char* size = "small") const;
  // Broken at blanks; not at those that tie words (U+00A0), which are printed as blanks.
  std::vector<std::string> wrap(const std::string&, Mm100 width, Weight = Weight::regular) const;
};

}  // namespace towloom
