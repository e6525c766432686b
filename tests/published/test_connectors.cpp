// Check values 1 to 7 and 26 of the connector reference (connectors.md 8), typed from there.
// Sources: a retailer's thread of 2 Sep 2009 where a seven-way socket was metered pin by pin; a
// trailer dealer's table; a connector maker's summary of SAE J1239 and the standard's own abstract.
// Where each of the 26 values is held, test by its number:
//   1 to 7, 26    here
//   8 to 15, 17   test_connectors_iso.cpp
//   16, 24        test_connectors_heavy.cpp; 24 also catalogue/test_mating.cpp
//   18 to 20      test_flash.cpp
//   21 to 23      test_colours.cpp
//   25            test_designations.cpp; as a fitter types it, commands/test_list.cpp
#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "published/faces.hpp"

using namespace towloom;
using towloom::testing::shipped;
using Words = std::vector<std::string>;

namespace {

const Connector& blade() { return shipped().connectors.at("blade-7"); }
const Connector& flat() { return shipped().connectors.at("flat-4"); }

// Functions of the ring, clockwise from the notch as the eye sees them; `mirror` turns the face.
Words clockwise(const Connector& connector, bool mirror) {
  const double pi = std::acos(-1.0), sign = mirror ? -1 : 1;
  const double notch = std::atan2(sign * connector.key_x, connector.key_y);
  std::vector<std::pair<double, std::string>> ring;
  for (const ConnectorContact& c : connector.contacts) {
    if (c.x == 0 && c.y == 0) continue;
    double angle = std::atan2(sign * c.x, c.y) - notch;  // clockwise from 12 o'clock, y up
    if (angle < 0) angle += 2 * pi;
    ring.emplace_back(angle, c.function);
  }
  std::sort(ring.begin(), ring.end());
  Words out;
  for (const auto& [angle, function] : ring) out.push_back(function);
  return out;
}

std::string colour(const char* function, const char* convention) {
  for (const ConnectorContact& c : blade().contacts)
    if (c.function == function) return c.colour.at(convention);
  return "";
}

Words colours(const Words& functions, const char* convention) {
  Words out;
  for (const std::string& f : functions) out.push_back(colour(f.c_str(), convention));
  return out;
}

}  // namespace

TEST_CASE(
    "1: seven-way blade, socket's mating face, clockwise from the notch; reverse in the centre") {
  CHECK(blade().view_half == "socket");
  CHECK(blade().key == "notch");
  CHECK(clockwise(blade(), false) == Words{"charge", "right", "brake", "ground", "left", "tail"});
  for (const ConnectorContact& c : blade().contacts)
    CHECK((c.x == 0 && c.y == 0) == (c.function == "reverse"));
}

TEST_CASE("2: seven-way blade, plug's mating face: the mirror") {
  CHECK(clockwise(blade(), true) == Words{"tail", "left", "ground", "brake", "right", "charge"});
}

TEST_CASE(
    "connectors.md 1.5: ring at 30, 90 ... degrees on the contact circle, notch at 12 o'clock") {
  CHECK(blade().key_x == 0);
  CHECK(blade().key_y > 1);
  const struct {
    const char* number;
    double degrees;
  } rows[] = {{"4", 30}, {"6", 90}, {"2", 150}, {"1", 210}, {"5", 270}, {"3", 330}};
  for (const auto& row : rows) {
    CAPTURE(row.number);
    const ConnectorContact* c = blade().contact(row.number);
    REQUIRE(c);
    const double radians = row.degrees * std::acos(-1.0) / 180;
    CHECK(std::fabs(c->x - std::sin(radians)) < 1e-3);
    CHECK(std::fabs(c->y - std::cos(radians)) < 1e-3);
  }
}

TEST_CASE("connectors.md 1.5: numbers 1 to 7 of the seven-way blade (three sources)") {
  const Words expected = {"ground", "brake", "tail", "charge", "left", "right", "reverse"};
  REQUIRE(blade().contacts.size() == 7);
  for (std::size_t i = 0; i < 7; ++i) {
    const ConnectorContact* c = blade().contact(std::to_string(i + 1));
    REQUIRE(c);
    CHECK(c->function == expected[i]);
  }
}

