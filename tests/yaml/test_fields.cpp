// Reading one map strictly: every getter says what is wrong, where, and what to write instead.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "yaml/fields.hpp"
#include "yaml/reading.hpp"

using namespace towloom;
using towloom::testing::read;
using towloom::testing::says;

namespace {
std::optional<double> quantity_of(const std::string& text, Unit unit) {
  auto r = read("q: \"" + text + "\"\n");
  REQUIRE(r.root);
  Fields fields(*r.root, "row", r.diagnostics);
  const auto q = fields.quantity("q", unit);
  CHECK(q.has_value() != r.diagnostics.has_errors());  // never nothing in silence
  return q ? std::optional<double>(q->value) : std::nullopt;
}
}  // namespace

TEST_CASE("quantities convert to SI") {
  struct Row {
    const char* text;
    Unit unit;
    double expected;
  };
  // Foot 0.3048 m and inch 0.0254 m are exact by definition (international yard, 1959);
  // °C = (°F - 32) / 1.8; prefixes by the SI brochure.
  const std::vector<Row> table = {
      {"2.4 m", Unit::metre, 2.4},    {"8 ft", Unit::metre, 2.4384},
      {"1 ft", Unit::metre, 0.3048},  {"1 in", Unit::metre, 0.0254},
      {"250 mm", Unit::metre, 0.25},  {"40 cm", Unit::metre, 0.4},
      {"2.4m", Unit::metre, 2.4},     {"13.6 V", Unit::volt, 13.6},
      {"450 mV", Unit::volt, 0.45},   {"4.2 A", Unit::ampere, 4.2},
      {"250 mA", Unit::ampere, 0.25}, {"45 mohm", Unit::ohm, 0.045},
      {"1 kohm", Unit::ohm, 1000},    {"10 Mohm", Unit::ohm, 1e7},
      {"4.5 Ω", Unit::ohm, 4.5},      {"45 mΩ", Unit::ohm, 0.045},
      {"40 °C", Unit::celsius, 40},   {"-5 C", Unit::celsius, -5},
      {"212 °F", Unit::celsius, 100}, {"32 F", Unit::celsius, 0},
      {"-40 °F", Unit::celsius, -40}, {"21 W", Unit::watt, 21},
      {"0.75 mm2", Unit::mm2, 0.75},  {"1.5 mm²", Unit::mm2, 1.5},
      {"4", Unit::plain, 4},          {"20 K/W", Unit::kelvin_per_watt, 20},
  };
  for (const Row& row : table) {
    CAPTURE(row.text);
    const auto got = quantity_of(row.text, row.unit);
    REQUIRE(got);
    CHECK(*got == doctest::Approx(row.expected).epsilon(1e-12));
  }
}

TEST_CASE("a wrong or missing unit, a comma or no number at all is not a quantity") {
  const std::vector<std::pair<const char*, Unit>> table = {
      {"2.4", Unit::metre},    {"2.4 V", Unit::metre},   {"m", Unit::metre},
      {"2,4 m", Unit::metre},  {"nan m", Unit::metre},   {"inf m", Unit::metre},
      {"1e999 m", Unit::metre}, {"1e m", Unit::metre}, {"2.4 m m", Unit::metre}, {"0x10 m", Unit::metre},
      {"2.4 M", Unit::metre},  {"--2 m", Unit::metre},   {"13.6 A", Unit::volt},
      {"4.2 V", Unit::ampere}, {"45 V", Unit::ohm},      {"4 A", Unit::plain},
      {"40", Unit::celsius},   {"16 AWG", Unit::mm2},    {"two m", Unit::metre},
      {"2.4.1 m", Unit::metre}};
  for (const auto& [text, unit] : table) {
    CAPTURE(text);
    CHECK_FALSE(quantity_of(text, unit));
  }
}

TEST_CASE("a unit error shows an example of the right one") {
  auto r = read("cord:\n  length: 13.6 V\n");
  REQUIRE(r.root);
  Fields fields(*r.root->find("cord"), "cord", r.diagnostics);
  CHECK_FALSE(fields.quantity("length", Unit::metre));
  CHECK(says(r.diagnostics, {"", 2, 11, "quantity", "'13.6 V' cannot be read as length"}));
  CHECK(says(r.diagnostics, {"", 2, 11, "quantity", "2.4 m"}));
}

TEST_CASE("keys that nobody took are errors with a suggestion") {
  auto r = read("length: 2 m\nlenght: 3 m\nwrie: x\nzebra: y\n");
  REQUIRE(r.root);
  Fields fields(*r.root, "cord", r.diagnostics);
  CHECK(fields.quantity("length", Unit::metre)->value == doctest::Approx(2));
  CHECK_FALSE(fields.text("wire"));
  fields.finish();
  CHECK(r.diagnostics.all().size() == 3);
  CHECK(says(r.diagnostics, {"", 2, 1, "unknown-key", "did you mean 'length'?"}));
  CHECK(says(r.diagnostics, {"", 3, 1, "unknown-key", "did you mean 'wire'?"}));
  CHECK(says(r.diagnostics, {"", 4, 1, "unknown-key", "known here: length, wire"}));
}

TEST_CASE("getters report the wrong kind and what is missing") {
  auto r = read("t: [a]\nw: softt\nl: {a: b}\nm: [x, [y]]\nok: off\none: alone\n");
  REQUIRE(r.root);
  Fields fields(*r.root, "row", r.diagnostics);
  CHECK_FALSE(fields.text("t"));
  CHECK_FALSE(fields.word("w", {"soft", "hard"}));
  CHECK(fields.texts("l").empty());
  CHECK(fields.texts("m").size() == 1);
  CHECK(fields.texts("one").at(0).value == "alone");
  CHECK(fields.word("ok", {"off", "run"})->value == "off");
  CHECK(fields.need_text("gone").value.empty());
  CHECK(says(r.diagnostics, {"", 1, 4, "not-text", "one text"}));
  CHECK(says(r.diagnostics, {"", 2, 4, "unknown-word", "did you mean 'soft'?"}));
  CHECK(says(r.diagnostics, {"", 3, 4, "not-a-list", "[a, b]"}));
  CHECK(says(r.diagnostics, {"", 4, 8, "not-text", "item of 'm'"}));
  CHECK(says(r.diagnostics, {"", 1, 1, "missing-key", "row lacks 'gone'"}));
  CHECK(r.diagnostics.all().size() == 5);
  fields.finish();
  CHECK(r.diagnostics.all().size() == 5);  // asked-for keys are known, good or bad
}
