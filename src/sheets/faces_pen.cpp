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

std::vector<ContactLine> contact_lines(const Picture& p, const FaceContact& c, const Style& style) {
  std::string mark = c.contact->number + (c.contact->mark.empty() ? "" : " " + c.contact->mark);
  if (p.view->view == View::mating && c.contact->larger) mark += ", " + word(style, "contact-larger");
  if (p.view->view == View::mating && c.contact->longer) mark += ", " + word(style, "contact-longer");
  if (p.compact)
    return {{c.circuit, c.used}, {c.contact->number + " " + (c.used ? c.colour : "–"), c.used}};
  std::vector<ContactLine> out;
  const size_t space = p.narrow ? c.title.rfind(' ') : std::string::npos;
  if (space != std::string::npos) out.push_back({c.title.substr(0, space), c.used});
  out.push_back({space == std::string::npos ? c.title : c.title.substr(space + 1), c.used});
  out.push_back({c.used ? mark + "  " + c.colour : mark + ", " + word(style, "not-used"), c.used});
  if (p.view->site == Site::part) {
    std::string least = c.size.empty() ? "" : word(style, "from-size") + " " + c.size;
    if (c.contact->rating_a) least += (least.empty() ? "" : ", ") + format_plain(*c.contact->rating_a) + " A";
    if (!least.empty()) out.push_back({least, false});
  }
  if (!c.used || c.wire.empty()) return out;
  const bool unsized = c.size.empty() && p.view->site == Site::outlet;
  const std::string before = unsized          ? word(style, "coach-wire") + " "
                             : c.size.empty() ? ""
                                              : c.size + "  ";
  out.push_back({before + c.wire, false});
  return out;
}

Label contact_label(const FaceView& v, const FaceContact& c, const ContactLine& line, Point at,
                    Anchor anchor, const FacesPen& pen) {
  Label label = pen.text(line.text, at, anchor, weight_of(line), line.strong ? "ink" : "quiet");
  label.about = v.name + "." + c.contact->number;
  return label;
}

}  // namespace towloom
