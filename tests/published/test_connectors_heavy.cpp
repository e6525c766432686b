// Five-way flat, four- and six-way round, SAE J560, AS 4735, the two-way charge connector: tables 1.2
// to 1.7 and 3.2 of the connector reference and check value 16, typed from there. SAE J560 itself was
// not read: a connector maker's summary and an encyclopedia.
#include <set>

#include "published/faces.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {

const Connector& form(const char* name) { return shipped().connectors.at(name); }

}  // namespace

TEST_CASE("16: J560: stop is contact 4, red, 10 AWG; ground 8 AWG") {
  const ConnectorContact* stop = form("j560").contact("4");
  REQUIRE(stop);
  CHECK(stop->function == "stop");
  CHECK(stop->colour.at("heavy") == "RD");
  CHECK(stop->minimum_size == "10 AWG");
  CHECK(form("j560").contact("1")->minimum_size == "8 AWG");
}

TEST_CASE("1.6, 3.2: J560 and AS 4735, number by number") {
  const struct { const char *number, *function, *colour, *awg, *mm2; } rows[] = {
      {"1", "ground", "WH", "8 AWG", "10 mm2"}, {"2", "marker", "BK", "12 AWG", "4 mm2"},
      {"3", "left", "YE", "12 AWG", "4 mm2"},   {"4", "stop", "RD", "10 AWG", "6 mm2"},
      {"5", "right", "GN", "12 AWG", "4 mm2"},  {"6", "tail", "BN", "12 AWG", "4 mm2"},
      {"7", "ignition", "BU", "10 AWG", "6 mm2"}};
  for (const auto& row : rows) {
    CAPTURE(row.number);
    const ConnectorContact *us = form("j560").contact(row.number), *au = form("au-heavy-7").contact(row.number);
    REQUIRE(us);
    REQUIRE(au);
    CHECK(us->function == row.function);
    CHECK(us->colour.at("heavy") == row.colour);
    CHECK(us->minimum_size == row.awg);
    CHECK(us->gender.at("socket") == "pin");
    CHECK(us->larger == (std::string(row.number) == "1"));
    CHECK(au->colour.at("heavy") == row.colour);
    CHECK(au->minimum_size == row.mm2);
    REQUIRE(au->rating_a);
    CHECK(*au->rating_a == 40);
    if (std::string(row.number) != "7") CHECK(au->function == row.function);
  }
  CHECK(form("au-heavy-7").contact("7")->function == "reverse");
  CHECK(form("au-heavy-7").allocations.at("ignition").contacts.at("7").function == "ignition");
}

TEST_CASE("1.6: the order of J560's ring is from memory: never certain") {
  for (const char* name : {"j560", "j560-aux", "au-heavy-7"})
    for (const ConnectorContact& contact : form(name).contacts) CHECK(contact.position.weak());
  for (const ConnectorContact& contact : form("j560-aux").contacts) CHECK(contact.provenance.weak());
}

TEST_CASE("24: the 20 A and 35 A forms of the four-way round refuse one another") {
  const Connector &light = form("round-4"), &heavy = form("round-4-heavy");
  CHECK(light.rating_a == 20);
  CHECK(heavy.rating_a == 35);
  REQUIRE(light.others.count("round-4-heavy") == 1);
  REQUIRE(heavy.others.count("round-4") == 1);
  CHECK_FALSE(light.others.at("round-4-heavy").mates);
  CHECK_FALSE(heavy.others.at("round-4").mates);
  for (const ConnectorContact& contact : light.contacts) CHECK_FALSE(contact.larger);
  for (const ConnectorContact& contact : heavy.contacts) CHECK(contact.larger == (contact.function == "ground"));
}

