// Pin faces: outlet, cord, inlet; each half from its mating face and from its wire side.
#include "sheets/faces_page.hpp"

namespace towloom {
namespace {

std::string end_title(const FaceView& v, const std::string& place, const Style& style) {
  std::string out;
  if (v.site == Site::outlet) out = v.name + "  " + word(style, "coach-outlet");
  if (v.site == Site::inlet) out = v.name + "  " + word(style, "car-inlet");
  out += ": " + v.connector->title + ", " + v.half->title;
  return place.empty() ? out : out + ", " + place;
}

// What was found on a contact against the catalogue, and why.
std::vector<std::string> found_notes(const FaceView& v, const Facts& facts, const Style& style) {
  std::vector<std::string> out;
  for (const FaceContact& c : v.contacts) {
    if (!c.as_found) continue;
    std::string why;
    for (const FoundContact& f : facts.spec.coach.found)
      if (v.connector->contact(f.contact.value) == c.contact) why = f.note;
    out.push_back(sentence(word(style, "contact") + " " + c.contact->number + ": " + c.title + "; " +
                           word(style, "catalogue-has") + " " + c.contact->title + (why.empty() ? "" : ": " + why)));
  }
  return out;
}

std::vector<FaceSection> sections_of(const std::vector<FaceView>& views, const Facts& facts,
                                     const Catalogue& catalogue, const Style& style) {
  FaceSection outlet, cord, inlet, table;
  for (const FaceView& v : views) {
    FaceSection& s = v.site == Site::outlet ? outlet : v.site == Site::inlet ? inlet : cord;
    s.pictures.push_back(picture_of(v));
    s.weak = s.weak || v.weak;
    if (v.site == Site::outlet) s.title = end_title(v, facts.spec.coach.outlet.at, style);
    if (v.site == Site::inlet) s.title = end_title(v, facts.spec.car.inlet.at, style);
    const bool another = v.site == Site::inlet && v.connector != views.front().connector;
    if (v.view != View::mating || (v.site != Site::outlet && !another)) continue;
    for (const std::string& caution : connector_notes(*v.connector, style)) table.notes.push_back(v.name + ": " + caution);
    for (const std::string& note : found_notes(v, facts, style)) table.notes.push_back(v.name + ": " + note);
  }
  cord.title = word(style, "cord-ends");
  table.title = word(style, "cord-continuity");
  table.rows = cord_rows(facts, catalogue, style);
  std::vector<FaceSection> out;
  for (FaceSection* s : {&outlet, &cord, &table, &inlet})
    if (!s->pictures.empty() || !s->rows.empty()) out.push_back(std::move(*s));
  return out;
}

Drawing blank(const Facts& facts, const Style& style) {
  Drawing out;
  out.sheet = "faces";
  out.job = facts.spec.job.number.value;
  out.title = word(style, "pin-faces");
  out.description =
      "Connector faces of outlet, cord and inlet, from the mating face and from the wire side.";
  const auto paper = style.papers.find(facts.spec.paper);
  if (paper != style.papers.end()) {
    out.width = mm(paper->second.first);
    out.height = mm(paper->second.second);
  }
  return out;
}

}  // namespace

std::vector<Drawing> faces_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style,
                                 const TextMeasure& measure, int bench_pages, int after) {
  const std::vector<FaceView> views = face_views(facts, catalogue, style);
  StripRows strip;
  strip.document = word(style, "pin-faces");
  strip.extra_head = word(style, "strip-colours");
  if (!views.empty()) {
    const Connector& c = *views.front().connector;
    strip.extra = c.colour_sets.count(c.default_colours) == 1 ? c.colour_sets.at(c.default_colours).title : c.default_colours;
  }
  Drawing trial = blank(facts, style);  // how much room the frame leaves
  const Rect space = faces_room(add_frame(trial, facts, catalogue, strip, style, measure).space);
  FacesPen ruler{trial, style, measure};
  const auto pages = paginate(sections_of(views, facts, catalogue, style), space, ruler);
  std::vector<Drawing> out;
  for (size_t i = 0; i < pages.size(); ++i) {
    Drawing page = blank(facts, style);
    strip.page = bench_pages + 1 + static_cast<int>(i);
    strip.pages = bench_pages + static_cast<int>(pages.size()) + after;
    add_frame(page, facts, catalogue, strip, style, measure);
    FacesPen pen{page, style, measure};
    draw_faces_page(pages[i], space, pen);
    draw_legend(pages[i], {space.x + mm(5), space.bottom() + mm(4)}, pen);
    out.push_back(std::move(page));
  }
  return out;
}

}  // namespace towloom
