// Slips of the pen: each is one change to the plain job, with the error and place written by hand.
#include <doctest/doctest.h>

#include <algorithm>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "spec/job_text.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {

// `from` becomes `to` on the first line that begins (after blanks) with `row`; the error stands on
// that line where `at` begins in the changed line.
struct Slip {
  const char *row, *from, *to, *at, *code, *fragment;
};

std::string describe(const Diagnostics& diagnostics) {
  std::string out;
  for (const Diagnostic& d : diagnostics.all())
    out += std::to_string(d.place.line) + ":" + std::to_string(d.place.column) + " " + d.code +
           " " + d.message + "\n";
  return out;
}

std::size_t find_row(const std::vector<std::string>& lines, const std::string& row) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::size_t first = lines[i].find_first_not_of(' ');
    if (first != std::string::npos && lines[i].compare(first, row.size(), row) == 0) return i;
  }
  return lines.size();
}

void expect(const Slip& slip) {
  CAPTURE(slip.row);
  CAPTURE(slip.to);
  auto lines = lines_of(plain_text());
  const std::size_t i = find_row(lines, slip.row);
  REQUIRE(i < lines.size());
  const std::size_t at = lines[i].find(slip.from);
  REQUIRE(at != std::string::npos);
  lines[i].replace(at, std::string(slip.from).size(), slip.to);
  const std::size_t column = lines[i].find(slip.at);
  REQUIRE(column != std::string::npos);
  const auto r = read_text(joined(lines));
  CHECK_FALSE(r.spec);
  const auto& all = r.diagnostics.all();
  const bool said = std::any_of(all.begin(), all.end(), [&](const Diagnostic& d) {
    return d.code == slip.code && d.place.line == static_cast<int>(i) + 1 &&
           d.place.column == static_cast<int>(column) + 1 &&
           (d.message + "\n" + d.hint).find(slip.fragment) != std::string::npos;
  });
  INFO(describe(r.diagnostics));
  CHECK(said);
}

}  // namespace

TEST_CASE("wrong or absurd quantities") {
  for (const Slip& slip : std::vector<Slip>{
           {"front:", "1.3 m", "-1.3 m", "-1.3", "out-of-range", "above 0"},
           {"front:", "1.3 m", "0 m", "0 m", "out-of-range", "at most 100"},
           {"front:", "1.3 m", "1000000000 m", "1000000000", "out-of-range", "length"},
           {"front:", "1.3 m", "1e9 m", "1e9", "out-of-range", "absurdly long"},
           {"front:", "1.3 m", "1e9 m", "1e9", "out-of-range", "at most 100, like 2.4 m or 8 ft; the longest loop"},
           {"front:", "1.3 m", "1.3", "1.3", "quantity", "2.4 m"},
           {"front:", "1.3 m", "1.3 V", "1.3 V", "quantity", "8 ft"},
           {"front:", "1.3 m", "nan m", "nan", "quantity", "number"},
           {"front:", "1.3 m", "1,3 m", "3 m", "empty-value", "comma"},
           {"\"2\":", "13.6 V", "136 V", "136", "out-of-range", "at most 32"},
           {"\"2\":", "13.6 V", "13.6 A", "13.6 A", "quantity", "13.6 V"},
           {"\"2\":", "13.1 V", "13.9 V", "13.9", "loaded-volts", "below the open"},
           {"\"2\":", "open: 13.6 V, ", "", "13.1", "open-volts", "open volts"},
           {"\"2\":", "4.2 A", "0 A", "0 A", "out-of-range", "4.2 A"},
           {"signals:", "signals: combined", "duty: 80 %", "80 %", "duty", "outputs: pulse-modulated"},
           {"signals:", "signals: combined", "duty: 120 %", "120", "out-of-range", "at most 99 %, like 85 %"},
           {"signals:", "signals: combined", "duty: 0.8", "0.8", "quantity", "85 %"},
           {"cord:", "16 AWG", "16", "16, kind", "wire-size", "16 AWG"},
           {"wire:", "auto ribbon", "thick ribbon", "thick", "wire-size", "auto"}})
    expect(slip);
}

