// Pin faces: outlet, cord, inlet; each half from its mating face and from its wire side.
#include "sheets/faces_page.hpp"

namespace towloom {
namespace {

std::string end_title(const FaceView& v, const Plug& plug, const std::string& place, const Style& style) {
  std::string out;
  if (v.site == Site::outlet) out = v.name + "  " + word(style, "coach-outlet");
  if (v.site == Site::inlet) out = v.name + "  " + word(style, "car-inlet");
  if (!plug.name.empty()) out += ", " + plug.name;
  out += ": " + v.connector->title + ", " + v.half->title;
  return place.empty() ? out : out + ", " + place;
}

const Outlet& end_of(const FaceView& v, const std::vector<Plug>& all) {
  const Plug& plug = all[static_cast<size_t>(v.plug)];
  return v.site == Site::outlet ? *plug.outlet : *plug.inlet;
}

// What was found on a contact against the catalogue, and why.
std::vector<std::string> found_notes(const FaceView& v, const Facts& facts, const std::vector<Plug>& all, const Catalogue& catalogue, const Style& style) {
  std::vector<std::string> out;
  const Outlet& end = end_of(v, all);
  const Connector& form = catalogue.connectors.at(v.connector->form);
  for (const FaceContact& c : v.contacts) {
    const ConnectorContact& was = *form.contact(c.contact->number);
    if (!c.as_found || c.function == was.function) continue;
    std::string why = c.contact->stated && end.why ? end.why->value : "";
    for (const FoundContact& f : facts.spec.coach.found)
      if (f.plug == v.plug && v.site == Site::outlet && v.connector->contact(f.contact.value) == c.contact && !f.note.empty()) why = f.note;
    out.push_back(sentence(word(style, "contact") + " " + c.contact->number + ": " + c.title + "; " +
                           word(style, "catalogue-has") + " " + was.title + (why.empty() ? "" : ": " + why)));
  }
  if (!end.positions.empty() && end.why) out.push_back(sentence(word(style, "positions-found") + ": " + end.why->value));
  return out;
}

// Outlet, cord, continuity and inlet of one plug.
std::vector<FaceSection> sections_of(const std::vector<FaceView>& views, const Plug& plug, const std::vector<Plug>& all, const Facts& facts,
                                     const Catalogue& catalogue, const Style& style) {
  FaceSection outlet, cord, inlet, table;
  const FaceView* first = nullptr;
  for (const FaceView& v : views) {
    if (v.plug != plug.index) continue;
    if (first == nullptr) first = &v;
    FaceSection& s = v.site == Site::outlet ? outlet : v.site == Site::inlet ? inlet : cord;
    s.pictures.push_back(picture_of(v));
    s.weak = s.weak || v.weak;
    if (v.site == Site::outlet || v.site == Site::inlet) s.title = end_title(v, plug, end_of(v, all).at, style);
    const bool another = v.site == Site::inlet && v.connector != first->connector;
    if (v.view != View::mating || (v.site != Site::outlet && !another)) continue;
    if (colour_set_title(*v.connector) != colour_set_title(*views.front().connector))
      table.notes.push_back(v.name + ": " + sentence(word(style, "wire-colours") + ": " + colour_set_title(*v.connector)));
    for (const std::string& caution : connector_notes(*v.connector, style)) table.notes.push_back(v.name + ": " + caution);
    for (const std::string& note : found_notes(v, facts, all, catalogue, style)) table.notes.push_back(v.name + ": " + note);
  }
  const std::string j1 = plug.outlet_id(), j2 = plug.inlet_id(), mates = " " + word(style, "cord-mates") + " ";
  cord.title = word(style, "cord-ends") + ": P" + j1.substr(1) + mates + j1 + ", P" + j2.substr(1) + mates + j2;
  table.title = word(style, "cord-continuity") + (plug.name.empty() ? "" : ": " + plug.name);
  table.rows = cord_rows(facts, catalogue, plug);
  std::vector<FaceSection> out;
  for (FaceSection* s : {&outlet, &cord, &table, &inlet})
    if (!s->pictures.empty() || !s->rows.empty()) out.push_back(std::move(*s));
  return out;
}

std::vector<FaceSection> all_sections(const std::vector<FaceView>& views, const Facts& facts, const Catalogue& catalogue, const Style& style) {
  const std::vector<Plug> all = plugs(facts.spec);
  std::vector<FaceSection> out;
  for (const Plug& plug : all)
    for (FaceSection& s : sections_of(views, plug, all, facts, catalogue, style)) out.push_back(std::move(s));
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
  const auto cut = [&](Rect, const FacesPen&) { return all_sections(views, facts, catalogue, style); };
  return faces_pages(blank, facts.spec.paper, frame, cut, style, measure);
}

}  // namespace towloom
