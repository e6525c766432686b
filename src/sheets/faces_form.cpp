// The faces of one form as the catalogue has it: both halves, both sides, and what is known of it.
#include <algorithm>

#include "sheets/faces_page.hpp"

namespace towloom {
namespace {

// "Other uses: centre pin reverse (7 reverse)."
std::vector<std::string> notes_of(const Connector& c, const Catalogue& catalogue, const Style& style) {
  std::vector<std::string> out = connector_notes(c, style);
  std::string uses, orders;
  for (const auto& [name, allocation] : c.allocations) uses += (uses.empty() ? "" : "; ") + allocation.title;
  for (const auto& [name, layout] : c.layouts) orders += (orders.empty() ? "" : "; ") + layout.title;
  if (!uses.empty()) out.push_back(word(style, "other-uses") + ": " + uses + ".");
  if (!orders.empty()) out.push_back(word(style, "other-layouts") + ": " + orders + ".");
  for (const auto& [form, note] : c.others)
    out.push_back(sentence(word(style, note.mates ? "mates" : "mates-not") + " " + catalogue.connectors.at(form).title + ": " + note.says));
  return out;
}

// A section a half, drawn as large as a page of its own allows; the notes below the last, or apart.
std::vector<FaceSection> sections_of(const std::vector<FaceView>& views, const Catalogue& catalogue, Rect space,
                                     const FacesPen& pen) {
  std::vector<FaceSection> out;
  for (const FaceView& v : views) {
    if (v.view == View::mating) out.push_back({});
    FaceSection& s = out.back();
    s.title = sentence(v.connector->title + ", " + v.half->title);
    s.title.pop_back();
    s.pictures.push_back(picture_of(v));
    s.weak = s.weak || v.weak;
  }
  FaceSection notes;
  notes.title = word(pen.style, "notes");
  notes.notes = notes_of(*views.front().connector, catalogue, pen.style);
  out.back().notes = notes.notes;
  const bool round = is_round(out.back().pictures.front());
  const std::vector<double> units = round ? std::vector<double>{20, 18, 16, 14, 12, 10, 9, 8} : std::vector<double>{12, 11, 10, 9, 8, 7, 6};
  for (const bool together : {true, false}) {
    if (!together) out.back().notes.clear();
    for (const double unit : units) {
      for (FaceSection& s : out)
        for (Picture& p : s.pictures) p.unit = unit;
      if (!std::all_of(out.begin(), out.end(), [&](const FaceSection& s) { return fits(s, space, pen); })) continue;
      if (!together) out.push_back(notes);
      return out;
    }
  }
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
  const auto pages = paginate(sections_of(views, catalogue, space, ruler), space, ruler);
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
