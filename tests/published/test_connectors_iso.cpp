// ISO 1724 (12N), ISO 3732 (12S) and ISO 11446, and the Australian rounds and flats that share their
// shells: check values 8 to 15 and 17 of the connector reference (connectors.md 8) and its tables 2.1
// to 3.2, typed from there. The standards themselves were not read: two connector makers' and two
// encyclopedias' tables, and wiring sheets.
#include <set>

#include "published/faces.hpp"

using namespace towloom;
using namespace towloom::testing;
using Numbers = std::set<std::string>;

namespace {

const Connector& form(const char* name) { return shipped().connectors.at(name); }

Numbers of_gender(const Connector& c, const char* half, const char* gender) {
  Numbers out;
  for (const ConnectorContact& contact : c.contacts)
    if (contact.gender.at(half) == gender) out.insert(contact.number);
  return out;
}

Numbers of_size(const Connector& c, const char* size) {
  Numbers out;
  for (const ConnectorContact& contact : c.contacts)
    if (contact.minimum_size == size) out.insert(contact.number);
  return out;
}

struct Row {
  const char *number, *function, *terminal, *colour;
};
void check_rows(const Connector& c, const char* convention, const std::vector<Row>& rows) {
  REQUIRE(c.contacts.size() == rows.size());
  for (const Row& row : rows) {
    CAPTURE(row.number);
    const ConnectorContact* contact = c.contact(row.number);
    REQUIRE(contact);
    CHECK(contact->number == row.number);
    CHECK(contact->function == row.function);
    CHECK(contact->terminal == row.terminal);
    CHECK(contact->colour.at(convention) == row.colour);
  }
}

}  // namespace

TEST_CASE("8: tubes of the 12N plug are 2, 5 and 7; of the 12S plug 2 and 5") {
  CHECK(of_gender(form("iso-12n"), "plug", "sleeve") == Numbers{"2", "5", "7"});
  CHECK(of_gender(form("iso-12n"), "socket", "pin") == Numbers{"2", "5", "7"});
  CHECK(of_gender(form("iso-12s"), "plug", "sleeve") == Numbers{"2", "5"});
  CHECK(of_gender(form("iso-12s"), "plug", "pin") == Numbers{"1", "3", "4", "6", "7"});
}

TEST_CASE("9: 12N, socket's face clockwise from the top, notch at 6 o'clock, 7 in the centre") {
  const Connector& c = form("iso-12n");
  CHECK(c.view_half == "socket");
  CHECK(ring(c, false) == "1 2 3 4 5 6");
  CHECK(ring(c, true) == "1 6 5 4 3 2");
  CHECK(c.key_x == 0);
  CHECK(c.key_y < -1);
  CHECK(c.contact("7")->x == 0);
  CHECK(c.contact("7")->y == 0);
  CHECK_FALSE(c.contact("1")->position.weak());
}

TEST_CASE("2.1: ISO 1724 contacts, terminals of DIN 72552 and colours") {
  check_rows(form("iso-12n"), "iso",
             {{"1", "left", "L", "YE"}, {"2", "fog", "54g", "BU"}, {"3", "ground", "31", "WH"},
              {"4", "right", "R", "GN"}, {"5", "right-tail", "58R", "BN"}, {"6", "stop", "54", "RD"},
              {"7", "left-tail", "58L", "BK"}});
}

TEST_CASE("2.1: a terminal's designation finds its contact, and a number wins") {
  const Connector& c = form("iso-12n");
  CHECK(c.contact("58L") == c.contact("7"));
  CHECK(c.contact("31") == c.contact("3"));
  const Connector& wide = form("iso-13");
  CHECK(wide.contact("30") == wide.contact("9"));
  CHECK(wide.contact("15") == wide.contact("10"));
}

TEST_CASE("10: 2.5 mm2 on contact 3 of 12N and on 3, 9, 10, 11, 13 of the thirteen-way") {
  CHECK(of_size(form("iso-12n"), "2.5 mm2") == Numbers{"3"});
  CHECK(of_size(form("iso-12n"), "1.5 mm2") == Numbers{"1", "2", "4", "5", "6", "7"});
  CHECK(of_size(form("iso-13"), "2.5 mm2") == Numbers{"3", "9", "10", "11", "13"});
  CHECK(of_size(form("iso-13"), "1.5 mm2") == Numbers{"1", "2", "4", "5", "6", "7", "8"});
  CHECK(form("iso-13").contact("12")->minimum_size.empty());
}

TEST_CASE("11: the thirteen-way's returns 3, 11 and 13 stay apart") {
  const auto& apart = form("iso-13").separate_returns;
  CHECK(Numbers(apart.begin(), apart.end()) == Numbers{"3", "11", "13"});
}

TEST_CASE("12: thirteen-way, socket's face clockwise from the top; the key between 12 and 13") {
  const Connector& c = form("iso-13");
  CHECK(ring(c, false) == "8 9 10 11 12 13 5 6 7");
  CHECK(ring(c, true) == "8 7 6 5 13 12 11 10 9");
  CHECK(c.key_y < -1);
  // Inner contacts as measured on two pictures: within 0.02 of the table's x and y.
  const struct { const char* number; double x, y; } inner[] = {
      {"1", 0, .380}, {"2", .369, -.127}, {"3", 0, -.630}, {"4", -.369, -.127}};
  for (const auto& row : inner) {
    CAPTURE(row.number);
    CHECK(std::fabs(c.contact(row.number)->x - row.x) <= 0.02);
    CHECK(std::fabs(c.contact(row.number)->y - row.y) <= 0.02);
  }
}