TEST_CASE("wrong words and missing rows") {
  for (const Slip& slip : std::vector<Slip>{
           {"signals:", "combined", "combind", "combind", "unknown-word", "'combined'"},
           {"drive:", "left-hand", "left", "left", "unknown-word", "right-hand"},
           {"towing:", "off", "parked", "parked", "unknown-word", "accessory"},
           {"monitoring:", "none", "no", "no", "unknown-word", "none"},
           {"job:", "2026-11-24", "24.11.2026", "24.11", "date", "2026-11-24"},
           {"job:", "2026-11-24", "2026-13-24", "2026-13", "date", "not a date"},
           {"job:", "number: S01, ", "", "{title", "missing-key", "number"},
           {"cord:", "length: 2.4 m, ", "", "{wire", "missing-key", "length"},
           {"front:", "to: left grommet, ", "", "{from", "missing-key", "'to'"},
           {"isolation:", "method: two-way-diodes, ", "", "{diode", "missing-key", "method"},
           {"front:", "to: left grommet", "to: inlet", "inlet, length", "run-loop", "same place"},
           {"signals:", "combined", "[combined]", "[combined]", "not-text", "one text"}})
    expect(slip);
}

TEST_CASE("slips in lamp rows") {
  for (const Slip& slip : std::vector<Slip>{
           {"left tail:", "in: left rear", "in: right rear", "right rear", "side",
            "different sides"},
           {"plate:", "{plate:", "{in: midle, plate:", "plate:", "unknown-housing", "'midle'"},
           {"left tail:", "in: left rear", "in: left raer", "left tail", "unknown-housing",
            "'left rear'"},
           {"right tail:", "right tail", "left tail", "left tail", "duplicate-key", "line "},
           {"left tail:", "tail: P21/5W dim, ", "", "left tail", "missing-function", "stop-turn"},
           {"left tail:", "dim,", "dim, stop: P21W,", "stop:", "two-functions", "a row of its own"},
           {"left rear:", "feed: GY/VT 0.75 mm2, ", "", "{stop-turn", "missing-key", "feed"},
           {"left rear:", "GY/VT 0.75 mm2", "0.75 mm2 GY/VT", "0.75", "colour", "GY/VT 0.75 mm2"},
           {"left rear:", "GY/VT 0.75 mm2", "GY_VT 0.75 mm2", "GY_VT", "colour", "colour letters"},
           {"left rear:", "0.75 mm2", "0.75", "GY/VT", "wire-size", "0.75 mm2"},
           {"left rear:", "to G-RL", "to G-RL to G-RR", "BK/WH", "return", "two grounds"},
           {"plate:", "2 x", "0 x", "0 x", "lamp-source", "2 x R5W"},
           {"plate:", "2 x", "two x", "two x", "lamp-source", "count"},
           {"high stop:", "LED 0.25 A", "LED", "LED", "lamp-source", "LED 0.25 A"},
           {"high stop:", "LED 0.25 A", "LED 0.25 V", "LED 0.25 V", "lamp-source", "current"},
           {"high stop:", "0.25 A", "-0.25 A", "LED -0.25", "out-of-range", "current"},
           {"reverse:", "in tow: dark", "in tow: dim", "dim", "unknown-word", "dark"}})
    expect(slip);
}

TEST_CASE("every key of the plain job, misspelt once, gives an error on its line") {
  // Names that the fitter gives, or that the isolation method owns, are no keys of the reader.
  const std::set<std::string> names = {
      "left rear", "right rear", "left tail", "right tail", "plate", "high stop", "reverse",
      "front",     "sill",       "cross",     "G-F",        "G-RL",  "G-RR",      "diode"};
  const std::set<std::string> functions = {"stop-turn", "tail", "plate", "chmsl", "reverse"};
  auto lines = lines_of(plain_text());
  const std::regex pattern(R"((^ *|\{|, )([A-Za-z][A-Za-z -]*):( |$))");
  int tried = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string line = lines[i];
    if (line.find_first_not_of(' ') == std::string::npos ||
        line[line.find_first_not_of(' ')] == '#')
      continue;
    for (std::sregex_iterator m(line.begin(), line.end(), pattern), end; m != end; ++m) {
      const std::string word = (*m)[2];
      const bool starts = (*m)[1].str().find_first_not_of(' ') == std::string::npos;
      if (names.count(word) > 0 && (starts || line.rfind("isolation", 0) == 0)) continue;
      if (line.rfind("wire:", 0) == 0 && word == "lamps") continue;  // a circuit's name: known when the circuit is
      // The catalogue knows the functions of lamps: tests/circuit tries each of them misspelt.
      if (!starts && functions.count(word) > 0 && line.find("feed:") != std::string::npos) continue;
      CAPTURE(line);
      CAPTURE(word);
      auto changed = lines;
      changed[i].insert(static_cast<std::size_t>(m->position(2)) + word.size(), "q");
      const auto r = read_text(joined(changed));
      CHECK_FALSE(r.spec);
      const auto& all = r.diagnostics.all();
      CHECK(std::any_of(all.begin(), all.end(), [&](const Diagnostic& d) {
        return d.severity == Severity::error && d.place.line == static_cast<int>(i) + 1;
      }));
      ++tried;
    }
  }
  CHECK(tried >= 70);
}

