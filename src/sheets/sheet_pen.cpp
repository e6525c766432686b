#include "sheets/sheet_pen.hpp"

namespace towloom {

Pen SheetPen::pen(const char* line_name, const char* ink_name) const {
  Pen out;
  out.width = line_width(style, line_name);
  out.colour = ink(style, ink_name);
  return out;
}

void SheetPen::add(std::vector<Mark> marks) { drawing.items.push_back(Decor{std::move(marks)}); }

Label SheetPen::text(std::string words, Point at, Anchor anchor, Weight weight,
                     const char* ink_name, const char* size) const {
  Label label;
  label.text = std::move(words);
  label.at = at;
  label.anchor = anchor;
  label.weight = weight;
  label.size = text_size(style, size);
  label.colour = ink(style, ink_name);
  measure.place(label);
  return label;
}

void SheetPen::write(Label label) {
  if (!label.text.empty()) drawing.items.push_back(std::move(label));
}

Mm100 SheetPen::width(const std::string& words, Weight weight, const char* size) const {
  return measure.reserve(words, text_size(style, size), weight);
}

std::vector<std::string> SheetPen::wrap(const std::string& words, Mm100 room, Weight weight) const {
  std::vector<std::string> out;
  std::string row, next;
  for (size_t i = 0; i <= words.size(); ++i) {
    if (i < words.size() && words[i] != ' ') {
      next += words[i];
      continue;
    }
    const std::string longer = row.empty() ? next : row + " " + next;
    if (!row.empty() && width(longer, weight) > room) {
      out.push_back(row);
      row = next;
    } else {
      row = longer;
    }
    next.clear();
  }
  if (!row.empty()) out.push_back(row);
  const std::string tie = "\u00a0";   // has held its words together
  for (std::string& line : out)
    for (std::size_t at = line.find(tie); at != std::string::npos; at = line.find(tie, at)) line.replace(at, tie.size(), " ");
  return out;
}

}  // namespace towloom
