// The faces of one form as the catalogue has it: both halves, both sides, and what is known of it.
#include <algorithm>

#include "sheets/faces_page.hpp"

namespace towloom {
namespace {

// "Other uses: centre pin reverse (7 reverse)."
std::vector<std::string> notes_of(const Connector& c, const Style& style) {
  std::vector<std::string> out = c.cautions;
  std::string uses, orders;
  for (const auto& [name, allocation] : c.allocations) uses += (uses.empty() ? "" : "; ") + allocation.title;
  for (const auto& [name, layout] : c.layouts) orders += (orders.empty() ? "" : "; ") + layout.title;
  if (!uses.empty()) out.push_back(word(style, "other-uses") + ": " + uses + ".");
  if (!orders.empty()) out.push_back(word(style, "other-layouts") + ": " + orders + ".");
  for (const auto& [form, note] : c.others) out.push_back(sentence(form + ": " + note.says));
  const bool weak = std::any_of(c.contacts.begin(), c.contacts.end(),
                                [](const ConnectorContact& k) { return k.provenance.weak(); });
  if (weak) out.push_back(sentence(word(style, "functions-uncertain")));
  return out;
}

std::vector<FaceSection> sections_of(const std::vector<FaceView>& views, const Style& style) {
  std::vector<FaceSection> out;
  for (const FaceView& v : views) {
    if (v.view == View::mating) out.push_back({});
    FaceSection& s = out.back();
    s.title = sentence(v.connector->title + ", " + v.half->title);
    s.title.pop_back();
    s.pictures.push_back(picture_of(v));
    s.weak = s.weak || v.weak;
  }
  if (!out.empty()) out.back().notes = notes_of(*views.front().connector, style);
  return out;
}

}  // namespace

std::vector<Drawing> form_sheet(const Connector& form, const std::string& paper, const Catalogue& catalogue,
                                const Style& style, const TextMeasure& measure) {
  const auto views = form_views(form, form.default_colours, catalogue, style);
  Drawing blank;
  blank.sheet = "faces";
  blank.job = form.name;
  blank.title = form.title;
  blank.description = "Both halves of the " + form.title + ", from the mating face and from the wire side.";
  const auto size = style.papers.find(paper);
  if (size != style.papers.end()) {
    blank.width = mm(size->second.first);
    blank.height = mm(size->second.second);
  }
  const auto colours = form.colour_sets.find(form.default_colours);
  const auto strip = [&](size_t page, size_t pages) {
    return std::vector<StripCell>{
        {word(style, "strip-document"), word(style, "pin-faces")},
        {word(style, "strip-part") + " " + form.name, form.title, true},
        {word(style, "strip-colours"), colours == form.colour_sets.end() ? "" : colours->second.title, true},
        {word(style, "strip-sheet"), std::to_string(page) + " " + word(style, "of") + " " + std::to_string(pages)}};
  };
  Drawing trial = blank;  // how much room the frame leaves
  const Rect space = faces_room(add_frame(trial, strip(1, 9), 0, style, measure).space);
  const FacesPen ruler{trial, style, measure};
  const auto pages = paginate(sections_of(views, style), space, ruler);
  std::vector<Drawing> out;
  for (size_t i = 0; i < pages.size(); ++i) {
    Drawing page = blank;
    add_frame(page, strip(i + 1, pages.size()), 0, style, measure);
    FacesPen pen{page, style, measure};
    draw_faces_page(pages[i], space, pen);
    draw_legend(pages[i], {space.x + mm(5), space.bottom() + mm(4)}, pen);
    out.push_back(std::move(page));
  }
  return out;
}

}  // namespace towloom