TEST_CASE("3: the two colour conventions give green, brown and yellow other functions") {
  const Words functions = {"tail", "left", "right", "reverse"};
  CHECK(colours(functions, "automotive") == Words{"BN", "YE", "GN", "VT"});
  CHECK(colours(functions, "rv-industry") == Words{"GN", "RD", "BN", "YE"});
}

TEST_CASE("4: ground, brake and charge have the same colours in both conventions") {
  for (const char* convention : {"automotive", "rv-industry"})
    CHECK(colours({"ground", "brake", "charge"}, convention) == Words{"WH", "BU", "BK"});
}

TEST_CASE("5: seven-way blade, wire sizes by number") {
  const Words awg = {"10 AWG", "12 AWG", "14 AWG", "10 AWG", "14 AWG", "14 AWG", "14 AWG"};
  for (std::size_t i = 0; i < 7; ++i) {
    const ConnectorContact* c = blade().contact(std::to_string(i + 1));
    REQUIRE(c);
    CHECK(c->minimum_size == awg[i]);
  }
}

TEST_CASE(
    "6: four-way flat: only ground is bare on the live half; the trailer half has 3 bare pins") {
  int bare_live = 0, bare_trailer = 0;
  for (const ConnectorContact& c : flat().contacts) {
    bare_live += c.gender.at("live") == "pin";
    bare_trailer += c.gender.at("trailer") == "pin";
    CHECK((c.gender.at("live") == "pin") == (c.function == "ground"));
  }
  CHECK(bare_live == 1);
  CHECK(bare_trailer == 3);
  // 0.3: a bonded pigtail on the towed car is the trailer half; the coach has the live one.
  CHECK(flat().outlet_half == "live");
  CHECK(flat().inlet_half == "trailer");
}

TEST_CASE(
    "7: four-way flat, order from the ground end, J1239 sizes, 7.5 A a running-lamp circuit") {
  std::vector<const ConnectorContact*> row;
  for (const ConnectorContact& c : flat().contacts) row.push_back(&c);
  std::sort(row.begin(), row.end(), [](const auto* a, const auto* b) { return a->x < b->x; });
  Words functions, letters, sizes;
  for (const ConnectorContact* c : row) {
    functions.push_back(c->function);
    letters.push_back(c->colour.at("automotive"));
    sizes.push_back(c->minimum_size);
  }
  CHECK(functions == Words{"ground", "tail", "left", "right"});
  CHECK(letters == Words{"WH", "BN", "YE", "GN"});  // live half, white at the left: 1.1
  CHECK(sizes == Words{"16 AWG", "18 AWG", "18 AWG", "18 AWG"});
  CHECK(flat().view_half == "live");
  CHECK(flat().rating_a == 7.5);
}

TEST_CASE("26: 16 AWG is 1.309 mm2 (ASTM B258), though J1239 names it 1 mm2") {
  const auto name = parse_wire_size(flat().contact("1")->minimum_size);
  REQUIRE(name);
  const WireSize* size = shipped().wires.at("AWG").find(*name);
  REQUIRE(size);
  CHECK(std::fabs(size->area_mm2 - 1.309) < 5e-4);
}

TEST_CASE("electrical.md 8: a new connector contact has 2 to 5 mohm") {
  for (const Connector* c : {&blade(), &flat()}) {
    CHECK(c->contact_ohm >= 0.002);
    CHECK(c->contact_ohm <= 0.005);
  }
}

TEST_CASE("connectors.md 1.1: four bullets in one row, equal pitch") {
  const struct {
    const char* number;
    double x;
  } rows[] = {{"1", -1.5}, {"2", -0.5}, {"3", 0.5}, {"4", 1.5}};
  for (const auto& row : rows) {
    CAPTURE(row.number);
    const ConnectorContact* c = flat().contact(row.number);
    REQUIRE(c);
    CHECK(c->x == row.x);
    CHECK(c->y == 0);
  }
}

TEST_CASE("connectors.md 1.5: usual ratings of the seven-way blade, A") {
  const double amps[] = {30, 30, 20, 30, 20, 20, 10};  // upper end of each range; ground = brake's
  for (std::size_t i = 0; i < 7; ++i) {
    CAPTURE(i);
    const ConnectorContact* c = blade().contact(std::to_string(i + 1));
    REQUIRE(c);
    REQUIRE(c->rating_a);
    CHECK(*c->rating_a == amps[i]);
  }
}