TEST_CASE("many slips are all reported in one run") {
  std::string text = plain_text();
  for (const auto& [from, to] :
       std::vector<std::pair<std::string, std::string>>{{"2.4 m", "2.4 V"},
                                                        {"combined   ", "combind   "},
                                                        {"monitoring:", "monitorng:"},
                                                        {"1.4 m", "-1 m"}}) {
    REQUIRE(text.find(from) != std::string::npos);
    text.replace(text.find(from), from.size(), to);
  }
  const auto r = read_text(text);
  CHECK_FALSE(r.spec);
  CHECK(r.diagnostics.all().size() == 4);
}

TEST_CASE("dates that no calendar has, ribbons of another count, housings in a chain") {
  expect({"job:", "2026-11-24", "2026-02-31", "2026-02-31", "date", "not a date"});
  expect({"job:", "2026-11-24", "2025-02-29", "2025-02-29", "date", "not a date"});
  expect({"wire:", "ribbon of 4", "ribbon of 9", "auto ribbon of 9", "ribbon", "four wires"});
  expect({"plate:", "plate: 2 x R5W", "in: left tail, plate: 2 x R5W", "plate:", "housing-chain", "in: left rear"});
}

TEST_CASE("figures that cannot be, everywhere one is read") {
  for (const Slip& slip : std::vector<Slip>{
           {"front:", "1.3 m", "1e400 m", "1e400", "quantity", "'1e400 m'"},
           {"front:", "1.3 m", "-5 m", "-5 m", "out-of-range", "above 0"},
           {"front:", "1.3 m", "inf m", "inf", "quantity", "number"},
           {"front:", "1.3 m", "99999999999 ft", "99999999999", "out-of-range", "at most 100"},
           {"cord:", "2.4 m", "1000000000 m", "1000000000", "out-of-range", "at most 100"},
           {"cord:", "16 AWG", "-16 AWG", "-16", "wire-size", "16 AWG"},
           {"cord:", "16 AWG", "0 AWG", "0 AWG", "wire-size", "16 AWG"},
           {"cord:", "16 AWG", "x/0 AWG", "x/0", "wire-size", "16 AWG"},
           {"cord:", "16 AWG", "inf mm2", "inf", "wire-size", "16 AWG"},
           {"cord:", "16 AWG", "nan mm2", "nan", "wire-size", "16 AWG"},
           {"left rear:", "0.75 mm2", "1e9 mm2", "GY/VT", "wire-size", "0.75 mm2"},
           {"\"2\":", "13.6 V", "0 V", "0 V", "out-of-range", "at most 32"},
           {"\"2\":", "13.6 V", "-13.6 V", "-13.6", "out-of-range", "above 0"},
           {"\"2\":", "13.6 V", "1e400 V", "1e400", "quantity", "13.6 V"},
           {"\"2\":", "4.2 A", "-3 A", "-3 A", "out-of-range", "above 0"},
           {"\"2\":", "4.2 A", "nan A", "nan", "quantity", "4.2 A"},
           {"\"2\":", "load: 4.2 A", "load: 4.2 A, fuse: 0 A", "0 A}", "out-of-range", "fuse"},
           {"\"2\":", "load: 4.2 A", "load: 4.2 A, fuse: 20 A, fuse at: -1 m", "-1 m", "fuse-at", "0.15 m"},
           {"\"2\":", "load: 4.2 A", "load: 4.2 A, fuse: 20 A, fuse at: 0.8 m coverd", "0.8 m", "fuse-at", "covered"},
           {"\"2\":", "load: 4.2 A", "load: 4.2 A, fuse at: 0.15 m", "0.15", "fuse-at", "needs the fuse"},
           {"\"2\":", "load: 4.2 A", "load: 4.2 A, off: opne", "opne", "off-state", "'open'"},
           {"\"2\":", "load: 4.2 A", "load: 4.2 A, off: 0 ohm", "0 ohm", "off-state", "470 ohm"},
           {"\"2\":", "load: 4.2 A", "load: 4.2 A, off: 12 V", "12 V", "off-state", "ohms"},
           {"left rear:", "P21/5W bright", "0 A", "0 A", "out-of-range", "above 0"},
           {"left rear:", "P21/5W bright", "1000000000 A", "1000000000", "out-of-range", "at most 200"},
           {"high stop:", "LED 0.25 A", "LED 3 W", "LED 3 W", "lamp-source", "from 9 V"},
           {"high stop:", "LED 0.25 A", "LED 20 ohm", "LED 20", "lamp-source", "volts are missing"},
           {"high stop:", "LED 0.25 A", "LED 0 W from 9 V", "LED 0", "out-of-range", "at most 300"},
           {"high stop:", "LED 0.25 A", "LED 3 W from 0 V", "LED 3", "out-of-range", "above 0"},
           {"high stop:", "LED 0.25 A", "LED 3 W from 13 V", "LED 3", "out-of-range", "at most 12.7"},
           {"high stop:", "LED 0.25 A", "LED 3 W from nine volts", "LED 3", "lamp-source", "'nine volts'"},
           {"high stop:", "LED 0.25 A", "LED 3 W from 9 V from 8 V", "LED 3", "lamp-source", "says nothing"},
           {"limits:", "0.7 V", "0 V", "0 V", "out-of-range", "above 0"},
           {"limits:", "drop: 0.7 V", "ambient: -300 °C", "-300", "out-of-range", "40 °C"},
           {"limits:", "drop: 0.7 V", "ambient: 1000000000 C", "1000000000", "out-of-range", "40 °C"},
           {"plate:", "2 x R5W", "21 x R5W", "21 x", "lamp-source", "count"},
           {"plate:", "2 x R5W", "-2 x R5W", "-2 x", "lamp-source", "count"}})
    expect(slip);
}

