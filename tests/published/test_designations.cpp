// Check value 25 of the connector reference and its table 6.1: designations of DIN 72552, as three lists have them; what
// some marks meant before, from a list of old and new marks.
#include "catalogue/shipped.hpp"

using namespace towloom;
using towloom::testing::shipped;

TEST_CASE("25: 54L has two readings, 49a of the old lists and the left stop/turn lamp") {
  const Designation& d = shipped().designations.at("54L");
  CHECK(d.older.find("49a") != std::string::npos);
  CHECK(d.meaning.find("left") != std::string::npos);
  CHECK(d.meaning.find("stop and turn share") != std::string::npos);
}

TEST_CASE("6.1: the marks of ISO 1724's contacts") {
  const struct { const char *mark, *word; } rows[] = {{"L", "left"}, {"31", "ground"}, {"R", "right"}, {"58R", "right"}, {"54", "stop"}, {"58L", "left"}};
  for (const auto& row : rows) {
    CAPTURE(row.mark);
    CHECK(shipped().designations.at(row.mark).meaning.find(row.word) != std::string::npos);
    CHECK(shipped().designations.at(row.mark).older.empty());
  }
  CHECK(shipped().designations.at("54g").meaning.find("rear fog") != std::string::npos);
  CHECK_FALSE(shipped().designations.at("54g").older.empty());
}

TEST_CASE("6.1: 53 is a wiper's mark, no lamp's") { CHECK(shipped().designations.count("53") == 0); }

TEST_CASE("every designation of a contact in the catalogue is one of DIN 72552") {
  for (const auto& [name, form] : shipped().connectors)
    for (const ConnectorContact& c : form.contacts) {
      CAPTURE(name);
      CAPTURE(c.terminal);
      const bool mark = c.terminal.empty() || shipped().designations.count(c.terminal) == 1;
      CHECK(mark);
    }
}
