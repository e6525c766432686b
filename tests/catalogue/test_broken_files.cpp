// One broken file of each kind: the error and its place are written by hand.
#include <string>
#include <vector>

#include "catalogue/shipped.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {

struct Said {
  int line, column;
  const char *code, *fragment;  // of the message or the hint
};

bool has(const Diagnostic& d, const std::string& fragment) {
  return (d.message + "\n" + d.hint).find(fragment) != std::string::npos;
}

// `text` is the only file beside the shipped rules; exactly the errors of `expected` are reported.
void expect(const std::string& text, const std::vector<Said>& expected) {
  CAPTURE(text);
  TemporaryFolder folder;
  folder.write_needed();
  folder.write("broken.yaml", text);
  const CatalogueReading r = read_folder(folder.path());
  INFO(describe(r.diagnostics));
  CHECK_FALSE(r.catalogue);
  REQUIRE(r.diagnostics.all().size() == expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    const Diagnostic& d = r.diagnostics.all()[i];
    CHECK(d.severity == Severity::error);
    CHECK(d.code == expected[i].code);
    CHECK(d.place.line == expected[i].line);
    CHECK(d.place.column == expected[i].column);
    CHECK(has(d, expected[i].fragment));
    REQUIRE(d.place.file >= 0);
    CHECK(r.sources.files[static_cast<std::size_t>(d.place.file)].name.find("broken.yaml") !=
          std::string::npos);
  }
}

std::string connector(const std::string& contact, const std::string& outlet = "socket") {
  return "connector: two\n"
         "title: two-way\n"
         "shell: round\n"
         "view half: socket\n"
         "halves:\n"
         "  socket: {title: socket half, mating: you look in, wire: from behind}\n"
         "  plug: {title: plug half, mating: you look in, wire: from behind}\n"
         "outlet half: " +
         outlet +
         "\n"
         "inlet half: socket\n"
         "colours: automotive\n"
         "conventions: {automotive: {title: t, source: s, confidence: agreed}}\n"
         "evidence: {gender: {source: s, confidence: low}, shapes: {source: s, confidence: low}}\n"
         "contact: {resistance: 5 mohm, source: s, confidence: practice}\n"
         "source: s\n"
         "confidence: agreed\n"
         "positions: {source: s, confidence: low}\n"
         "contacts:\n" +
         contact;  // line 18
}

std::string series(const std::string& sizes) {
  return "series: AWG\n"
         "title: AWG\n"
         "insulation: 80 °C\n"
         "resistance: {source: s, confidence: standard}\n"
         "ampacity: 33 CFR\n"
         "fuse: {source: s, confidence: practice}\n"
         "sizes:\n" +
         sizes;  // line 8
}

std::string method(const std::string& part, const std::string& join) {
  return "method: m\n"
         "title: m\n"
         "says: m\n"
         "choose:\n"
         "  diode: {of: diodes, default: silicon}\n"
         "fragments:\n"
         "  - scope: lamp\n"
         "    cut: leg\n"
         "    parts:\n"
         "      block: " +
         part +
         "\n"
         "    join:\n"
         "      - " +
         join +
         "\n"
         "source: s\n"
         "confidence: practice\n";
}

const std::string good_contact =
    "  '1': {function: ground, title: ground, shape: pin, at: [0, 1], gender: {socket: sleeve, plug: pin}, "
    "colour: {automotive: WH}}\n";

// The texts above are sound before they are broken: nothing is said about them.
void expect_sound(const std::string& text) {
  CAPTURE(text);
  TemporaryFolder folder;
  folder.write_needed();
  folder.write("sound.yaml", text);
  const CatalogueReading r = read_folder(folder.path());
  INFO(describe(r.diagnostics));
  CHECK(r.catalogue);
  CHECK(r.diagnostics.all().empty());
}

}  // namespace

TEST_CASE("the unbroken texts of this file are read") {
  expect_sound(connector(good_contact));
  expect_sound(series("  18 AWG: {area: 0.823 mm2, resistance: 21.8 mohm}\n"));
  expect_sound(method("{kind: diode-pair, model: $diode}", "[signal, block.A1]"));
}

