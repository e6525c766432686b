#include "sheets/table_measure.hpp"

#include <algorithm>

namespace towloom::table {
namespace {

constexpr Mm100 mark_width = mm(9), least_wrap = mm(26), hanging = mm(4), most_word = mm(60);

Mm100 longest_word(const std::string& text, const SheetPen& pen) {
  Mm100 out = 0;
  for (const std::string& w : pen.wrap(text, 1)) out = std::max(out, pen.width(w));
  return out;
}

std::vector<std::string> paragraphs(const std::string& text) {
  std::vector<std::string> out(1);
  for (const char c : text)
    if (c == '\n') out.emplace_back();
    else out.back() += c;
  return out;
}

Mm100 natural_width(const SheetCell& cell, const SheetPen& pen) {
  if (cell.mark) return mark_width;
  Mm100 widest = 0;
  for (const std::string& paragraph : paragraphs(cell.text)) widest = std::max(widest, pen.width(paragraph, cell.weight));
  for (const std::string& paragraph : paragraphs(cell.then)) widest = std::max(widest, pen.width(paragraph));
  return widest + (cell.swatch.empty() ? 0 : swatch_width + swatch_gap);
}

// What a column that wraps cannot do without: its longest word, unless that is a name that would take the page.
Mm100 least_width(const SheetTable& table, std::size_t column, const SheetPen& pen) {
  Mm100 out = least_wrap;
  for (const SheetRow& row : table.rows)
    if (row.cells.size() > 1 && column < row.cells.size())
      for (const std::string* text : {&row.cells[column].text, &row.cells[column].then}) out = std::max(out, longest_word(*text, pen) + hanging);
  return std::min(out, most_word);
}

// What the fixed columns leave is shared by those that wrap, as they wish; one that would come below the least takes that
// first, and the others share the rest.
void share(const SheetTable& table, Mm100 left, Mm100 wish, const SheetPen& pen, std::vector<Mm100>& widths) {
  if (wish <= left) return;
  std::vector<std::size_t> open;
  for (std::size_t c = 0; c < table.columns.size(); ++c)
    if (table.columns[c].wraps && table.columns[c].least == 0) open.push_back(c);
  const auto part = [&](std::size_t c) { return static_cast<Mm100>(static_cast<double>(widths[c]) * std::max<Mm100>(left, 0) / wish); };
  for (bool again = true; again && wish > 0;) {
    again = false;
    for (std::size_t i = 0; i < open.size(); ++i) {
      const std::size_t c = open[i];
      const Mm100 least = std::min(widths[c], least_width(table, c, pen));
      if (part(c) >= least) continue;
      left -= least;
      wish -= widths[c];
      widths[c] = least;
      open.erase(open.begin() + static_cast<std::ptrdiff_t>(i));
      again = true;
      break;
    }
  }
  std::vector<Mm100> shares;
  for (const std::size_t c : open) shares.push_back(part(c));
  for (std::size_t i = 0; i < open.size(); ++i) widths[open[i]] = shares[i];
}

// The columns that wrap share what the others leave, each by what it would like.
Measured measure_table(const SheetTable& table, Mm100 room, const SheetPen& pen) {
  Measured out;
  out.table = &table;
  Mm100 fixed = 0, wish = 0;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    const bool given = table.columns[c].wraps && table.columns[c].least > 0;
    Mm100 w = std::max(table.columns[c].least, longest_word(table.columns[c].head, pen));
    for (const SheetRow& row : table.rows)
      if (row.cells.size() > 1 && c < row.cells.size() && !given) w = std::max(w, natural_width(row.cells[c], pen));
    out.widths.push_back(w);
    (table.columns[c].wraps && !given ? wish : fixed) += w;
  }
  const Mm100 gaps = table.gap * static_cast<Mm100>(table.columns.empty() ? 0 : table.columns.size() - 1);
  share(table, room - fixed - gaps, wish, pen, out.widths);
  for (Mm100 w : out.widths) out.width += w;
  out.width += gaps;
  out.width = std::max(out.width, pen.width(table.title, Weight::semibold, "body"));
  for (const std::string& note : table.notes)
    for (std::string& line : pen.wrap(note, out.width)) out.notes.push_back(std::move(line));
  std::size_t lines = 0;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    out.heads.push_back(pen.wrap(table.columns[c].head, out.widths[c]));
    lines = std::max(lines, out.heads.back().size());
  }
  out.head_height = lines == 0 ? 0 : line_height * static_cast<Mm100>(lines) + row_pad;
  for (const SheetRow& row : table.rows) {
    std::size_t most = 1;
    for (std::size_t c = 0; c < row.cells.size() && row.cells.size() > 1; ++c)
      most = std::max(most, lines_of(row.cells[c], table.columns[c], out.widths[c], pen).size());
    out.heights.push_back(line_height * static_cast<Mm100>(most) + row_pad);
  }
  return out;
}

