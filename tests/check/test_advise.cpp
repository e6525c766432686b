// Advice held against the trade's decision table: car classes by coach by method. The table's own letters stand here:
// Y works, y works with something more, N does not. Held: N or not, and whether a converter is asked for.
#include "check/advise.hpp"

#include <algorithm>

#include "circuit/fixture.hpp"

using namespace towloom;

namespace {

const char* const methods[] = {"single-diode",       "two-way-diodes",     "added-bulbs",    "removable-lamps", "relay-change-over",
                               "battery-fed-relays", "powered-module",     "field-effect",   "dedicated-strips"};

struct CarClass {
  const char* name;
  std::string lamps;
};

std::string side_rows(const char* function, const char* source, const char* drive, const char* node, const char* in = nullptr) {
  std::string out;
  for (const std::string side : {"left", "right"}) {
    const std::string name = in == nullptr ? side + " rear" : side + " " + function;
    out += "    " + name + ": {" + (in == nullptr ? "" : "in: " + side + " rear, ") + function + ": " + source + ", drive: " + drive +
           ", feed: GY/VT 0.75 mm2, node: " + node + (std::string(node).back() == '_' ? side.substr(0, 1) : "") + "}\n";
  }
  return out;
}

const std::string plate = "    plate: {plate: R5W, feed: PK/BK 0.5 mm2, node: TAIL}\n";

// K1 to K7 of the trade: combined or separate, filament or LED, pulse-modulated, data bus, switched in the return.
const CarClass cars[] = {
    {"K1", side_rows("stop-turn", "P21/5W bright", "switched", "ST_") + side_rows("tail", "P21/5W dim", "switched", "TAIL", "in") + plate},
    {"K2", side_rows("stop", "P21W", "switched", "STOP") + side_rows("turn", "P21W", "switched", "TURN_", "in") + side_rows("tail", "R5W", "switched", "TAIL", "in") + plate},
    {"K3", side_rows("stop-turn", "LED 0.55 A", "controller", "ST_") + side_rows("tail", "LED 0.12 A", "controller", "T_", "in")},
    {"K4", side_rows("stop", "LED 0.5 A", "controller", "S_") + side_rows("turn", "P21W", "controller", "TURN_", "in") + side_rows("tail", "LED 0.12 A", "controller", "T_", "in")},
    {"K5", side_rows("tail-stop", "LED 0.45 A", "pulse-modulated", "A_") + side_rows("turn", "P21W", "controller", "B_", "in")},
    {"K6", side_rows("stop", "LED 0.45 A", "data-bus", "BUS") + side_rows("turn", "LED 0.4 A", "data-bus", "BUS", "in") + side_rows("tail", "LED 0.1 A", "data-bus", "BUS", "in")},
    {"K7", side_rows("stop-turn", "P21/5W bright", "ground-switched", "LIVE") + side_rows("tail", "P21/5W dim", "ground-switched", "LIVE", "in")},
};

std::string survey(const CarClass& car, bool separate, const std::string& extras = "") {
  const std::string form = separate ? "iso-13" : "blade-7";
  std::string found;
  const std::vector<std::pair<const char*, const char*>> contacts =
      separate ? std::vector<std::pair<const char*, const char*>>{{"1", "left"}, {"4", "right"}, {"6", "stop"}, {"9", "charge"}}
               : std::vector<std::pair<const char*, const char*>>{{"TAIL", "tail"}, {"LT", "left"}, {"RT", "right"}, {"BAT", "charge"}};
  for (const auto& [contact, does] : contacts)
    found += "    \"" + std::string(contact) + "\": {does: " + does + ", open: 13.6 V, loaded: 13.2 V, load: 4.2 A}\n";
  return "job: {title: t, number: A1, date: 2026-11-25, by: test}\n"
         "coach:\n  outlet: " + form + ", rear\n  signals: " + (separate ? "separate" : "combined") + "\n  found:\n" + found +
         "cord: {length: 2.4 m, wire: 14 AWG}\n"
         "car:\n  inlet: {form: " + form + "}\n  battery: engine bay\n  towing: {ignition: off, stop lamps: live}\n"
         "  stop switch: {kind: switch, feeds: [STOP]}\n  lamps:\n" + car.lamps +
         extras +
         "runs:\n  front: {from: inlet, to: left rear, length: 5.2 m}\n  cross: {from: left rear, to: right rear, length: 1.4 m}\n"
         "grounds:\n  G-F: {at: front stud, takes: coach white}\n";
}

std::vector<Candidate> advice(const std::string& text, fixture::Job& job) {
  const int file = job.sources.add("job.yaml", text);
  job.catalogue = read_catalogue(std::filesystem::path(TOWLOOM_ROOT) / "specs", job.sources, job.diagnostics);
  const auto root = read_yaml(file, job.sources, job.diagnostics);
  if (root) job.spec = read_job(*root, file, job.diagnostics);
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  REQUIRE(job.spec.has_value());
  return advise(*job.spec, *job.catalogue);
}

const Candidate& find(const std::vector<Candidate>& all, const std::string& method) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const Candidate& c) { return c.method->name == method; });
  REQUIRE(at != all.end());
  return *at;
}

