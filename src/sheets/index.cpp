// The list of a set's sheets, on the first of them beside the cautions.
#include "sheets/sheet_pen.hpp"
#include "sheets/sheets.hpp"

namespace towloom {

void add_index(std::vector<Drawing>& pages, const Style& style, const TextMeasure& measure) {
  if (pages.size() < 2) return;
  Drawing& first_page = pages.front();
  SheetPen pen{first_page, style, measure};
  struct Listed { std::string text; int page = 0; };   // page: that it leads to
  std::vector<Listed> entries{{word(style, "index"), 0}};
  for (std::size_t p = 0; p < pages.size(); ++p) {
    if (p > 0 && pages[p].sheet == pages[p - 1].sheet) continue;
    const std::string key = "index-" + pages[p].sheet, name = word(style, key);
    entries.push_back({std::to_string(p + 1) + " " + (name == key ? pages[p].sheet : name), static_cast<int>(p) + 1});
  }
  const auto rooms = beside_cautions(first_page, style, measure);
  const auto weight = [](const Listed& e) { return e.page == 0 ? Weight::semibold : Weight::regular; };
  const std::string more = "…";
  const Mm100 cut = pen.width(more);
  bool fell_short = true;
  const auto places = [&](Mm100 gap) {   // of as many entries as find room, and of the sign that more would follow
    fell_short = false;
    std::vector<Point> out;
    std::size_t room = 0;
    Mm100 x = rooms[0].x;
    for (const Listed& e : entries) {
      const Mm100 wide = pen.width(e.text, weight(e));
      if (x + wide > rooms[room].right() && room + 1 < rooms.size()) x = rooms[++room].x;
      const bool last_room = room + 1 == rooms.size(), last = &e == &entries.back();
      if (x + wide + (last || !last_room ? 0 : gap + cut) > rooms[room].right()) {   // a reader sees that the list goes on
        out.push_back({x, rooms[room].y});
        fell_short = true;
        break;
      }
      out.push_back({x, rooms[room].y});
      x += wide + gap;
    }
    return out;
  };
  std::vector<Point> at;
  for (const double gap : {3.5, 2.5, 1.8})   // mm; on narrow paper many sheets stand closer
    if (fell_short) at = places(mm(gap));
  if (fell_short) entries[at.size() - 1] = {more, 0};
  for (std::size_t e = 0; e < at.size(); ++e) {
    Label label = pen.text(entries[e].text, at[e], Anchor::start, weight(entries[e]));
    label.page = entries[e].page;
    label.decoration = true;
    pen.write(std::move(label));
  }
}

}  // namespace towloom
