// Tables measured for the room that they have: widths of their columns, heights of their rows.
#pragma once

#include "sheets/table.hpp"

namespace towloom::table {

constexpr Mm100 line_height = mm(4.5), row_pad = mm(1.1), title_height = mm(8), table_gap = mm(12), swatch_width = mm(7), swatch_gap = mm(1.6);

struct Measured {
  const SheetTable* table = nullptr;
  std::vector<Mm100> widths;           // without the gap behind
  std::vector<std::vector<std::string>> heads;
  std::vector<Mm100> heights;          // by row
  std::vector<std::string> notes;      // broken to the table's width
  Mm100 width = 0, head_height = 0;

  Mm100 notes_height() const { return notes.empty() ? 0 : mm(2) + line_height * static_cast<Mm100>(notes.size()); }
  Mm100 height() const {
    Mm100 out = title_height + head_height + notes_height();
    for (Mm100 h : heights) out += h;
    return out;
  }
};

struct CellLine {
  std::string text;
  Weight weight = Weight::regular;
  Mm100 indent = 0;
};
// The lines of a cell: its text, and what stands below it, each broken at its blanks where the column wraps.
std::vector<CellLine> lines_of(const SheetCell&, const SheetColumn&, Mm100 width, const SheetPen&);
// Side by side, each with its share of the room; one below the other where that is too narrow.
// A cell of two parts that is higher than `high` goes on in further rows.
std::vector<std::vector<Measured>> measure_band(std::vector<SheetTable>& band, Mm100 room, Mm100 high, const SheetPen&);

}  // namespace towloom::table