TEST_CASE("names of the job's own rows, misspelt") {
  for (const Slip& slip : std::vector<Slip>{
           {"stop switch:", "STOP_SW", "STOP_WS", "STOP_WS", "stop-feed", "did you mean 'STOP_SW'"},
           {"stop switch:", "turn switch", "turn swich", "turn swich", "stop-feed", "did you mean 'turn switch'"},
           {"stop switch:", "kind: switch", "kind: swich", "swich", "unknown-word", "did you mean 'switch'"},
           {"plate:", "upstream of", "upsteam of", "upsteam", "branch", "did you mean 'upstream of'"},
           {"plate:", "upstream of left rear", "upstream of left raer", "upstream", "branch", "did you mean 'left rear'"},
           {"plate:", "upstream of left rear", "left rear", "left rear", "branch", "upstream of left rear"},
           {"left rear:", "to G-RL", "to G-LR", "BK/WH", "unknown-ground", "did you mean 'G-RL'"},
           {"left rear:", "to G-RL", "to chassis", "BK/WH", "unknown-ground", "add it under grounds"},
           {"G-F:", "coach white", "coach wite", "coach wite", "unknown-word", "did you mean 'coach white'"},
           {"G-F:", "takes: coach white", "beside: left gromet", "left gromet", "unknown-place", "did you mean 'left grommet'"},
           {"isolation:", "with left tail", "with left tial", "with left tial", "refeed", "did you mean 'with left tail'"},
           {"isolation:", "with left tail", "left tail", "left tail", "refeed", "with left tail"},
           {"sill:", "from: left grommet", "from: left gromet", "left gromet", "run-end", "did you mean 'left grommet'"},
           {"wire:", "auto ribbon", "atuo ribbon", "atuo", "wire-size", "did you mean 'auto'"},
           {"towing:", "live", "liev", "liev", "unknown-word", "did you mean 'live'"},
           {"left rear:", "node: ST_L", "drive: switchd, node: ST_L", "switchd", "unknown-word", "did you mean 'switched'"},
           {"high stop:", "node: STOP_SW", "in tow: drak, node: STOP_SW", "drak", "unknown-word", "did you mean 'dark'"}})
    expect(slip);
}

