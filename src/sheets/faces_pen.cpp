#include "sheets/faces_pen.hpp"

#include <algorithm>

namespace towloom {

Pen FacesPen::pen(const char* line_name, const char* ink_name) const {
  Pen out;
  out.width = line_width(style, line_name);
  out.colour = ink(style, ink_name);
  return out;
}

void FacesPen::add(std::vector<Mark> marks) { drawing.items.push_back(Decor{std::move(marks)}); }

Label FacesPen::text(std::string words, Point at, Anchor anchor, Weight weight,
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

void FacesPen::write(Label label) {
  if (!label.text.empty()) drawing.items.push_back(std::move(label));
}

Mm100 FacesPen::width(const std::string& words, Weight weight, const char* size) const {
  return measure.reserve(words, text_size(style, size), weight);
}

std::vector<std::string> FacesPen::wrap(const std::string& words, Mm100 room) const {
  std::vector<std::string> out;
  std::string row, next;
  for (size_t i = 0; i <= words.size(); ++i) {
    if (i < words.size() && words[i] != ' ') {
      next += words[i];
      continue;
    }
    const std::string longer = row.empty() ? next : row + " " + next;
    if (!row.empty() && width(longer) > room) {
      out.push_back(row);
      row = next;
    } else {
      row = longer;
    }
    next.clear();
  }
  if (!row.empty()) out.push_back(row);
  return out;
}

std::vector<std::string> contact_lines(const Picture& p, const FaceContact& c, const Style& style) {
  const std::string mark =
      c.contact->number + (c.contact->mark.empty() ? "" : " " + c.contact->mark);
  if (p.compact) return {c.circuit, c.contact->number + " " + (c.used ? c.colour : "–")};
  if (!c.used) return {c.title, mark + ", " + word(style, "not-used")};
  std::string last = c.size;
  if (!c.wire.empty() && last.empty() && p.view->site == Site::outlet)
    last = word(style, "coach-wire") + " " + c.wire;
  else if (!c.wire.empty())
    last += (last.empty() ? "" : "  ") + c.wire;
  return {c.title, mark + "  " + c.colour, last};
}

Label contact_label(const FaceView& v, const FaceContact& c, const std::string& line, size_t rank,
                    Point at, Anchor anchor, const FacesPen& pen) {
  const bool strong = rank < 2 && c.used;
  Label label = pen.text(line, at, anchor, strong ? Weight::semibold : Weight::regular,
                         strong ? "ink" : "quiet");
  label.about = v.name + "." + c.contact->number;
  return label;
}

}  // namespace towloom