TEST_CASE("a file that begins with an unknown key") {
  expect("conector: two\n", {{1, 1, "catalogue-kind", "connector"}});
  expect("- a\n- b\n", {{1, 1, "catalogue-kind", "begin with"}});
}

TEST_CASE("a broken connector") {
  expect(connector("  '1': {function: ground, title: ground, shape: pin, at: [0, 1], gender: {socket: sleeve}, "
                   "colour: {automotive: WH}}\n"),
         {{18, 3, "gender", "plug"}});
  expect(connector("  '1': {function: ground, title: ground, shape: pin, at: [0, 1], gender: {socket: sleeve, "
                   "plug: pin}, colour: {rv-industry: WH}}\n"),
         {{18, 3, "colour", "automotive"}, {18, 3, "convention", "rv-industry"}});
  expect(connector("  '1': {function: ground, title: ground, shape: pin, at: [0, up], gender: {socket: "
                   "sleeve, plug: pin}, colour: {automotive: WH}}\n"),
         {{18, 58, "position", "contact 1"}});
  expect(connector("  '1': {funktion: ground, title: ground, shape: pin, at: [0, 1], gender: {socket: sleeve, "
                   "plug: pin}, colour: {automotive: WH}}\n"),
         {{18, 8, "missing-key", "function"}, {18, 9, "unknown-key", "did you mean 'function'"}});
  expect(connector("  '1': {function: ground, title: ground, shape: pin, at: [0, 1], gender: {socket: pin, "
                   "plug: blade}, colour: {automotive: WH}}\n"),
         {{18, 3, "gender", "a pin cannot mate a blade"}});
  expect(connector("  '1': {function: ground, title: ground, shape: pin, at: [0, 1.4], gender: {socket: pin, "
                   "plug: sleeve}, colour: {automotive: WH}}\n"),
         {{18, 3, "position", "outside the shell"}});
  expect(connector("  '1': {function: grund, title: ground, shape: pin, at: [0, 1], gender: {socket: pin, "
                   "plug: sleeve}, colour: {automotive: WH}}\n"),
         {{18, 3, "function", "did you mean 'ground'"}});
  expect(connector("  '1': {function: ground, title: ground, shape: square, at: [0, 1], gender: {socket: pin, "
                   "plug: sleeve}, colour: {automotive: WH}}\n"),
         {{18, 49, "unknown-word", "one of: bullet, blade, pin"}});
  const std::string second = "  '2': {function: tail, title: tail, shape: pin, at: [0, 0.9], gender: {socket: sleeve, plug: pin}, "
                             "colour: {automotive: BN}}\n";
  expect(connector(good_contact + second), {{18, 3, "position", "1 and 2 stand in one place"}});
  expect(connector("  '1': {function: ground, title: ground, shape: pin, at: [0, 1], minimum: thick, gender: "
                   "{socket: pin, plug: sleeve}, colour: {automotive: WH}}\n"),
         {{18, 75, "wire-size", "thick"}, {12, 11, "missing-key", "sizes"}});
  expect(connector(good_contact) + "refuses: {tow: {why: w, source: s, confidence: low}}\n",
         {{19, 33, "unknown-connector", "did you mean 'two'"}});
  expect(connector(good_contact) + "layouts: {other: {title: t, at: {'2': [0, 0]}, source: s, confidence: low}}\n",
         {{19, 33, "missing-key", "'1'"}, {19, 34, "unknown-key", "'2'"}});
  expect(connector(good_contact) + "separate: ['3']\n", {{19, 12, "unknown-contact", "'3'"}});
  expect(connector(good_contact, "scoket"), {{8, 14, "half", "scoket"}});
  expect(connector(good_contact + good_contact), {{19, 3, "duplicate-key", "1"}});
}

TEST_CASE("a broken lamp") {
  expect(
      "lamps:\n"
      "  P21W: {title: P21W, volts: 13.5 V, filaments: {bright: {lumens: 460}}, source: s, "
      "confidence: memory}\n",
      {{2, 50, "filament", "watts"}});
  expect(
      "lamps:\n"
      "  P21W:\n"
      "    title: P21W\n"
      "    filaments: {bright: {volts: 13.5, amps: 2 A}}\n"
      "    source: s\n"
      "    confidence: memory\n",
      {{4, 33, "quantity", "13.6 V"}, {4, 17, "filament", "volts"}});
}

