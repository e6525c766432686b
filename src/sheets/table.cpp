#include "sheets/table.hpp"

#include <algorithm>

#include "sheets/table_measure.hpp"

namespace towloom {
namespace {

using namespace table;
constexpr Mm100 band_gap = mm(5), margin = mm(5);

struct Piece {                 // rows of one table on one page
  const Measured* table = nullptr;
  std::size_t from = 0, to = 0;
  Point at;
  bool titled = true;          // not in the further columns of a page
};
using PagePieces = std::vector<Piece>;

struct Flow {
  Rect room;
  std::vector<PagePieces> pages;
  Mm100 y = 0;

  void new_page() {
    pages.emplace_back();
    y = room.y;
  }
  Mm100 left() const { return room.bottom() - y; }

  void side_by_side(const std::vector<Measured>& band) {
    Mm100 tall = 0, x = room.x;
    for (const Measured& m : band) {
      pages.back().push_back({&m, 0, m.heights.size(), {x, y}});
      x += m.width + table_gap;
      tall = std::max(tall, m.height());
    }
    y += tall + band_gap;
  }

  // Row by row; at least two stand under a head, in columns one, and the notes stand with the last row.
  void over_pages(const Measured& m) {
    const int columns = m.table->abreast;
    const Mm100 step = (room.w + table_gap) / columns;
    int column = 0;
    Mm100 top = y, lowest = y;   // of the columns on this page
    const auto turn_page = [&] {
      new_page();
      column = 0;
      top = lowest = y;
    };
    const auto next_column = [&] {
      if (++column == columns) return turn_page();
      y = top;
    };
    for (std::size_t from = 0; from < m.heights.size();) {
      const auto need = [&](std::size_t to) {
        Mm100 h = title_height + m.head_height + (to == m.heights.size() ? m.notes_height() : 0);
        for (std::size_t r = from; r < to; ++r) h += m.heights[r];
        return h;
      };
      std::size_t least = std::min(from + (columns > 1 ? 1 : 2), m.heights.size());
      if (need(least) > room.h) least = from + 1;
      if (need(least) > left() && !pages.back().empty()) turn_page();
      std::size_t to = least;
      while (to < m.heights.size() && need(to + 1) <= left()) ++to;
      while (to < m.heights.size() && to > from + 1 && m.table->rows[to - 1].cells.size() == 1) --to;   // a head stands with its rows
      pages.back().push_back({&m, from, to, {room.x + step * column, y}, column == 0});
      lowest = std::max(lowest, y + need(to) + band_gap);
      from = to;
      if (from < m.heights.size()) next_column();
    }
    y = lowest;
  }

