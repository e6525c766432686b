#include "sheets/faces_pen.hpp"

#include <algorithm>

namespace towloom {

namespace {

// Broken at blanks into pieces of at most `most` bytes where it can be; a unit stays with its number.
std::vector<std::string> broken(const std::string& text, size_t most) {
  std::vector<std::string> out;
  for (size_t from = 0; from < text.size();) {
    size_t to = text.size();
    constexpr size_t unit = 2;  // bytes: " V"
    if (to - from > most + unit || (to - from > most && text[to - unit] != ' ')) {
      const size_t last = text.rfind(' ', from + most), next = text.find(' ', from);
      to = last != std::string::npos && last > from ? last : next == std::string::npos ? text.size() : next;
    }
    out.push_back(text.substr(from, to - from));
    from = to + 1;
  }
  return out;
}

std::string last_line(const Picture& p, const FaceContact& c, const Style& style) {
  if (p.view->site == Site::part) {
    const std::string size = c.size.empty() || p.narrow ? c.size : word(style, "from-size") + " " + c.size;
    if (!c.contact->rating_a) return size;
    return size + (size.empty() ? "" : ", ") + format_plain(*c.contact->rating_a) + " A";
  }
  if (!c.used || c.wire.empty()) return "";
  const bool unsized = c.size.empty() && p.view->site == Site::outlet;
  if (unsized) return word(style, "coach-wire") + " " + c.wire;
  return (c.size.empty() ? "" : c.size + "  ") + c.wire;
}

}  // namespace

std::vector<ContactLine> contact_lines(const Picture& p, const FaceContact& c, const Style& style) {
  const std::string number = c.contact->number + (c.contact->mark.empty() ? "" : " " + c.contact->mark);
  const std::string colour = colour_text(c.colour, style);
  if (p.compact)
    return {{c.circuit, c.used}, {c.contact->number + " " + (c.used ? colour : "–"), c.used}};
  std::string mark = c.used ? number + "  " + colour : number + ", " + word(style, "not-used");
  if (p.view->view == View::mating && c.contact->larger) mark += ", " + word(style, "contact-larger");
  if (p.view->view == View::mating && c.contact->longer) mark += ", " + word(style, "contact-longer");
  const size_t contacts = p.view->connector->contacts.size();
  const bool flat = p.view->connector->shell == "flat";
  constexpr size_t narrow_side = 12;  // bytes a line
  constexpr size_t narrow_column = 11;
  const size_t most = !p.narrow ? 200 : flat ? narrow_column : narrow_side;
  std::vector<ContactLine> out;
  if (!flat && contacts > 8) {  // many labels at each side: two lines each
    for (std::string& line : broken(c.title, most)) out.push_back({std::move(line), c.used});
    out.push_back({mark + (c.size.empty() ? "" : "  " + c.size) + (c.wire.empty() ? "" : "  " + c.wire), false});
    return out;
  }
  for (const auto& [text, strong] : {std::pair{c.title, c.used}, {mark, c.used}, {last_line(p, c, style), false}})
    for (std::string& line : broken(text, most)) out.push_back({std::move(line), strong});
  return out;
}

Label contact_label(const FaceView& v, const FaceContact& c, const ContactLine& line, Point at,
                    Anchor anchor, const FacesPen& pen) {
  Label label = pen.text(line.text, at, anchor, weight_of(line), line.strong ? "ink" : "quiet");
  label.about = v.name + "." + c.contact->number;
  const bool names_wire = !c.wire.empty() && line.text.size() >= c.wire.size() &&
                          line.text.compare(line.text.size() - c.wire.size(), c.wire.size(), c.wire) == 0;
  if (names_wire) label.wire = c.wire;
  return label;
}

}  // namespace towloom