TEST_CASE("a broken wire series") {
  const std::string thin = "  18 AWG: {area: 0.823 mm2, resistance: 21.8 mohm}\n";
  const std::string thick = "  16 AWG: {area: 1.309 mm2, resistance: 13.7 mohm}\n";
  expect_sound(series(thin + thick));
  expect(series(thick + thin), {{9, 3, "wire-order", "rise"}});
  expect(series(thin + "  thick: {area: 9 mm2, resistance: 2 mohm}\n"),
         {{9, 3, "wire-size", "thick"}});
  expect(series(thin + "  16 AWG: {area: 1.309 mm2, resistance: 0 mohm}\n"),
         {{9, 3, "wire-order", "above 0"}});
}

TEST_CASE("a broken ampacity basis") {
  const auto basis = [](const std::string& columns, const std::string& amps, const std::string& bundles) {
    return "ampacity basis: b\ntitle: t\ninsulation: " + columns + "\namps:\n" + amps + "bundling:\n" + bundles +
           "bundling source: {source: s, confidence: standard}\nsource: s\nconfidence: standard\n";
  };
  const std::string rows = "  18 AWG: [10, 15]\n  16 AWG: [15, 20]\n", bundles = "  - {from: 1, to: 2, factor: 1.0}\n";
  expect_sound(basis("[60 °C, 80 °C]", rows, bundles));
  expect(basis("[80 °C, 60 °C]", rows, bundles), {{3, 21, "ampacity", "rising"}});
  expect(basis("[60 °C, 80 V]", rows, bundles), {{3, 21, "ampacity", "80 V"}});
  expect(basis("[60 °C, 80 °C]", "  18 AWG: [10]\n", bundles), {{5, 3, "ampacity", "2 columns"}});
  expect(basis("[60 °C, 80 °C]", "  18 AWG: [10, -1]\n", bundles), {{5, 16, "ampacity", "'-1'"}});
  expect(basis("[60 °C, 80 °C]", "  thin: [10, 15]\n", bundles), {{5, 3, "wire-size", "thin"}});
  expect(basis("[60 °C, 80 °C]", "  16 AWG: [10, 15]\n  18 AWG: [15, 20]\n", bundles), {{6, 3, "ampacity", "rise"}});
  expect(basis("[60 °C, 80 °C]", rows, bundles + "  - {from: 3, to: 3, factor: 1.7}\n"), {{9, 5, "bundling", "factor"}});
  expect(basis("[60 °C, 80 °C]", rows, bundles + "  - {from: 4, to: 6, factor: 0.7}\n"), {{9, 5, "bundling", "gap"}});
  // A series whose basis no file holds.
  TemporaryFolder folder;
  folder.write_needed();
  std::string text = series("  18 AWG: {area: 0.823 mm2, resistance: 21.8 mohm}\n");
  folder.write("series.yaml", text.replace(text.find("33 CFR"), 6, "34 CFR"));
  const CatalogueReading r = read_folder(folder.path());
  CHECK_FALSE(r.catalogue);
  CHECK(describe(r.diagnostics).find("no ampacity basis '34 CFR'") != std::string::npos);
}

TEST_CASE("a broken fuse table") {
  expect(
      "fuses:\n"
      "  ten: {colour: RD, resistance: 7.7 mohm}\n"
      "source: s\n"
      "confidence: memory\n",
      {{2, 3, "fuse", "10 A"}});
}

TEST_CASE("a broken diode") {
  const std::string tail =
      ", rated: 6 A, thermal: {on metal: 20 K/W, free air: 30 K/W, in loom: 50 K/W}, hottest: 150 °C, source: s, confidence: agreed, "
      "thermal source: s, thermal confidence: practice}\n";
  expect_sound("diodes:\n  si: {title: si, is: 5e-9, n: 1.75, rs: 0.015" + tail);
  expect("diodes:\n  si: {title: si, is: 5e-9, n: 1.75, rs: 0" + tail, {{2, 3, "diode", "rs"}});
  expect("diodes:\n  si: {title: si, is: 5e-x, n: 1.75, rs: 0.015" + tail,
         {{2, 23, "number", "5e-x"}, {2, 3, "diode", "is"}});
}

