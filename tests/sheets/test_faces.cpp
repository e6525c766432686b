// Pin faces against orders written by hand from the reference: connectors.md 1.1 (four-way flat),
// check values 1 and 2 (seven-way blade, clockwise from the notch).
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "prove/prove.hpp"
#include "sheets/faces_fixture.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {

const FaceView& view_of(const std::vector<FaceView>& views, Site site, View view) {
  for (const FaceView& v : views)
    if (v.site == site && v.view == view) return v;
  throw std::out_of_range("no such view");
}

std::string left_to_right(const FaceView& v) {
  std::map<double, std::string> row;
  for (const FaceContact& c : v.contacts) row[c.x] = c.colour;
  std::string out;
  for (const auto& [x, colour] : row) out += (out.empty() ? "" : " ") + colour;
  return out;
}

// Moulded letters clockwise from the notch, which is at the top of every view; the centre last.
std::string clockwise(const FaceView& v) {
  std::map<double, std::string> ring;
  std::string centre;
  for (const FaceContact& c : v.contacts) {
    const double angle = std::atan2(c.x, c.y) * 180 / 3.14159265358979;
    if (std::hypot(c.x, c.y) < 0.1)
      centre = c.contact->mark;
    else
      ring[angle < 0 ? angle + 360 : angle] = c.contact->mark;
  }
  std::string out;
  for (const auto& [angle, mark] : ring) out += mark + " ";
  return out + centre;
}

std::vector<const ContactFigure*> figures(const std::vector<Drawing>& pages,
                                          const std::string& connector, const std::string& view) {
  std::vector<const ContactFigure*> out;
  for (const Drawing& page : pages)
    for (const Item& i : page.items)
      if (const auto* c = std::get_if<ContactFigure>(&i);
          c && c->connector == connector && c->view == view)
        out.push_back(c);
  return out;
}

double spread(const std::vector<const ContactFigure*>& all) {
  Mm100 low = all.at(0)->centre.x, high = low;
  for (const ContactFigure* c : all) {
    low = std::min(low, c->centre.x);
    high = std::max(high, c->centre.x);
  }
  return to_mm(high - low);
}

}  // namespace

TEST_CASE("the mirror of the mirror is the original") {
  const Knowledge k = knowledge();
  for (const auto& [name, form] : k.catalogue.connectors) {
    CAPTURE(name);
    REQUIRE(form.halves.size() == 2);
    const std::string other = mate_of(form, form.view_half)->name;
    CHECK(mate_of(form, other)->name == form.view_half);
    for (double x : {-1.5, -0.5, 0.0, 0.866, 1.0}) {
      CHECK(seen_x(form, form.view_half, View::mating, x) == x);
      for (const std::string& half : {form.view_half, other}) {
        const double mating = seen_x(form, half, View::mating, x),
                     wire = seen_x(form, half, View::wire, x);
        CHECK(mating == -wire);
        CHECK(seen_x(form, half, View::mating, seen_x(form, half, View::mating, x)) == x);
        CHECK(seen_x(form, half, View::wire, seen_x(form, half, View::wire, x)) == x);
      }
      // One half's mating face is the other's wire side (connectors.md 0.2).
      CHECK(seen_x(form, form.view_half, View::mating, x) == seen_x(form, other, View::wire, x));
      CHECK(seen_x(form, form.view_half, View::wire, x) == seen_x(form, other, View::mating, x));
    }
  }
}

TEST_CASE("four-way flat: white is at the left of the live half's face") {
  const Knowledge k = knowledge();
  const Facts facts = faces_facts(k.catalogue.connectors.at("flat-4"), "trailer");
  const auto views = face_views(facts, k.catalogue, k.style);
  REQUIRE(views.size() == 8);
  CHECK(view_of(views, Site::outlet, View::mating).half->name == "live");
  CHECK(view_of(views, Site::cord_at_outlet, View::mating).half->name == "trailer");
  CHECK(view_of(views, Site::cord_at_inlet, View::mating).half->name == "live");
  CHECK(view_of(views, Site::inlet, View::mating).half->name == "trailer");
  CHECK(left_to_right(view_of(views, Site::outlet, View::mating)) == "WH BN YE GN");
  CHECK(left_to_right(view_of(views, Site::outlet, View::wire)) == "GN YE BN WH");
  CHECK(left_to_right(view_of(views, Site::cord_at_outlet, View::mating)) == "GN YE BN WH");
  CHECK(left_to_right(view_of(views, Site::cord_at_inlet, View::mating)) == "WH BN YE GN");
  CHECK(left_to_right(view_of(views, Site::inlet, View::mating)) == "GN YE BN WH");
  CHECK(left_to_right(view_of(views, Site::inlet, View::wire)) == "WH BN YE GN");
}

