// The faces of every form of the catalogue, as `towloom list connectors` draws them.
#include <doctest/doctest.h>

#include <cmath>
#include <map>

#include "prove/prove.hpp"
#include "sheets/faces_fixture.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {

using Places = std::map<std::string, Point>;  // contact -> centre

Places places(const std::vector<Drawing>& pages, const std::string& half, const std::string& view) {
  Places out;
  for (const Drawing& page : pages)
    for (const Item& item : page.items)
      if (const auto* c = std::get_if<ContactFigure>(&item); c && c->connector == half && c->view == view)
        out[c->contact] = c->centre;
  return out;
}

// Both sets are one picture and its mirror image: x to -x about the middle, y kept.
bool mirrored(const Places& a, const Places& b) {
  if (a.size() != b.size() || a.empty()) return false;
  const Mm100 sum = a.begin()->second.x + b.begin()->second.x, down = b.begin()->second.y - a.begin()->second.y;
  for (const auto& [number, at] : a) {
    const auto other = b.find(number);
    if (other == b.end() || std::abs(at.x + other->second.x - sum) > 2 || std::abs(other->second.y - at.y - down) > 2)
      return false;
  }
  return true;
}

int labels_that_say(const Drawing& page, const std::string& text) {
  int out = 0;
  for (const Item& item : page.items)
    if (const auto* l = std::get_if<Label>(&item)) out += l->text == text;
  return out;
}

// Every label of the page as it was drawn, one after the other: a sentence may be broken into lines.
std::string all_text(const Drawing& page) {
  std::string out;
  for (const Item& item : page.items)
    if (const auto* l = std::get_if<Label>(&item)) out += l->text + " ";
  return out;
}

bool crosses(Point a, Point b, const Rect& r) {  // a stretch through the inside of a label's room
  double from = 0, to = 1;
  const double d[2] = {double(b.x - a.x), double(b.y - a.y)}, p[2] = {double(a.x), double(a.y)};
  const double low[2] = {double(r.x) + 20, double(r.y) + 20}, high[2] = {double(r.right()) - 20, double(r.bottom()) - 20};
  for (int i = 0; i < 2; ++i) {
    if (d[i] == 0) {
      if (p[i] <= low[i] || p[i] >= high[i]) return false;
      continue;
    }
    double t1 = (low[i] - p[i]) / d[i], t2 = (high[i] - p[i]) / d[i];
    if (t1 > t2) std::swap(t1, t2);
    from = std::max(from, t1);
    to = std::min(to, t2);
  }
  return from < to;
}

std::vector<std::string> struck(const Drawing& page) {  // labels with a lead through them
  std::vector<const Label*> labels;
  for (const Item& item : page.items)
    if (const auto* l = std::get_if<Label>(&item); l && !l->decoration) labels.push_back(l);
  std::vector<std::string> out;
  for (const Item& item : page.items) {
    const auto* decor = std::get_if<Decor>(&item);
    if (!decor) continue;
    for (const Mark& mark : decor->marks) {
      const auto* shape = std::get_if<Shape>(&mark);
      if (!shape || shape->filled) continue;
      for (size_t i = 1; i < shape->path.size(); ++i)
        if (shape->path[i].kind == PathStep::Kind::line)
          for (const Label* l : labels)
            if (crosses(shape->path[i - 1].a, shape->path[i].a, l->room)) out.push_back(l->text);
    }
  }
  return out;
}

}  // namespace