TEST_CASE("a broken feed") {
  expect(
      "feed: f\n"
      "title: f\n"
      "drives: [tail]\n"
      "parts:\n"
      "  switch: {kind: switch}\n"
      "join:\n"
      "  - [supply, swich.1]\n"
      "  - [switch.2, out]\n"
      "source: s\n"
      "confidence: practice\n",
      {{7, 14, "join-end", "swich.1"}});
}

TEST_CASE("a broken method") {
  expect(method("{kind: diode-pair, model: $diodes}", "[signal, block.A1]"),
         {{10, 40, "choice", "$diodes"}});
  expect(method("{kind: diode-pair, model: $diode}", "[signal]"), {{12, 9, "join", "two ends"}});
  expect(method("{kind: diode-pair, model: $diode}", "[signal, blok.A1]"),
         {{12, 18, "join-end", "blok.A1"}});
  expect(method("{model: $diode}", "[signal, block.A1]"), {{10, 14, "missing-key", "kind"}});
}

TEST_CASE("a figure without its source, or with an unknown confidence") {
  expect(
      "fuses:\n"
      "  10 A: {colour: RD, resistance: 7.7 mohm}\n"
      "confidence: standard\n",
      {{1, 1, "missing-key", "source"}});
  expect(
      "fuses:\n"
      "  10 A: {colour: RD, resistance: 7.7 mohm}\n"
      "source: s\n"
      "confidence: standart\n",
      {{4, 13, "unknown-word", "did you mean 'standard'"}});
}

TEST_CASE("a rule that the program asks for and that is missing") {
  TemporaryFolder folder;
  folder.copy_from_specs("wire/ampacity-cfr.yaml");
  folder.copy_from_specs("scenes.yaml");
  folder.write_instruments();
  folder.write("rules.yaml",
               "rules:\n  drop_budget_v: {value: 0.5 V, source: s, confidence: practice}\n");
  const CatalogueReading r = read_folder(folder.path());
  CHECK_FALSE(r.catalogue);
  int missing = 0, drop = 0;
  for (const Diagnostic& d : r.diagnostics.all()) {
    CHECK(d.code == "missing-rule");
    missing += has(d, "'stud_ohm'");
    drop += has(d, "'drop_budget_v'");
  }
  CHECK(missing == 1);
  CHECK(drop == 0);
}

TEST_CASE("a rule whose value has no known unit") {
  TemporaryFolder folder;
  folder.write_needed();
  folder.write("zz.yaml", "rules:\n  extra: {value: 5 parsec, source: s, confidence: practice}\n");
  const CatalogueReading r = read_folder(folder.path());
  INFO(describe(r.diagnostics));
  REQUIRE(r.diagnostics.all().size() == 1);
  CHECK(r.diagnostics.all()[0].code == "rule");
  CHECK(r.diagnostics.all()[0].place.line == 2);
  CHECK(r.diagnostics.all()[0].place.column == 18);
}

TEST_CASE("errors of several files are reported in one run") {
  TemporaryFolder folder;
  folder.write_needed();
  folder.write("a.yaml", "conector: two\n");
  folder.write("deep/b.yaml",
               "fuses: {ten: {colour: RD, resistance: 7.7 mohm}}\nsource: s\n"
               "confidence: memory\n");
  const CatalogueReading r = read_folder(folder.path());
  REQUIRE(r.diagnostics.all().size() == 2);
  CHECK(r.diagnostics.all()[0].code == "catalogue-kind");
  CHECK(r.diagnostics.all()[1].code == "fuse");
}

TEST_CASE("a folder without catalogue files, or none at all") {
  TemporaryFolder folder;
  CHECK_FALSE(read_folder(folder.path()).catalogue);
  const CatalogueReading r = read_folder(folder.path() / "nowhere");
  CHECK_FALSE(r.catalogue);
  REQUIRE(r.diagnostics.all().size() == 1);
  CHECK(r.diagnostics.all()[0].code == "catalogue");
}

