// Which halves go together, and which contact goes to which: expected pairs are written by hand from
// connectors.md 1.3, 1.7, 2 and 3 and its check value 24.
#include <algorithm>
#include <set>

#include "catalogue/cord.hpp"
#include "catalogue/shipped.hpp"

using namespace towloom;
using namespace towloom::testing;
using Words = std::vector<std::string>;

namespace {

const Connector& form(const char* name) { return shipped().connectors.at(name); }
Mating mate(const char* a, const char* half_a, const char* b, const char* half_b) {
  return mating({&form(a), half_a}, {&form(b), half_b});
}
Words pairs(const char* from, const char* to) {
  Words out;
  for (const CordPair& p : cord_map(form(from), form(to)).pairs) out.push_back(p.from->number + ">" + p.to->number);
  return out;
}
Words numbers(const std::vector<const ConnectorContact*>& contacts) {
  Words out;
  for (const ConnectorContact* c : contacts) out.push_back(c->number);
  return out;
}

}  // namespace

TEST_CASE("the two halves of every form mate, two of one half do not") {
  for (const auto& [name, c] : shipped().connectors) {
    CAPTURE(name);
    CHECK(mating({&c, c.halves[0].name}, {&c, c.halves[1].name}).mates);
    CHECK(mating({&c, c.halves[1].name}, {&c, c.halves[0].name}).mates);
    for (const ConnectorHalf& half : c.halves) CHECK_FALSE(mating({&c, half.name}, {&c, half.name}).mates);
  }
}

TEST_CASE("24: a 20 A plug in a 35 A socket is refused, and the other way round") {
  CHECK_FALSE(mate("round-4", "plug", "round-4-heavy", "socket").mates);
  CHECK_FALSE(mate("round-4-heavy", "plug", "round-4", "socket").mates);
  CHECK(mate("round-4", "plug", "round-4-heavy", "socket").why.find("larger ground pin") != std::string::npos);
}

TEST_CASE("N and S, primary and auxiliary, large and small round, unlike forms are refused") {
  CHECK_FALSE(mate("iso-12n", "plug", "iso-12s", "socket").mates);
  CHECK_FALSE(mate("iso-12s", "plug", "iso-12n", "socket").mates);
  CHECK_FALSE(mate("j560", "plug", "j560-aux", "socket").mates);
  CHECK_FALSE(mate("au-round-small", "plug", "iso-12n", "socket").mates);
  CHECK_FALSE(mate("blade-7", "plug", "round-6", "socket").mates);
  CHECK_FALSE(mate("blade-7", "male", "blade-7", "socket").mates);
}

TEST_CASE("an Australian plug goes into an ISO 1724 socket, and the hazard is named") {
  const Mating m = mate("au-round-large", "plug", "iso-12n", "socket");
  CHECK(m.mates);
  CHECK(m.why.find("brakes") != std::string::npos);
  CHECK_FALSE(mate("au-round-large", "plug", "iso-12n", "plug").mates);
}

TEST_CASE("1.7: seven-way blade to six-way round, function by function") {
  CHECK(pairs("blade-7", "round-6") == Words{"1>2", "2>5", "3>1", "4>6", "5>3", "6>4"});
  const CordMap map = cord_map(form("blade-7"), form("round-6"));
  CHECK(numbers(map.only_from) == Words{"7"});   // reverse has no partner
  CHECK(map.only_to.empty());
  CHECK_FALSE(map.stop_apart_differs);
}

TEST_CASE("1.7: seven-way blade to four-way flat uses contacts 1, 3, 5, 6") {
  CHECK(pairs("blade-7", "flat-4") == Words{"1>1", "3>2", "5>3", "6>4"});
}

TEST_CASE("13: thirteen-way to 12N: contacts 1 to 7 go straight") {
  CHECK(pairs("iso-13", "iso-12n") == Words{"1>1", "2>2", "3>3", "4>4", "5>5", "6>6", "7>7"});
  CHECK(numbers(cord_map(form("iso-13"), form("iso-12n")).only_from) == Words{"8", "9", "10", "11", "13"});
}

TEST_CASE("tail sides: one lead feeds both; the sides are never tied to one lead") {
  const CordMap apart = cord_map(form("blade-7"), form("iso-12n"));
  std::set<std::string> tails;
  for (const CordPair& p : apart.pairs)
    if (p.from->function == "tail") tails.insert(p.to->number);
  CHECK(tails == std::set<std::string>{"5", "7"});
  CHECK(apart.stop_apart_differs);   // 12N has stop on a contact of its own
  const CordMap together = cord_map(form("iso-12n"), form("blade-7"));
  int feeding = 0;
  for (const CordPair& p : together.pairs) feeding += p.to->function == "tail";
  CHECK(feeding == 1);
  CHECK(std::count(together.only_from.begin(), together.only_from.end(), form("iso-12n").contact("5")) == 1);
}

TEST_CASE("ends of one form go straight, number to number, whatever they carry") {
  Connector reverse = form("round-6");
  for (ConnectorContact& c : reverse.contacts)
    if (c.number == "6") c.function = "reverse";
  const CordMap map = cord_map(form("round-6"), reverse);
  REQUIRE(map.pairs.size() == 6);
  for (const CordPair& p : map.pairs) {
    CHECK(p.from->number == p.to->number);
    CHECK(p.meant == (p.from->number != "6"));
  }
}

TEST_CASE("crossed cores are found, each with the contact it belongs to") {
  const Connector &blade = form("blade-7"), &six = form("round-6");
  const auto lies = [&](std::vector<std::pair<const char*, const char*>> rows) {
    Spec spec;
    for (const auto& [from, to] : rows) spec.cord.continuity.push_back({{from, {}}, {to, {}}});
    std::vector<CordCore> wrong;
    for (const CordCore& core : job_cord(spec, blade, six).cores)
      if (core.crossed || core.to == nullptr) wrong.push_back(core);
    return wrong;
  };
  CHECK(lies({{"1", "GD"}, {"3", "TM"}, {"5", "LT"}, {"6", "RT"}}).empty());
  const auto found = lies({{"GND", "GD"}, {"LT", "RT"}, {"RT", "LT"}, {"REV", "A"}});
  REQUIRE(found.size() == 3);
  CHECK(found[0].from->number == "5");
  CHECK(found[0].belongs == six.contact("LT"));
  CHECK(found[1].belongs == six.contact("RT"));
  CHECK(found[2].belongs == nullptr);
  const auto open = lies({{"LT", "none"}});
  REQUIRE(open.size() == 1);
  CHECK(open[0].to == nullptr);
  CHECK(open[0].belongs == six.contact("LT"));
}

TEST_CASE("a core that brings what its contact was found to carry is not crossed") {
  Spec spec;
  spec.coach.found.push_back({});
  spec.coach.found.back().contact = {"REV", {}};
  spec.coach.found.back().does = PlacedText{"charge", {}};
  spec.cord.continuity = {{{"REV", {}}, {"A", {}}}};
  const Connector &blade = form("blade-7"), &six = form("round-6");
  for (const CordCore& core : job_cord(spec, blade, six).cores) CHECK_FALSE(core.crossed);
}

TEST_CASE("a core that was metered on a wrong contact leaves the contact's own core where it should be") {
  Spec spec;
  spec.cord.continuity = {{{"BAT", {}}, {"RT", {}}}};
  std::string ends;
  for (const CordCore& core : job_cord(spec, form("blade-7"), form("round-6")).cores)
    if (core.to != nullptr && core.to->mark == "RT") ends += core.from->mark + (core.crossed ? " crossed; " : "; ");
  CHECK(ends == "BAT crossed; RT; ");
}
