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
  const double one_page = round ? 12 : 8;   // mm a unit: larger is worth no second page
  std::vector<FaceSection> best;
  size_t pages = 0;
  for (const bool together : {true, false})
    for (const double unit : units) {
      std::vector<FaceSection> trial = out;
      if (!together) trial.back().notes.clear();
      for (FaceSection& s : trial)
        for (Picture& p : s.pictures) p.unit = unit;
      if (!std::all_of(trial.begin(), trial.end(), [&](const FaceSection& s) { return fits(s, space, pen); })) continue;
      if (!together) trial.push_back(notes);
      const size_t needed = paginate(trial, space, pen).size();
      if (!best.empty() && (needed >= pages || unit < one_page)) continue;
      best = std::move(trial);
      pages = needed;
    }
  return best.empty() ? out : best;
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
  const auto frame = [&](Drawing& page, const std::vector<FaceSection>&, int number, int pages) {
    const std::vector<StripCell> strip{
        {word(style, "strip-document"), word(style, "pin-faces")},
        {word(style, "strip-part") + " " + form.name, form.title, true},
        {word(style, "strip-colours"), colour_set_title(form), true},
        {word(style, "strip-sheet"), std::to_string(number) + " " + word(style, "of") + " " + std::to_string(pages)}};
    return add_frame(page, strip, "", style, measure).space;
  };
  const auto cut = [&](Rect space, const FacesPen& pen) { return sections_of(views, catalogue, space, pen); };
  return faces_pages(blank, paper, frame, cut, style, measure);
}

}  // namespace towloom
