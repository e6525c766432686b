// The sheet of symbols: each as it is drawn on the bench sheet, its terminals, and what it stands for.
#include <algorithm>

#include "sheets/sheet_pen.hpp"
#include "sheets/sheets.hpp"

namespace towloom {
namespace {

constexpr Mm100 cell_width = mm(86), cell_height = mm(24.5), symbol_width = mm(36), line_pitch = mm(4.5), edge = mm(2.5);

Drawing blank(const Style& style, const std::string& paper) {
  Drawing out;
  out.sheet = "symbols";
  out.job = "symbols";
  out.title = word(style, "symbols-sheet");
  out.description = word(style, "symbols-describe");
  const auto size = style.papers.at(paper);
  out.width = mm(size.first);
  out.height = mm(size.second);
  return out;
}

// A terminal's name outside the symbol, beside its pin.
void name_pin(const Symbol& symbol, const Symbol::PinAt& pin, Point at, SheetPen& pen) {
  const double left = pin.x - symbol.left, right = symbol.right - pin.x;
  const double top = pin.y - symbol.top, bottom = symbol.bottom - pin.y, nearest = std::min({left, right, top, bottom});
  Label label = pen.text(pin.name, at, Anchor::middle, Weight::regular, "quiet");
  if (nearest == left) label.anchor = Anchor::end, label.at = {at.x - mm(1), at.y + mm(1.25)};
  else if (nearest == right) label.anchor = Anchor::start, label.at = {at.x + mm(1), at.y + mm(1.25)};
  else if (nearest == top) label.at = {at.x, at.y - mm(1.2)};
  else label.at = {at.x, at.y + mm(3.8)};
  pen.measure.place(label);
  label.about = symbol.name;
  pen.write(std::move(label));
}

void draw_symbol(const Symbol& symbol, const Rect& cell, SheetPen& pen) {
  const Style& style = pen.style;
  const double middle_x = (symbol.left + symbol.right) / 2, middle_y = (symbol.top + symbol.bottom) / 2;
  const Mm100 module = mm(style.module_mm);
  const Point origin{cell.x + symbol_width / 2 - mm(middle_x * style.module_mm), cell.y + cell.h / 2 - mm(middle_y * style.module_mm)};
  const Point at{(origin.x + module / 2) / module * module, (origin.y + module / 2) / module * module};   // on the grid, as on every sheet
  PartFigure figure;
  figure.part = figure.kind = symbol.name;
  figure.title = symbol.title;
  figure.body = symbol_body(symbol, at, false, style);
  for (const auto& pin : symbol.pins) figure.pins.push_back({symbol.name + "." + pin.name, "", symbol_pin(symbol, pin.name, at, false, style)});
  figure.marks = symbol_marks(symbol, at, false, style, ink(style, "ink"));
  for (const auto& pin : symbol.pins) name_pin(symbol, pin, symbol_pin(symbol, pin.name, at, false, style), pen);
  pen.drawing.items.emplace_back(std::move(figure));
}

void draw_cell(const Symbol& symbol, const Rect& cell, SheetPen& pen) {
  pen.add({line({cell.x, cell.bottom()}, {cell.right(), cell.bottom()}, pen.pen("outline", "faint"))});
  draw_symbol(symbol, cell, pen);
  const Mm100 x = cell.x + symbol_width + mm(3), room = cell.right() - x;
  Mm100 y = cell.y + mm(6);
  const auto say = [&](const std::string& text, Weight weight, const char* ink_name) {
    for (std::string& row : pen.wrap(text, room)) {
      Label label = pen.text(std::move(row), {x, y}, Anchor::start, weight, ink_name);
      label.about = symbol.name;
      pen.write(std::move(label));
      y += line_pitch;
    }
  };
  say(symbol.title, Weight::semibold, "ink");
  say(symbol.stands_for, Weight::regular, "ink");
  say(symbol.form, Weight::regular, "quiet");
}

}  // namespace

std::vector<Drawing> symbol_sheet(const Style& style, const std::string& paper, const TextMeasure& measure) {
  std::vector<const Symbol*> symbols;
  for (const auto& [name, symbol] : style.symbols) symbols.push_back(&symbol);
  std::vector<Drawing> out;
  std::size_t pages = 1;
  for (std::size_t next = 0; next < symbols.size();) {
    Drawing page = blank(style, paper);
    const std::vector<StripCell> strip{{word(style, "strip-document"), page.title}, {word(style, "strip-source"), style.symbol_source, true},
                                       {word(style, "strip-sheet"), std::to_string(out.size() + 1) + " " + word(style, "of") + " " + std::to_string(pages)}};
    const Frame frame = add_frame(page, strip, "", style, measure);
    const Rect room{frame.space.x + edge, frame.space.y + edge, frame.space.w - 2 * edge, frame.space.h - edge};
    const int columns = std::max(1, room.w / cell_width), rows = std::max(1, room.h / cell_height);
    const std::size_t each = static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows), needed = (symbols.size() + each - 1) / each;
    if (needed != pages) {     // known only once the frame is: begin again
      pages = needed;
      continue;
    }
    SheetPen pen{page, style, measure};
    for (int i = 0; i < columns * rows && next < symbols.size(); ++i, ++next)
      draw_cell(*symbols[next], {room.x + i / rows * (room.w / columns), room.y + i % rows * (room.h / rows), room.w / columns - mm(2), room.h / rows - mm(0.5)}, pen);
    out.push_back(std::move(page));
  }
  return out;
}

}  // namespace towloom