TEST_CASE("13: contacts 1 to 7 of the thirteen-way are those of 12N") {
  for (const char* number : {"1", "2", "3", "4", "5", "6", "7"}) {
    CAPTURE(number);
    const ConnectorContact *a = form("iso-12n").contact(number), *b = form("iso-13").contact(number);
    CHECK(a->function == b->function);
    CHECK(a->colour.at("iso") == b->colour.at("iso"));
    CHECK(a->terminal == b->terminal);
  }
}

TEST_CASE("2.3: ISO 11446 contacts 8 to 13; contact 12 both ways") {
  const Connector& c = form("iso-13");
  const struct { const char *number, *function, *colour; } rows[] = {
      {"8", "reverse", "PK"},          {"9", "charge", "OG"},    {"10", "ignition", "GY"},
      {"11", "ignition-return", "WH/BK"}, {"13", "charge-return", "WH/RD"}};
  for (const auto& row : rows) {
    CAPTURE(row.number);
    CHECK(c.contact(row.number)->function == row.function);
    CHECK(c.contact(row.number)->colour.at("iso") == row.colour);
  }
  CHECK(c.contact("12")->function == "reserved");
  CHECK(c.contact("12")->provenance.weak());
  CHECK(c.allocations.at("coding").contacts.at("12").function == "coding");
  CHECK(c.allocations.at("coding").provenance.weak());
}

TEST_CASE("2.2: ISO 3732 contacts, the older use, and the longer centre pin") {
  const Connector& c = form("iso-12s");
  check_rows(c, "iso",
             {{"1", "reverse", "", "YE"}, {"2", "spare", "", "BU"}, {"3", "charge-return", "", "WH"},
              {"4", "charge", "", "GN"}, {"5", "spare", "", "BN"}, {"6", "ignition", "", "RD"},
              {"7", "ignition-return", "", "BK"}});
  CHECK(c.allocations.at("older").contacts.at("2").function == "charge");
  for (const ConnectorContact& contact : c.contacts) CHECK(contact.longer == (contact.number == "7"));
}

TEST_CASE("14: Australian flat, socket from behind left to right, and its mirror") {
  const Connector& seven = form("au-flat-7");
  CHECK(seven.view_half == "socket");
  CHECK(row(seven, true, 0) == "1 6 5 3 2 7 4");
  CHECK(row(seven, false, 0) == "4 7 2 3 5 6 1");
  const Connector& twelve = form("au-flat-12");
  CHECK(row(twelve, true, -0.6) == "1 6 5 3 2 7 4");
  CHECK(row(twelve, true, 0.6) == "8 9 10 11 12");
  CHECK(row(twelve, false, 0.6) == "12 11 10 9 8");
  CHECK(seven.contact("1")->position.weak());  // which side the sheets show rests on one remark
}

TEST_CASE("3.2: Australian flats hold pins in the socket; upper pitch to lower as 7 to 5") {
  for (const char* name : {"au-flat-7", "au-flat-12"})
    for (const ConnectorContact& contact : form(name).contacts) {
      CHECK(contact.gender.at("socket") == "pin");
      CHECK(contact.gender.at("plug") == "sleeve");
    }
  const Connector& c = form("au-flat-12");
  const double upper = c.contact("8")->x - c.contact("9")->x, lower = c.contact("1")->x - c.contact("6")->x;
  CHECK(upper / lower == doctest::Approx(7.0 / 5));
}

TEST_CASE("3.1: Australian functions and colours of the seven and of 8 to 12") {
  const std::vector<Row> seven = {{"1", "left", "", "YE"},  {"2", "reverse", "", "BK"}, {"3", "ground", "", "WH"},
                                  {"4", "right", "", "GN"}, {"5", "brake", "", "BU"},   {"6", "stop", "", "RD"},
                                  {"7", "tail", "", "BN"}};
  for (const char* name : {"au-flat-7", "au-round-large", "au-round-small"})
    check_rows(form(name), "australian", seven);
  std::vector<Row> twelve = seven;
  for (const Row& more : {Row{"8", "charge", "", "OG"}, Row{"9", "battery", "", "PK"}, Row{"10", "charge-return", "", "WH"},
                          Row{"11", "fog", "", "GY"}, Row{"12", "aux", "", "VT"}})
    twelve.push_back(more);
  check_rows(form("au-flat-12"), "australian", twelve);
}

TEST_CASE("15: large round, Australian against ISO 1724: contacts 2, 5 and 7 differ") {
  const Connector &iso = form("iso-12n"), &au = form("au-round-large");
  Numbers differing;
  for (const ConnectorContact& contact : iso.contacts)
    if (au.contact(contact.number)->function != contact.function) differing.insert(contact.number);
  CHECK(differing == Numbers{"2", "5", "7"});
  CHECK(ring(au, false) == ring(iso, false));
}

TEST_CASE("17: circle of the large and small Australian round: 20 mm and 13 mm") {
  REQUIRE(form("au-round-large").unit_mm);
  REQUIRE(form("au-round-small").unit_mm);
  CHECK(2 * *form("au-round-large").unit_mm == doctest::Approx(20));
  CHECK(2 * *form("au-round-small").unit_mm == doctest::Approx(13));
}