TEST_CASE("a job without a ground, or without a run, is refused with one error") {
  for (const char* key : {"grounds:", "runs:"}) {
    auto lines = lines_of(plain_text());
    const std::size_t i = find_row(lines, key);
    REQUIRE(i < lines.size());
    std::size_t end = i + 1;
    while (end < lines.size() && !lines[end].empty() && lines[end][0] == ' ') ++end;
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(i) + 1, lines.begin() + static_cast<std::ptrdiff_t>(end));
    lines[i] += " {}";
    const auto r = read_text(joined(lines));
    INFO(describe(r.diagnostics));
    CHECK_FALSE(r.spec);
    REQUIRE(r.diagnostics.all().size() == 1);
    CHECK(r.diagnostics.all()[0].place.line == static_cast<int>(i) + 1);
  }
}

TEST_CASE("rows that contradict each other: the second one is named, and the first one's line") {
  expect({"isolation:", "with left tail}", "with left tail, by function: {plate: two-way-diodes}}", "two-way-diodes}}", "cut-twice", "line "});
  expect({"plate:", "branch: upstream of left rear", "in tow: dark", "plate:", "dark-and-fed", "line "});
  auto lines = lines_of(plain_text());
  lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(find_row(lines, "plate:")));
  const auto r = read_text(joined(lines));
  REQUIRE(r.diagnostics.all().size() == 1);
  CHECK(r.diagnostics.all()[0].code == "no-plate");
}

TEST_CASE("what a stop switch and a module may feed") {
  const auto with = [](const std::string& switch_row) {
    std::string text = plain_text();
    const std::string from = "stop switch: {kind: switch, feeds: [turn switch, STOP_SW]}";
    text.replace(text.find(from), from.size(), "stop switch: " + switch_row);
    return read_text(text).spec.has_value();
  };
  CHECK(with("{kind: switch, feeds: [turn switch]}"));
  CHECK(with("{kind: switch, feeds: [turn switch, CRUISE]}"));   // feeds more than lamps
  CHECK(with("{kind: module, feeds: [ST]}"));                    // a module's outputs bear its name
  CHECK(with("{kind: module, feeds: [engine controller]}"));
  CHECK_FALSE(with("{kind: switch, feeds: [ST_LL]}"));
}

TEST_CASE("an LED's law as surveyed") {
  const auto row = [](const std::string& source) {
    LampRow out;
    out.source = {source, {}};
    Diagnostics diagnostics;
    read_source(out, diagnostics);
    CHECK_FALSE(diagnostics.has_errors());
    CHECK(out.led);
    return out;
  };
  CHECK(*row("LED 3.2 W from 9 V").watts == doctest::Approx(3.2));
  CHECK(*row("LED 3.2 W from 9 V").from_v == doctest::Approx(9));
  CHECK(*row("LED 20 ohm from 7 V").ohm == doctest::Approx(20));
  CHECK(*row("2 x LED 40 mA from 7.5 V").amps == doctest::Approx(0.04));
  CHECK(row("2 x LED 40 mA from 7.5 V").count == 2);
  CHECK_FALSE(row("LED 0.25 A").from_v);
}

TEST_CASE("volts that cannot be read give one error, not a second one about what was read") {
  auto lines = lines_of(plain_text());
  const std::size_t i = find_row(lines, "\"2\":");
  REQUIRE(i < lines.size());
  const std::size_t at = lines[i].find("13.6 V");
  REQUIRE(at != std::string::npos);
  lines[i].replace(at, 6, "13.6 X");
  const auto r = read_text(joined(lines));
  CHECK_FALSE(r.spec);
  CHECK(r.diagnostics.all().size() == 1);
}

TEST_CASE("the list of known keys holds those that are part of another") {
  const auto r = read_text(std::string("zzz: 1\n") + plain_text());
  const auto& all = r.diagnostics.all();
  const auto said = std::find_if(all.begin(), all.end(), [](const Diagnostic& d) { return d.code == "unknown-key"; });
  REQUIRE(said != all.end());
  CHECK(said->hint.find(", car,") != std::string::npos);
}