TEST_CASE("every form: nothing overlaps, four true faces, weak places marked") {
  const Knowledge k = knowledge();
  const TextMeasure measure;
  REQUIRE(measure.ok());
  for (const auto& [name, form] : k.catalogue.connectors) {
    for (const std::string paper : {"a4", "letter", "a3"}) {
      CAPTURE(name);
      CAPTURE(paper);
      const auto pages = form_sheet(form, paper, k.catalogue, k.style, measure);
      for (const Drawing& page : pages) {
        for (const Defect& d : prove_geometry(page)) FAIL_CHECK(d.kind << ": " << d.message);
        for (const std::string& text : struck(page)) FAIL_CHECK("a lead runs through \"" << text << "\"");
      }
      const std::string a = form.view_half, b = mate_of(form, a)->name;
      const Places faces[] = {places(pages, a, "mating"), places(pages, a, "wire"), places(pages, b, "mating"),
                              places(pages, b, "wire")};
      for (const Places& face : faces) CHECK(face.size() == form.contacts.size());
      CHECK(mirrored(faces[0], faces[1]));
      CHECK(mirrored(faces[0], faces[2]));
      CHECK(mirrored(faces[1], faces[3]));
      // To scale with the catalogue's own figures: y up there, down here.
      const ConnectorContact &first = form.contacts.front(), &last = form.contacts.back();
      const double dx = last.x - first.x, dy = last.y - first.y;
      const Point p = faces[0].at(first.number), q = faces[0].at(last.number);
      CHECK(std::fabs((q.x - p.x) * -dy - (q.y - p.y) * dx) <= 4 * (std::fabs(dx) + std::fabs(dy)));
      CHECK(((q.x - p.x) * dx - (q.y - p.y) * dy > 0) == (form.contacts.size() > 1));
      int warned = 0, titled = 0;
      for (const Drawing& page : pages) {
        warned += labels_that_say(page, "Match the moulded letters.");
        titled += labels_that_say(page, "MATING FACE");
      }
      CHECK(titled == 2);
      CHECK(warned == (form.contacts.front().position.weak() ? 2 : 0));
    }
  }
}

TEST_CASE("the poster holds every form once, both halves, without a defect") {
  const Knowledge k = knowledge();
  const TextMeasure measure;
  REQUIRE(measure.ok());
  const Drawing poster = connector_poster(k.catalogue, k.style, measure);
  for (const Defect& d : prove_geometry(poster)) FAIL_CHECK(d.kind << ": " << d.message);
  for (const std::string& text : struck(poster)) FAIL_CHECK("a lead runs through \"" << text << "\"");
  size_t drawn = 0, known = 0;
  for (const Item& item : poster.items) drawn += std::holds_alternative<ContactFigure>(item);
  for (const auto& [name, form] : k.catalogue.connectors) known += 2 * form.contacts.size();
  CHECK(drawn == known);
}

TEST_CASE("every form as outlet and inlet of a job: pages without a defect") {
  const Knowledge k = knowledge();
  const TextMeasure measure;
  REQUIRE(measure.ok());
  for (const auto& [name, form] : k.catalogue.connectors) {
    for (const std::string paper : {"a4", "letter"}) {
      CAPTURE(name);
      CAPTURE(paper);
      Facts facts = faces_facts(form, form.inlet_half);
      facts.spec.paper = paper;
      for (const Drawing& page : faces_sheet(facts, k.catalogue, k.style, measure, 1)) {
        for (const Defect& d : prove_geometry(page)) FAIL_CHECK(d.kind << ": " << d.message);
        for (const std::string& text : struck(page)) FAIL_CHECK("a lead runs through \"" << text << "\"");
      }
    }
  }
}

TEST_CASE("a contact that was found to carry something else says so, with the reason") {
  const Knowledge k = knowledge();
  const TextMeasure measure;
  Facts facts = faces_facts(k.catalogue.connectors.at("blade-7"), "");
  FoundContact found;
  found.contact = {"3", {}};
  found.does = PlacedText{"left", {}};
  found.note = "rewired by a former owner";
  facts.spec.coach.found.push_back(found);
  for (Part& p : facts.sized.circuit.parts)
    if (p.group == "J1" && p.contact == "3") p.function = "left";
  const auto pages = faces_sheet(facts, k.catalogue, k.style, measure, 1);
  int said = 0;
  for (const Drawing& page : pages) said += all_text(page).find("J1: Contact 3: left stop/turn, as found; the catalogue has tail: rewired by a former owner.") != std::string::npos;
  CHECK(said == 1);
}

TEST_CASE("facts without a good source are named on the sheet of the form") {
  const Knowledge k = knowledge();
  const TextMeasure measure;
  const auto said = [&](const char* form, const std::string& text) {
    int out = 0;
    for (const Drawing& page : form_sheet(k.catalogue.connectors.at(form), "a3", k.catalogue, k.style, measure))
      out += labels_that_say(page, text);
    return out;
  };
  CHECK(said("j560", "No good source, look at the part and meter it: places, pins and sleeves, shapes, key, lid.") == 1);
  CHECK(said("iso-13", "No good source, look at the part and meter it: functions, pins and sleeves, shapes, lid, ratings.") == 1);
  CHECK(said("blade-7", "No good source, look at the part and meter it: lid.") == 1);
  CHECK(said("flat-4", "No good source, look at the part and meter it: lid.") == 0);
}