TEST_CASE("four-way flat: only the ground is bare on the live half") {  // check value 6
  const Knowledge k = knowledge();
  const auto views =
      face_views(faces_facts(k.catalogue.connectors.at("flat-4"), "trailer"), k.catalogue, k.style);
  const auto bare = [](const FaceView& v) {
    std::set<std::string> out;
    for (const FaceContact& c : v.contacts)
      if (c.gender == "pin") out.insert(c.function);
    return out;
  };
  CHECK(bare(view_of(views, Site::outlet, View::mating)) == std::set<std::string>{"ground"});
  CHECK(bare(view_of(views, Site::inlet, View::mating)) ==
        std::set<std::string>{"tail", "left", "right"});
}

TEST_CASE("seven-way blade: clockwise from the notch") {
  const Knowledge k = knowledge();
  const auto views =
      face_views(faces_facts(k.catalogue.connectors.at("blade-7"), ""), k.catalogue, k.style);
  REQUIRE(views.size() == 8);
  const std::string socket = "BAT RT EBR GND LT TAIL REV", plug = "TAIL LT GND EBR RT BAT REV";
  CHECK(view_of(views, Site::outlet, View::mating).half->name == "socket");
  CHECK(view_of(views, Site::inlet, View::mating).half->name ==
        "socket");  // 0.3: not mirrored on the car
  CHECK(clockwise(view_of(views, Site::outlet, View::mating)) == socket);
  CHECK(clockwise(view_of(views, Site::outlet, View::wire)) == plug);
  CHECK(clockwise(view_of(views, Site::cord_at_outlet, View::mating)) == plug);
  CHECK(clockwise(view_of(views, Site::cord_at_outlet, View::wire)) == socket);
  CHECK(clockwise(view_of(views, Site::inlet, View::mating)) == socket);
  CHECK(clockwise(view_of(views, Site::inlet, View::wire)) == plug);
}

TEST_CASE("each contact tells the wire that lands on it") {
  const Knowledge k = knowledge();
  const auto views =
      face_views(faces_facts(k.catalogue.connectors.at("blade-7"), ""), k.catalogue, k.style);
  const auto wire = [&](Site site, const std::string& mark) {
    for (const FaceContact& c : view_of(views, site, View::wire).contacts)
      if (c.contact->mark == mark) return c.used ? c.wire : "unused";
    return std::string("none");
  };
  CHECK(wire(Site::outlet, "LT") == "M5");
  CHECK(wire(Site::cord_at_outlet, "LT") == "C5");
  CHECK(wire(Site::cord_at_inlet, "LT") == "C5");
  CHECK(wire(Site::inlet, "LT") == "W5");
  CHECK(wire(Site::inlet, "EBR") == "unused");
}

TEST_CASE("cord continuity follows the cores, also where they are swapped") {
  const Knowledge k = knowledge();
  Facts facts = faces_facts(k.catalogue.connectors.at("flat-4"), "trailer");
  Circuit& circuit = facts.sized.circuit;
  Wire *c3 = nullptr, *c4 = nullptr;
  for (Wire& w : circuit.wires) {
    if (w.id == "C3") c3 = &w;
    if (w.id == "C4") c4 = &w;
  }
  REQUIRE(c3 != nullptr);
  REQUIRE(c4 != nullptr);
  std::swap(c3->to, c4->to);
  const auto rows = cord_rows(facts, k.catalogue, plugs(facts.spec)[0]);
  REQUIRE(rows.size() == 4);
  std::string met;
  for (const CoreRow& r : rows)
    met += r.core + ":" + r.outlet + ">" + r.inlet + " " + r.colour + (r.crossed ? " crossed; " : "; ");
  CHECK(met == "C1:1>1 WH; C2:2>2 BN; C3:3>4 YE crossed; C4:4>3 GN crossed; ");
}

TEST_CASE("sheets: nothing overlaps, every face drawn once, the wired side twice as large") {
  const Knowledge k = knowledge();
  const TextMeasure measure;
  REQUIRE(measure.ok());
  for (const std::string form : {"flat-4", "blade-7"}) {
    for (const std::string paper : {"a4", "letter"}) {
      CAPTURE(form);
      CAPTURE(paper);
      const Connector& connector = k.catalogue.connectors.at(form);
      Facts facts = faces_facts(connector, form == "flat-4" ? "trailer" : "");
      facts.spec.paper = paper;
      const auto pages = faces_sheet(facts, k.catalogue, k.style, measure, 1);
      CHECK(pages.size() <= 3);
      for (const Drawing& page : pages)
        for (const Defect& d : prove_geometry(page)) FAIL_CHECK(d.kind << ": " << d.message);
      for (const std::string name : {"J1", "P1", "P2", "J2"})
        for (const std::string view : {"mating", "wire"})
          CHECK(figures(pages, name, view).size() == connector.contacts.size());
      const double mating = spread(figures(pages, "J2", "mating")),
                   wired = spread(figures(pages, "J2", "wire"));
      CHECK(wired / mating == doctest::Approx(2).epsilon(0.01));
      CHECK(spread(figures(pages, "P1", "mating")) < mating);
    }
  }
}
