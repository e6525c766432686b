// Tables that flow over as many pages as they need: wire list, proof.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sheets/names.hpp"
#include "sheets/sheet_pen.hpp"
#include "sheets/sheets.hpp"

namespace towloom {

struct SheetCell {
  std::string text;            // lines apart by a line feed where its column wraps
  Weight weight = Weight::regular;
  const char* ink = "ink";
  std::string swatch = {};     // colour letters: a piece of that wire before the text
  std::string about = {};      // id of the wire or part that the row is about
  std::function<void(SheetPen&, Point middle)> mark = {};   // in place of text, in the middle of the cell
  std::string then = {};       // below the text, regular; in a column that wraps
};
struct SheetColumn {
  std::string head;            // broken at its blanks as narrow as the cells ask for
  Anchor anchor = Anchor::start;
  bool wraps = false;          // breaks its text at blanks; takes what room is left, or `least` where that is given
  Mm100 least = 0;
  bool optional = false;       // left out where the others leave no room for it
};
struct SheetRow {
  std::vector<SheetCell> cells;   // one cell only: a head over the rows that follow
};
struct SheetTable {
  std::string title;
  std::vector<SheetColumn> columns;
  std::vector<SheetRow> rows;
  Mm100 gap = mm(5);           // between columns
  std::vector<std::string> notes = {};   // below the last row
  int abreast = 1;             // it runs down so many columns of a page, as a newspaper does
};

// An empty page for tables: the job's paper, but A4 where the job draws on larger.
Drawing table_blank(const Facts&, const Style&, const std::string& sheet, const std::string& title, const std::string& description);
// Where tables stand within the frame.
Rect table_room(const Drawing& blank, const StripRows& strip, const Facts&, const Catalogue&, const Style&, const TextMeasure&);
// Bands from top to bottom, the tables of a band side by side. A band that does not fit begins a page; a table
// longer than a page goes on with its heads repeated; one that runs in columns stands in a band of its own.
std::vector<Drawing> table_pages(const std::vector<std::vector<SheetTable>>& bands, const Drawing& blank, const StripRows& strip,
                                 const Facts&, const Catalogue&, const Style&, const TextMeasure&, int before, int after);

}  // namespace towloom