void drop_optional(SheetTable& table, Mm100 room, const SheetPen& pen) {
  for (std::size_t c = table.columns.size(); c-- > 0;) {
    if (!table.columns[c].optional || measure_table(table, room, pen).width <= room) continue;
    table.columns.erase(table.columns.begin() + static_cast<std::ptrdiff_t>(c));
    for (SheetRow& row : table.rows)
      if (row.cells.size() > 1) row.cells.erase(row.cells.begin() + static_cast<std::ptrdiff_t>(c));
  }
}

// Rows with a cell of two parts, cut so that each is no higher than `most` lines.
void cut_tall(SheetTable& table, const std::vector<Mm100>& widths, std::size_t most, const SheetPen& pen) {
  std::vector<SheetRow> cut;
  for (SheetRow& row : table.rows) {
    const auto tall = std::find_if(row.cells.begin(), row.cells.end(), [](const SheetCell& c) { return !c.then.empty(); });
    const auto column = static_cast<std::size_t>(tall - row.cells.begin());
    const auto lines = tall == row.cells.end() ? std::vector<CellLine>{} : lines_of(*tall, table.columns[column], widths[column], pen);
    if (lines.size() <= most) {
      cut.push_back(std::move(row));
      continue;
    }
    for (std::size_t from = 0; from < lines.size(); from += most) {
      SheetRow part = row;
      if (from > 0)
        for (SheetCell& cell : part.cells) cell.text.clear();
      std::string text, then;
      for (std::size_t k = from; k < std::min(lines.size(), from + most); ++k) {
        std::string& to = lines[k].weight == Weight::regular ? then : text;
        to += (to.empty() ? "" : "\n") + lines[k].text;
      }
      part.cells[column].text = text;
      part.cells[column].then = then;
      cut.push_back(std::move(part));
    }
  }
  table.rows = std::move(cut);
}

}  // namespace

std::vector<CellLine> lines_of(const SheetCell& cell, const SheetColumn& column, Mm100 width, const SheetPen& pen) {
  if (!column.wraps) return {{cell.text, cell.weight}};
  std::vector<CellLine> out;
  const auto add = [&](const std::string& text, Weight weight, Mm100 indent) {
    for (const std::string& paragraph : paragraphs(text)) {
      auto lines = pen.wrap(paragraph, width, weight);
      if (lines.size() > 1 && indent > 0) lines = pen.wrap(paragraph, width - indent, weight);
      for (std::size_t k = 0; k < lines.size(); ++k) out.push_back({std::move(lines[k]), weight, k == 0 ? 0 : indent});
    }
  };
  if (!cell.text.empty() || cell.then.empty()) add(cell.text, cell.weight, 0);
  if (!cell.then.empty()) add(cell.then, Weight::regular, hanging);
  return out;
}

std::vector<std::vector<Measured>> measure_band(std::vector<SheetTable>& band, Mm100 room, Mm100 high, const SheetPen& pen) {
  const Mm100 free = room - table_gap * static_cast<Mm100>(band.empty() ? 0 : band.size() - 1);
  double wish = 0;
  for (const SheetTable& table : band) wish += measure_table(table, mm(1000), pen).width;
  std::vector<Measured> beside;
  Mm100 sum = 0;
  for (const SheetTable& table : band) {
    beside.push_back(measure_table(table, static_cast<Mm100>(free * std::min(1.0, measure_table(table, mm(1000), pen).width / wish)), pen));
    sum += beside.back().width;
  }
  if (band.size() > 1 && sum <= free) return {beside};
  std::vector<std::vector<Measured>> out;
  for (SheetTable& table : band) {
    const Mm100 column = (room - table_gap * (table.abreast - 1)) / table.abreast;
    drop_optional(table, column, pen);
    const Measured whole = measure_table(table, column, pen);
    cut_tall(table, whole.widths, static_cast<std::size_t>((high - title_height - whole.head_height - whole.notes_height() - row_pad) / line_height), pen);
    out.push_back({measure_table(table, column, pen)});
  }
  return out;
}

}  // namespace towloom::table