  void add(const std::vector<Measured>& band) {
    Mm100 tall = 0, wide = -table_gap;
    for (const Measured& m : band) {
      tall = std::max(tall, m.height());
      wide += m.width + table_gap;
    }
    const bool fits_a_page = tall <= room.h && wide <= room.w;
    if (fits_a_page && tall > left() && band.size() > 1) new_page();
    if (tall <= left() && wide <= room.w && band.front().table->abreast == 1) return side_by_side(band);
    for (const Measured& m : band) over_pages(m);
  }
};

void draw_swatch(const std::string& colour, Point left_middle, SheetPen& pen) {
  WireRun run;
  run.colour = colour;
  run.status = "new";
  set_pens(run, pen.style);
  const Point to{left_middle.x + swatch_width, left_middle.y};
  for (const Pen& p : {run.casing, run.core, run.tracer})
    if (p.width > 0) pen.add({line(left_middle, to, p)});
}

void draw_cell(const SheetCell& cell, const SheetColumn& column, Rect r, SheetPen& pen) {
  if (cell.mark) return cell.mark(pen, {r.x + r.w / 2, r.y + (line_height + row_pad) / 2});
  Mm100 x = r.x;
  if (!cell.swatch.empty()) {
    draw_swatch(cell.swatch, {x, r.y + line_height / 2 + row_pad / 2}, pen);
    x += swatch_width + swatch_gap;
  }
  if (column.anchor == Anchor::end) x = r.right();
  if (column.anchor == Anchor::middle) x = r.x + r.w / 2;
  const std::vector<CellLine> lines = lines_of(cell, column, r.w, pen);
  for (std::size_t k = 0; k < lines.size(); ++k) {
    Label label = pen.text(lines[k].text, {x + lines[k].indent, r.y + mm(3.9) + line_height * static_cast<Mm100>(k)}, column.anchor, lines[k].weight, cell.ink);
    label.about = cell.about;
    pen.write(std::move(label));
  }
}

void draw_heads(const Measured& m, Point at, SheetPen& pen) {
  Mm100 x = at.x;
  for (std::size_t c = 0; c < m.heads.size(); ++c) {
    const Anchor anchor = m.table->columns[c].anchor;
    const Mm100 w = m.widths[c], text_x = anchor == Anchor::end ? x + w : anchor == Anchor::middle ? x + w / 2 : x;
    for (std::size_t k = 0; k < m.heads[c].size(); ++k) {   // heads stand on the line under them
      const Mm100 y = at.y + m.head_height - row_pad - mm(0.6) - line_height * static_cast<Mm100>(m.heads[c].size() - 1 - k);
      pen.write(pen.text(m.heads[c][k], {text_x, y}, anchor, Weight::regular, "quiet"));
    }
    x += w + m.table->gap;
  }
  pen.add({line({at.x, at.y + m.head_height}, {at.x + m.width, at.y + m.head_height}, pen.pen("outline", "quiet"))});
}

void draw_piece(const Piece& piece, SheetPen& pen) {
  const Measured& m = *piece.table;
  Mm100 y = piece.at.y;
  const std::string title = m.table->title + (piece.from > 0 ? ", " + word(pen.style, "continued") : "");
  if (piece.titled) pen.write(pen.text(title, {piece.at.x, y + mm(4.5)}, Anchor::start, Weight::semibold, "ink", "body"));
  y += title_height;
  if (m.head_height > 0) draw_heads(m, {piece.at.x, y - mm(1)}, pen);
  y += m.head_height;
  for (std::size_t r = piece.from; r < piece.to; y += m.heights[r++]) {
    const SheetRow& row = m.table->rows[r];
    if (row.cells.size() == 1) {
      pen.write(pen.text(row.cells[0].text, {piece.at.x, y + mm(3.9)}, Anchor::start, Weight::semibold, row.cells[0].ink));
    } else {
      Mm100 x = piece.at.x;
      for (std::size_t c = 0; c < row.cells.size(); ++c) {
        draw_cell(row.cells[c], m.table->columns[c], {x, y, m.widths[c], m.heights[r]}, pen);
        x += m.widths[c] + m.table->gap;
      }
    }
    pen.add({line({piece.at.x, y + m.heights[r]}, {piece.at.x + m.width, y + m.heights[r]}, pen.pen("outline", "faint"))});
  }
  if (piece.to < m.heights.size()) return;
  y += mm(2);
  for (const std::string& note : m.notes) {
    pen.write(pen.text(note, {piece.at.x, y + mm(3.6)}, Anchor::start, Weight::regular, "quiet"));
    y += line_height;
  }
}

}  // namespace

Drawing table_blank(const Facts& facts, const Style& style, const std::string& sheet, const std::string& title, const std::string& description) {
  Drawing out;
  out.sheet = sheet;
  out.job = facts.spec.job.number.value;
  out.title = title + ", job " + out.job;
  out.description = description;
  const auto paper = style.papers.find(folded_paper(style, facts.spec.paper));
  if (paper != style.papers.end()) {
    out.width = mm(paper->second.first);
    out.height = mm(paper->second.second);
  }
  return out;
}

Rect table_room(const Drawing& blank, const StripRows& strip, const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure) {
  Drawing trial = blank;   // how much room the frame leaves
  const Rect space = add_frame(trial, facts, catalogue, strip, style, measure).space;
  return {space.x + margin, space.y + mm(3), space.w - 2 * margin, space.h - mm(4)};
}

std::vector<Drawing> table_pages(const std::vector<std::vector<SheetTable>>& bands, const Drawing& blank, const StripRows& strip,
                                 const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure,
                                 int before, int after) {
  Drawing trial = blank;
  SheetPen ruler{trial, style, measure};
  Flow flow{table_room(blank, strip, facts, catalogue, style, measure), {}, 0};
  flow.new_page();
  std::vector<std::vector<Measured>> measured;
  std::vector<std::vector<SheetTable>> kept = bands;
  for (std::vector<SheetTable>& band : kept) {
    band.erase(std::remove_if(band.begin(), band.end(), [](const SheetTable& t) { return t.rows.empty(); }), band.end());
    for (std::vector<Measured>& row : measure_band(band, flow.room.w, flow.room.h, ruler)) measured.push_back(std::move(row));
  }
  for (const std::vector<Measured>& band : measured)
    if (!band.empty()) flow.add(band);
  std::vector<Drawing> out;
  StripRows numbered = strip;
  numbered.pages = before + static_cast<int>(flow.pages.size()) + after;
  for (std::size_t p = 0; p < flow.pages.size(); ++p) {
    Drawing page = blank;
    numbered.page = before + static_cast<int>(p) + 1;
    add_frame(page, facts, catalogue, numbered, style, measure);
    SheetPen pen{page, style, measure};
    for (const Piece& piece : flow.pages[p]) draw_piece(piece, pen);
    out.push_back(std::move(page));
  }
  return out;
}

}  // namespace towloom
