// The plain job against the survey it was typed from; every expected value is the survey's.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "spec/job_text.hpp"

using namespace towloom;
using namespace towloom::testing;

TEST_CASE("the plain job has at most 35 typed lines") {
  int typed = 0;
  for (const std::string& line : lines_of(plain_text())) {
    const std::size_t first = line.find_first_not_of(' ');
    if (first != std::string::npos && line[first] != '#') ++typed;
  }
  CHECK(typed > 20);
  CHECK(typed <= 35);
}

TEST_CASE("the plain job says what the survey found") {
  const auto r = read_text(plain_text());
  REQUIRE(r.spec);
  const Spec& s = *r.spec;
  CHECK(s.coach.outlet.form.value == "flat-4");
  CHECK(s.coach.outlet.at == "left of receiver");
  CHECK(s.coach.signals.value == "combined");
  REQUIRE(s.coach.found.size() == 3);
  struct Found {
    const char *contact, *does;
    double open, loaded;
  };
  const Found found[] = {
      {"2", "tail", 13.6, 13.1}, {"3", "left", 13.5, 12.9}, {"4", "right", 13.5, 12.9}};
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(s.coach.found[i].contact.value == found[i].contact);
    CHECK(s.coach.found[i].does->value == found[i].does);
    CHECK(s.coach.found[i].open_v->value == doctest::Approx(found[i].open));
    CHECK(s.coach.found[i].loaded_v->value == doctest::Approx(found[i].loaded));
    CHECK_FALSE(s.coach.found[i].fuse_a);
  }
  CHECK(s.cord.length_m.value == doctest::Approx(2.4));
  CHECK(s.cord.wire->value.text() == "16 AWG");
  CHECK(s.car.inlet.form.value == "flat-4");
  CHECK(s.car.battery == "engine bay left");
  CHECK(s.car.ignition->value == "off");
  CHECK(s.car.stop_lamps->value == "live");
  CHECK(s.car.monitoring.value == "none");
  CHECK(s.isolation.method.value == "two-way-diodes");
  CHECK(s.isolation.choices.at("diode").value == "silicon");
  CHECK(s.isolation.plate->value == "with left tail");
}

TEST_CASE("each lamp row is the survey's lamp") {
  const auto r = read_text(plain_text());
  REQUIRE(r.spec);
  struct Lamp {
    const char *name, *unit, *function, *bulb, *filament, *colour, *size, *node;
    Side side;
    int count;
  };
  const std::vector<Lamp> expected = {
      {"left rear", "left rear", "stop-turn", "P21/5W", "bright", "GY/VT", "0.75 mm²", "ST_L",
       Side::left, 1},
      {"right rear", "right rear", "stop-turn", "P21/5W", "bright", "GY/OG", "0.75 mm²", "ST_R",
       Side::right, 1},
      {"left tail", "left rear", "tail", "P21/5W", "dim", "PK/BK", "0.5 mm²", "TAIL", Side::left,
       1},
      {"right tail", "right rear", "tail", "P21/5W", "dim", "PK/BK", "0.5 mm²", "TAIL", Side::right,
       1},
      {"plate", "plate", "plate", "R5W", "", "PK/BK", "0.5 mm²", "TAIL", Side::centre, 2},
      {"high stop", "high stop", "chmsl", "", "", "WH/VT", "0.5 mm²", "STOP_SW", Side::centre, 1},
      {"reverse", "right rear", "reverse", "P21W", "", "TQ/BK", "0.75 mm²", "REV", Side::right, 1}};
  REQUIRE(r.spec->car.lamps.size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    const LampRow& got = r.spec->car.lamps[i];
    const Lamp& e = expected[i];
    CAPTURE(e.name);
    CHECK(got.name.value == e.name);
    CHECK(got.unit == e.unit);
    CHECK(got.function.value == e.function);
    CHECK(got.bulb == e.bulb);
    CHECK(got.filament == e.filament);
    CHECK(got.feed.colour.value == e.colour);
    REQUIRE(got.feed.size);
    CHECK(got.feed.size->value.text() == e.size);
    CHECK(got.node.value == e.node);
    CHECK((got.side == e.side));
    CHECK(got.count == e.count);
    CHECK(got.dark_in_tow == (std::string(e.name) == "reverse"));
    CHECK(got.led == (std::string(e.name) == "high stop"));
  }
  CHECK(*r.spec->car.lamps[5].amps == doctest::Approx(0.25));
  CHECK(r.spec->car.lamps[0].return_wire->colour.value == "BK/WH");
  CHECK(r.spec->car.lamps[0].return_stud->value == "G-RL");
  CHECK(r.spec->car.lamps[1].return_stud->value == "G-RR");
  CHECK(r.spec->car.lamps[4].branch->value == "upstream of left rear");
}

TEST_CASE("runs, grounds and wire are the survey's") {
  const auto r = read_text(plain_text());
  REQUIRE(r.spec);
  const Spec& s = *r.spec;
  REQUIRE(s.runs.size() == 3);
  const double metres[] = {1.3, 3.9, 1.4};
  const char* names[] = {"front", "sill", "cross"};
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(s.runs[i].name.value == names[i]);
    CHECK(s.runs[i].length_m.value == doctest::Approx(metres[i]));
    if (i > 0) CHECK(s.runs[i].from.value == s.runs[i - 1].to.value);  // one route, front to rear
  }
  REQUIRE(s.grounds.size() == 3);
  CHECK(s.grounds[0].name.value == "G-F");
  CHECK(s.grounds[0].at.value == "front frame stud");
  CHECK(s.grounds[0].takes->value == "coach white");
  CHECK(s.grounds[1].name.value == "G-RL");
  CHECK(s.grounds[2].name.value == "G-RR");
  CHECK(s.wire.standard.value == "AWG");
  CHECK(s.wire.ribbon);
  REQUIRE(s.wire.size.count("lamps") == 1);
  CHECK_FALSE(s.wire.size.at("lamps"));  // auto
}