TEST_CASE("1.3: four-way round: letters, functions, colours, and two layouts, both weak or without source") {
  const Connector& c = form("round-4");
  const struct { const char *mark, *function, *colour; double degrees, corner; } rows[] = {
      {"GD", "ground", "WH", 180, 225}, {"TM", "tail", "BN", 0, 135}, {"LT", "left", "YE", 270, 315}, {"RT", "right", "GN", 90, 45}};
  for (const auto& row : rows) {
    CAPTURE(row.mark);
    const ConnectorContact* contact = c.contact(row.mark);
    REQUIRE(contact);
    CHECK(contact->function == row.function);
    CHECK(contact->colour.at("automotive") == row.colour);
    const double radians = row.degrees * std::acos(-1.0) / 180, corner = row.corner * std::acos(-1.0) / 180;
    CHECK(std::fabs(contact->x - std::sin(radians)) < 1e-3);
    CHECK(std::fabs(contact->y - std::cos(radians)) < 1e-3);
    CHECK(contact->position.weak());
    const auto [x, y] = c.layouts.at("corners").at.at(contact->number);
    CHECK(std::fabs(x - std::sin(corner)) < 1e-3);
    CHECK(std::fabs(y - std::cos(corner)) < 1e-3);
  }
}

TEST_CASE("1.4: six-way round: A is the centre; three colour sets of S and A; TM at the key") {
  const Connector& c = form("round-6");
  REQUIRE(c.contact("A"));
  CHECK(c.contact("A")->x == 0);
  CHECK(c.contact("A")->y == 0);
  CHECK(c.contact("A")->function == "charge");
  CHECK(c.allocations.at("reverse").contacts.at("6").function == "reverse");
  CHECK(c.allocations.at("auxiliary").contacts.at("6").function == "aux");
  const struct { const char *set, *s, *a; } sets[] = {{"common", "BU", "BK"}, {"centre-red", "BU", "RD"}, {"older", "RD", "BU"}};
  for (const auto& set : sets) {
    CAPTURE(set.set);
    CHECK(c.contact("S")->colour.at(set.set) == set.s);
    CHECK(c.contact("A")->colour.at(set.set) == set.a);
    for (const auto& [mark, colour] : {std::pair{"GD", "WH"}, {"TM", "BN"}, {"LT", "YE"}, {"RT", "GN"}})
      CHECK(c.contact(mark)->colour.at(set.set) == colour);
  }
  CHECK(c.contact("TM")->x == c.key_x);
  CHECK(c.contact("TM")->y > 0.99);
  CHECK(c.contact("S")->position.weak());
  // 1 TM, 2 GND, 3 LT, 4 RT, 5 brake, 6 centre: numbers of one table.
  CHECK(ring(c, false) == "1 5 4 3 2");
}

TEST_CASE("1.2: five-way flat: contact 5 after green, in three colours, each of low confidence") {
  const Connector& c = form("flat-5");
  CHECK(row(c, false, 0) == "1 2 3 4 5");
  const ConnectorContact* fifth = c.contact("5");
  CHECK(fifth->colour.at("fifth-blue") == "BU");
  CHECK(fifth->colour.at("fifth-violet") == "VT");
  CHECK(fifth->colour.at("fifth-red") == "RD");
  for (const auto& [name, set] : c.colour_sets) CHECK(set.provenance.weak());
  CHECK(fifth->gender.at("live") == "sleeve");
  CHECK(fifth->function == "reverse");
}

TEST_CASE("1.5: seven-way blade on older utility trailers") {
  const Connector& c = form("blade-7");
  for (const auto& [mark, colour] : {std::pair{"BAT", "RD"}, {"RT", "GN"}, {"EBR", "BU"}, {"GND", "WH"},
                                     {"LT", "YE"}, {"TAIL", "BN"}, {"REV", "BK"}}) {
    CAPTURE(mark);
    CHECK(c.contact(mark)->colour.at("utility-older") == colour);
  }
}

TEST_CASE("1.7: two-way charge connector: bare on the battery half is negative, on the source half positive") {
  const Connector& c = form("charge-2");
  CHECK(c.contact("-")->gender.at("vehicle") == "pin");
  CHECK(c.contact("+")->gender.at("vehicle") == "sleeve");
  CHECK(c.contact("+")->gender.at("source") == "pin");
}
