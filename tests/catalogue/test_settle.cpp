// What a job says of its outlet and inlet: pins and positions as found, on the face that the fitter looks at.
#include <cmath>

#include "catalogue/cord.hpp"
#include "catalogue/settle.hpp"
#include "catalogue/shipped.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {

struct Settled {
  Catalogue catalogue = shipped();
  Spec spec;
  Diagnostics diagnostics;
  bool good = false;
  const Connector& outlet() const { return catalogue.connectors.at(spec.coach.outlet.form.value); }
};

using Rows = std::vector<std::pair<PlacedText, PlacedText>>;

Settled settled(const char* form, const char* half, const Rows& pins, const Rows& positions) {
  Settled s;
  s.spec.coach.outlet.form.value = form;
  s.spec.coach.outlet.half = PlacedText{half, {}};
  s.spec.coach.outlet.pins = pins;
  s.spec.coach.outlet.positions = positions;
  s.spec.coach.outlet.why = PlacedText{"letters read on the part", {}};
  s.spec.car.inlet.form.value = form;
  s.good = settle_job(s.spec, s.catalogue, s.diagnostics);
  return s;
}

bool stands(const Connector& c, const char* contact, double degrees) {
  const double angle = degrees * std::acos(-1.0) / 180;
  const ConnectorContact& k = *c.contact(contact);
  return std::fabs(k.x - std::sin(angle)) < 1e-6 && std::fabs(k.y - std::cos(angle)) < 1e-6;
}

// The second layout met in fitting (connectors.md 1.3): LT upper left, RT upper right, GD lower left, TM lower right.
const Rows corners = {{{"LT", {}}, {"10:30 o'clock", {}}}, {{"RT", {}}, {"1:30 o'clock", {}}},
                      {{"GD", {}}, {"7:30 o'clock", {}}}, {{"TM", {}}, {"4:30 o'clock", {}}}};

}  // namespace

TEST_CASE("positions on a four-way round, read on the socket's mating face: clockwise from 12 o'clock") {
  const Settled s = settled("round-4", "socket", {}, corners);
  REQUIRE(s.good);
  CHECK(stands(s.outlet(), "LT", 315));
  CHECK(stands(s.outlet(), "RT", 45));
  CHECK(stands(s.outlet(), "GD", 225));
  CHECK(stands(s.outlet(), "TM", 135));
  for (const ConnectorContact& c : s.outlet().contacts) CHECK_FALSE(c.position.weak());   // no longer a guess
  CHECK(s.outlet().form == "round-4");   // it still mates its form
  CHECK(s.catalogue.connectors.at("round-4").contact("LT")->position.weak());   // the catalogue is as it was
}

TEST_CASE("read on a plug's mating face the same words mean the mirror image") {
  const Settled s = settled("round-4", "plug", {}, corners);
  REQUIRE(s.good);
  REQUIRE(s.outlet().view_half == "socket");
  CHECK(stands(s.outlet(), "LT", 45));
  CHECK(stands(s.outlet(), "GD", 135));
}

TEST_CASE("one contact found where the catalogue has another: the other's position must be said too") {
  CHECK_FALSE(settled("round-4", "socket", {}, {{{"LT", {}}, {"3 o'clock", {}}}}).good);   // RT stands there
  CHECK(settled("round-4", "socket", {}, {{{"LT", {}}, {"3 o'clock", {}}}, {{"RT", {}}, {"9 o'clock", {}}}}).good);
}

TEST_CASE("positions that are none") {
  for (const char* text : {"13 o'clock", "0 o'clock", "3:60 o'clock", "3", "o'clock", "2 from left", "3:-1 o'clock", "3 o'clock "}) {
    CAPTURE(text);
    CHECK_FALSE(settled("round-4", "socket", {}, {{{"LT", {}}, {text, {}}}}).good);
  }
  for (const char* text : {"0 from left", "5 from left", "3 o'clock", "centre"}) {
    CAPTURE(text);
    CHECK_FALSE(settled("flat-4", "live", {}, {{{"3", {}}, {text, {}}}}).good);
  }
}

TEST_CASE("a pin that the job uses otherwise overrides the form, with the job's reason as its source") {
  const Settled s = settled("round-6", "socket", {{{"S", {}}, {"stop", {}}}}, {});
  REQUIRE(s.good);
  const ConnectorContact& c = *s.outlet().contact("S");
  CHECK(c.function == "stop");
  CHECK(c.stated);
  CHECK(c.provenance.source == "as found: letters read on the part");
  CHECK(s.catalogue.connectors.at("round-6").contact("S")->function == "brake");
}

TEST_CASE("a cord is made for the form: its core still lies on a contact that the job uses otherwise, and is crossed") {
  const Settled s = settled("round-6", "socket", {{{"S", {}}, {"aux", {}}}}, {});
  REQUIRE(s.good);
  Spec spec;
  int met = 0;
  for (const CordCore& core : job_cord(spec, shipped().connectors.at("blade-7"), s.outlet()).cores)
    if (core.to->mark == "S") {
      ++met;
      CHECK(core.from->mark == "EBR");
      CHECK(core.crossed);
    }
  CHECK(met == 1);
}

TEST_CASE("a contact that the job states takes a core that the form's cord leaves free") {
  const Settled s = settled("round-6", "socket", {{{"S", {}}, {"stop", {}}}}, {});
  REQUIRE(s.good);
  std::string stop;
  for (const CordCore& core : job_cord(Spec{}, shipped().connectors.at("j560"), s.outlet()).cores)
    if (core.to->mark == "S") stop += core.from->number + (core.crossed ? " crossed" : "");
  CHECK(stop == "4");
}
