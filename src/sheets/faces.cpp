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
std::vector<std::string> found_notes(const FaceView& v, const Facts& facts, const Catalogue& catalogue, const Style& style) {
  std::vector<std::string> out;
  const Outlet& end = v.site == Site::outlet ? facts.spec.coach.outlet : facts.spec.car.inlet;
  const Connector& form = catalogue.connectors.at(v.connector->form);
  for (const FaceContact& c : v.contacts) {
    const ConnectorContact& was = *form.contact(c.contact->number);
    if (!c.as_found || c.function == was.function) continue;
    std::string why = c.contact->stated && end.why ? end.why->value : "";
    for (const FoundContact& f : facts.spec.coach.found)
      if (v.site == Site::outlet && v.connector->contact(f.contact.value) == c.contact && !f.note.empty()) why = f.note;
    out.push_back(sentence(word(style, "contact") + " " + c.contact->number + ": " + c.title + "; " +
                           word(style, "catalogue-has") + " " + was.title + (why.empty() ? "" : ": " + why)));
  }
  if (!end.positions.empty() && end.why) out.push_back(sentence(word(style, "positions-found") + ": " + end.why->value));
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
    if (another && colour_set_title(*v.connector) != colour_set_title(*views.front().connector))
      table.notes.push_back(v.name + ": " + sentence(word(style, "wire-colours") + ": " + colour_set_title(*v.connector)));
    for (const std::string& caution : connector_notes(*v.connector, style)) table.notes.push_back(v.name + ": " + caution);
    for (const std::string& note : found_notes(v, facts, catalogue, style)) table.notes.push_back(v.name + ": " + note);
  }
  cord.title = word(style, "cord-ends");
  table.title = word(style, "cord-continuity");
  table.rows = cord_rows(facts, catalogue, style);
  std::vector<FaceSection> out;
  for (FaceSection* s : {&outlet, &cord, &table, &inlet})
    if (!s->pictures.empty() || !s->rows.empty()) out.push_back(std::move(*s));
  return out;
}

// The colour set of a page: that of its first picture. Another one is named in the notes.
std::string colours_of(const std::vector<FaceSection>& sections, const std::string& otherwise) {
  for (const FaceSection& s : sections)
    if (!s.pictures.empty()) return colour_set_title(*s.pictures.front().view->connector);
  return otherwise;
}

}  // namespace

std::vector<Drawing> faces_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style,
                                 const TextMeasure& measure, int bench_pages, int after) {
  const std::vector<FaceView> views = face_views(facts, catalogue, style);
  Drawing blank;
  blank.sheet = "faces";
  blank.job = facts.spec.job.number.value;
  blank.title = word(style, "pin-faces");
  blank.description = "Connector faces of outlet, cord and inlet, from the mating face and from the wire side.";
  StripRows strip;
  strip.document = word(style, "pin-faces");
  strip.extra_head = word(style, "strip-colours");
  if (!views.empty()) strip.extra = colour_set_title(*views.front().connector);
  const auto frame = [&](Drawing& page, const std::vector<FaceSection>& sections, int number, int pages) {
    StripRows own = strip;
    own.extra = colours_of(sections, strip.extra);
    own.page = bench_pages + number;
    own.pages = bench_pages + pages + after;
    return add_frame(page, facts, catalogue, own, style, measure).space;
  };
  const auto cut = [&](Rect, const FacesPen&) { return sections_of(views, facts, catalogue, style); };
  return faces_pages(blank, facts.spec.paper, frame, cut, style, measure);
}

}  // namespace towloom