TEST_CASE("a relay without its pull-in volts, and a part of no known kind") {
  expect("parts:\n"
         "  cube: {kind: relay, title: relay, coil: 85 ohm, drop out: 1.2 V, contact: 5 mohm, source: x, confidence: low}\n",
         {{2, 9, "missing-key", "pull in"}});
  expect("parts:\n  cube: {kind: rellay, title: relay, source: x, confidence: low}\n",
         {{2, 16, "part-kind", "rellay"}});
}

TEST_CASE("a truth table with a cell too few, an unknown level, or no last word") {
  const std::string head =
      "module: m\ntitle: m\nsupply: {works from: 9 V, stops at: 8 V, draw: 0.02 A}\n"
      "input: {high: 6 V, low: 3 V, load: 10 kohm}\noutput: {on: 60 mohm, leak: 0.00002 A}\n"
      "inputs: [left]\noutputs: [left, stop]\nsource: x\nconfidence: low\ntable:\n";
  expect(head + "  - [0, 0]\n  - [else, 0, 0]\n", {{11, 5, "table", "2 cells, not 3"}});
  expect(head + "  - [Q, 0, 0]\n  - [else, 0, 0]\n", {{11, 5, "table", "'Q'"}});
  expect(head + "  - [0, 0, 0]\n", {{1, 1, "table", "else"}});
}

TEST_CASE("one name in two files: the second is refused at its place") {
  TemporaryFolder folder;
  folder.write_needed();
  folder.write("second.yaml", "rules:\n  battery_v: {value: 12 V, source: x, confidence: low}\n");
  const CatalogueReading r = read_folder(folder.path());
  CHECK_FALSE(r.catalogue);
  REQUIRE(r.diagnostics.all().size() == 1);
  const Diagnostic& d = r.diagnostics.all()[0];
  CHECK(d.code == "twice");
  CHECK(d.place.line == 2);
  CHECK(d.place.column == 3);
  CHECK(r.sources.files[static_cast<std::size_t>(d.place.file)].name.find("second.yaml") != std::string::npos);
}

TEST_CASE("a transistor's own diode that the catalogue lacks") {
  expect("parts:\n"
         "  o: {kind: controller-output, title: t, on: 60 mohm, check: 10 kohm, limit: 7 A, body diode: silicone, source: x, confidence: low}\n",
         {{2, 95, "unknown-diode", "silicone"}});
}

TEST_CASE("a broken table of fittings") {
  const auto row = [](const std::string& rest) { return "fittings:\n  red: {kind: terminal, title: t, " + rest + "use: u, source: s, confidence: low}\n"; };
  expect(row("awg: [16 AWG, 22 AWG], "), {{2, 41, "wire-range", "[22 AWG, 16 AWG]"}});
  expect(row("metric: [0.5 mm2], "), {{2, 44, "wire-range", "the thinnest and the thickest"}});
  expect(row("metric: [16 AWG, 1.5 mm2], "), {{2, 44, "wire-size", "[0.5 mm2, 1.5 mm2]"}});
  expect("fittings:\n  red: {kind: screw, title: t, use: u, source: s, confidence: low}\n", {{2, 15, "unknown-word", "terminal"}});
}

TEST_CASE("a contact function that carries nothing has no lamp; a signal is worked by one that there is") {
  expect("contact functions:\n  empty: {title: t, short: s, own: dim}\nsource: s\nconfidence: low\n", {{2, 3, "contact-function", "carries nothing"}});
  expect("contact functions:\n  glow: {title: t, short: s, kind: lamp, with: lights}\nsource: s\nconfidence: low\n", {{2, 48, "signal", "'lights'"}});
}

TEST_CASE("a lamp function that wants a signal which no contact can carry") {
  expect("functions:\n  tail: {title: tail, car: car.lamps, tow: [SIDE-tale]}\ncircuits:\n  tail: {colour: BN}\nsource: s\nconfidence: low\n",
         {{2, 45, "signal", "'left-tale'"}, {2, 45, "signal", "'right-tale'"}});
}
