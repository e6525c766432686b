// From sections to finished pages, for a job's faces and for those of a form.
#include "sheets/faces_page.hpp"

namespace towloom {

std::vector<Drawing> faces_pages(Drawing blank, const std::string& paper, const FramePage& frame, const CutSections& cut, const Style& style,
                                 const TextMeasure& measure) {
  const auto size = style.papers.find(paper);
  if (size != style.papers.end()) {
    blank.width = mm(size->second.first);
    blank.height = mm(size->second.second);
  }
  Drawing trial = blank;   // how much room the frame leaves
  const Rect space = faces_room(frame(trial, {}, 1, 9));
  const FacesPen ruler{trial, style, measure};
  const auto pages = paginate(cut(space, ruler), space, ruler);
  std::vector<Drawing> out;
  for (size_t i = 0; i < pages.size(); ++i) {
    Drawing page = blank;
    frame(page, pages[i], static_cast<int>(i) + 1, static_cast<int>(pages.size()));
    FacesPen pen{page, style, measure};
    draw_faces_page(pages[i], space, pen);
    draw_legend(pages[i], {space.x + mm(5), space.bottom() + mm(4)}, pen);
    out.push_back(std::move(page));
  }
  return out;
}

std::string colour_set_title(const Connector& c) {
  const auto set = c.colour_sets.find(c.default_colours);
  return set == c.colour_sets.end() ? c.default_colours : set->second.title;
}

}  // namespace towloom