bool needs(const Candidate& c, const std::string& word) {
  return std::any_of(c.extras.begin(), c.extras.end(), [&](const std::string& e) { return e.find(word) != std::string::npos; });
}

struct Row {
  const char* car;
  bool separate;
  const char* works;       // M1 to M9
  const char* converter;   // C where the table asks for a converter, - where not, . where nothing is held
};

// Columns: M1 single diode, M2 two-way diodes, M3 added bulbs, M4 removable lamps, M5 relay change-over, M6 battery-fed
// relays, M7 powered module, M8 field-effect, M9 strips.
const Row rows[] = {
    {"K1", false, "NYYYYYYYY", ".--------"},
    // The powered module's own table has no stop input: the converter stands before it, as the table says for all.
    {"K1", true, "Nyyyyyyyy", ".CCCCCCCC"},
    {"K2", false, "NyYYyyyyY", ".--------"},
    {"K2", true, "NYyyYYYYy", ".-CC----C"},
    {"K3", false, "NyyYYYYYY", ".--------"},
    {"K3", true, "Nyyyyyyyy", ".CCCCCCCC"},
    {"K4", false, "NyyYyyyyY", ".--------"},
    {"K4", true, "NyyyYYYYy", ".-CC----C"},
    {"K5", false, "NNyYNNyNY", "..--....-"},
    {"K6", false, "NNyYNNNNY", "..--....-"},
    {"K7", false, "NNYYNyNNY", "..--....-"},
};

// Where the solved answer is another one than the table's, and why.
std::string disagreement(const Row& row, const std::string& method) {
  // The table allows relays in the lamp's return; the shipped battery-fed relays switch the feed. A method of the
  // fitter's own can do it.
  if (std::string(row.car) == "K7" && method == "battery-fed-relays") return "N";
  // ISO 11446 carries left and right tail on two wires; the shipped module has one tail input.
  if (row.separate && method == "powered-module") return "N";
  // Solved: behind the block's diode the car's own tail pulses give less than a tenth of the light.
  if (std::string(row.car) == "K5" && method == "powered-module") return "N";
  return "";
}

}  // namespace

TEST_CASE("the decision table of car classes, coaches and methods") {
  for (const Row& row : rows) {
    CAPTURE(row.car);
    CAPTURE(row.separate);
    const auto car = std::find_if(std::begin(cars), std::end(cars), [&](const CarClass& c) { return std::string(c.name) == row.car; });
    fixture::Job job;
    const auto all = advice(survey(*car, row.separate), job);
    for (int m = 0; m < 9; ++m) {
      const Candidate& c = find(all, methods[m]);
      CAPTURE(methods[m]);
      CAPTURE(c.why);
      std::string expected(1, row.works[m]);
      if (const std::string other = disagreement(row, methods[m]); !other.empty()) expected = other;
      CHECK((c.advice == Advice::does_not) == (expected == "N"));
      if (c.advice == Advice::does_not) continue;
      if (row.converter[m] == 'C') CHECK(needs(c, "converter"));
      if (row.converter[m] == '-') CHECK_FALSE(needs(c, "converter"));
    }
  }
}

// Trade: combined filament car behind a combined coach with a brake that presses the pedal: diodes with a stop-lamp
// cut-off; the relay change-over saves the cut-off.
TEST_CASE("a pressed pedal asks the diodes for a cut-off, not the change-over relays") {
  fixture::Job job;
  const auto all = advice(survey(cars[0], false, "extras:\n  pedal brake: {fuse: 15 A, at: left rear}\n"), job);
  CHECK(needs(find(all, "two-way-diodes"), "cut-off"));
  CHECK(find(all, "two-way-diodes").advice == Advice::with_extras);
  CHECK(find(all, "relay-change-over").advice == Advice::works);
  CHECK_FALSE(needs(find(all, "relay-change-over"), "cut-off"));
  CHECK_FALSE(needs(find(all, "dedicated-strips"), "cut-off"));
}
