// The 22 checks that the trade asks of a drawing tool, each by its rule, with a job that passes and one that fails; and
// three more that its list of mistakes teaches.
#include <set>

#include "catalogue/settle.hpp"
#include "check/mistakes.hpp"

using namespace towloom;
using namespace towloom::fixture;

namespace {

struct Check {
  int number;                  // of the trade's list; 23 and up: taught by its complaints
  const char* rule;
  Severity severity;
  const char* job;
  std::vector<Edit> sound, wrong;   // edits of the job's text
};

const Edit tapped{"isolation: {method: two-way-diodes, diode: silicon, plate: with left tail}", "isolation: {method: single-diode, diode: silicon}"};
const Edit dark_plate{"node: TAIL}\n    high stop", "node: TAIL, in tow: dark}\n    high stop"};
const Edit no_cut_off{"  stop-lamp cut-off: {rests: closed, coil: charge, fuse: 2 A}\n", ""};
const Edit no_charge{"  charge line: {limiter: diode, diode: low-drop, fuse: 15 A}\n", ""};   // with it the coach would feed the unit
const Edit no_converter{"  converter: converter-separate-to-combined\n  converter-at: left grommet\n  fuse: 10 A\n", ""};
Edit brake(const std::string& rows) { return {"  pedal brake: {fuse: 15 A}", "  pedal brake: {fuse: 15 A}\n  " + rows}; }
Edit brake_is(const std::string& rows) { return {"  pedal brake: {fuse: 15 A}", "  " + rows}; }

const Check checks[] = {
    {1, "lamp-differs", Severity::error, "mended-hatchback", {}, {dark_plate, tapped}},
    {1, "back-feed", Severity::error, "mended-hatchback", {}, {dark_plate, tapped}},
    {2, "method-unsuited", Severity::error, "plain-hatchback", {}, {{"left rear: {stop-turn: P21/5W bright,", "left rear: {stop-turn: P21/5W bright, drive: data-bus,"}}},
    {2, "method-unsuited", Severity::error, "plain-hatchback", {}, {{"left rear: {stop-turn: P21/5W bright,", "left rear: {stop-turn: P21/5W bright, drive: ground-switched,"}}},
    {3, "signal-lost", Severity::error, "delivery-van", {}, {no_converter}},
    {4, "lamp-colour", Severity::error, "plain-hatchback", {}, {{"left rear: {stop-turn: P21/5W bright,", "left rear: {stop-turn: P21/5W bright, lens: amber,"}}},
    {5, "brake-conflict", Severity::error, "mended-hatchback", {}, {no_cut_off}},
    {6, "rests-open", Severity::warning, "mended-hatchback", {}, {{"rests: closed", "rests: open"}}},
    {7, "plate-dark", Severity::warning, "plain-hatchback", {},
     {{", plate: with left tail}", "}"}, {"branch: upstream of left rear}", "branch: upstream of left rear, in tow: dark}"}}},
    {8, "fuse-unknown", Severity::warning, "mended-hatchback", {}, {{", fuse: 10 A}   # 30 A", "}   # 30 A"}}},
    {9, "fuse-over", Severity::error, "mended-hatchback", {}, {{"loaded: 13.3 V, fuse: 10 A}", "loaded: 13.3 V, fuse: 40 A}"}}},
    {10, "load-dead", Severity::error, "mended-hatchback", {no_charge, brake_is("battery disconnect: yes\n  pedal brake: {fuse: 15 A, returns-to: battery negative}")},
     {no_charge, brake_is("battery disconnect: yes\n  pedal brake: {fuse: 15 A}")}},
    {12, "low-volts", Severity::warning, "plain-hatchback", {}, {{"\"3\": {does: left, open: 13.5 V, loaded: 12.9 V", "\"3\": {does: left, open: 13.5 V, loaded: 10.5 V"}}},
    {15, "ground-surface", Severity::warning, "mended-hatchback", {{"G-F: {at: front rail stud,", "G-F: {at: front rail stud, on: bare steel,"}},
     {{"G-F: {at: front rail stud,", "G-F: {at: front rail stud, on: painted,"}, {"limits: {drop: 0.9 V}", "limits: {drop: 9 V}"}}},
    {15, "ground-surface", Severity::warning, "large-pickup", {}, {{"G-RL: {at: frame stud rear left,", "G-RL: {at: frame stud rear left, on: aluminium,"}}},
    {16, "coil-spike", Severity::warning, "old-roadster", {}, {{"  signals: combined\n", "  signals: combined\n  detection: load\n"}}},
    {17, "lamp-differs", Severity::error, "old-roadster", {}, {{"extras:\n", "extras:\n  battery disconnect: yes\n"}}},
    {17, "battery-flat", Severity::warning, "mended-hatchback", {{"stop lamps: live}", "stop lamps: live, standing draw: 0.9 A}"}},
     {{"stop lamps: live}", "stop lamps: live, standing draw: 0.9 A}"}, {"  charge line: {limiter: diode, diode: low-drop, fuse: 15 A}\n", ""}}},
    {18, "diode-idle", Severity::warning, "mended-hatchback", {}, {as_found("  D4.A1: {band: away, date: 2026-11-25, why: test}\n")}},
    {19, "splice-full", Severity::warning, "plain-hatchback", {}, {}},
    {21, "brake-pulsed", Severity::warning, "mended-hatchback", {brake("brake signal from left and right: yes")}, {with_mistakes(), brake("two-diode brake signal: yes")}},
    {22, "converter-limit", Severity::warning, "delivery-van", {}, {}},
    // Taught by the complaints.
    {23, "sides-joined", Severity::error, "plain-hatchback", {}, {with_mistakes(), {"method: two-way-diodes", "method: bypassed-cut"}}},
    {24, "live-unplugged", Severity::warning, "mended-hatchback", {}, {{"limiter: diode, diode: low-drop, fuse: 15 A", "limiter: none, fuse: 15 A"}}},
    {25, "load-dead", Severity::error, "mended-hatchback", {brake_is("battery disconnect: yes\n  brake signal: {from: left}")},
     {brake_is("battery disconnect: yes\n  brake signal: {from: left, returns-to: battery negative}")}},
    {26, "no-fuse", Severity::error, "mended-hatchback", {}, {}},
    {27, "charge-none", Severity::warning, "mended-hatchback", {}, {{"extras:\n", "extras:\n  battery disconnect: yes\n"}}},
    {28, "stop-asleep", Severity::warning, "mended-hatchback", {no_cut_off}, {no_cut_off, {"stop lamps: live", "stop lamps: asleep"}}},
    {29, "monitor-current", Severity::warning, "plain-hatchback", {}, {{"monitoring: none", "monitoring: on-current"}}},
    {30, "output-loaded", Severity::warning, "low-coupe", {}, {{"bleed: 1 kohm", "bleed: 47 ohm"}}},
    {31, "not-detected", Severity::warning, "led-wagon", {}, {{"  signals: combined\n", "  signals: combined\n  detection: load\n"}}},
    {33, "method-doubtful", Severity::warning, "plain-hatchback", {}, {{"monitoring: none", "monitoring: off-pulse"}}},
    {40, "pulsed-coil", Severity::error, "old-roadster", {}, {{"  signals: combined\n", "  outputs: pulse-modulated\n  duty: 70 %\n  signals: combined\n"}}},
    {41, "pulsed-isolator", Severity::warning, "low-coupe", {}, {{"  signals: combined\n", "  outputs: pulse-modulated\n  duty: 86 %\n  signals: combined\n"}}},
    {33, "method-doubtful", Severity::warning, "plain-hatchback", {}, {{"  signals: combined ", "  outputs: pulse-modulated\n  signals: combined "}}},
    {34, "outlet-overloaded", Severity::warning, "led-wagon", {{"  signals: combined\n", "  signals: combined\n  limit: 2 A\n"}},
     {{"  signals: combined\n", "  signals: combined\n  limit: 2 A\n"}, {"method: powered-module, at: left grommet, fuse: 10 A, diode: low-drop", "method: two-way-diodes, diode: low-drop"},
      {"stop-turn: LED 0.55 A, drive: controller, feed: OG/TQ", "stop-turn: LED 3 A, drive: controller, feed: OG/TQ"}}},
    {35, "sensor-bypassed", Severity::warning, "mended-hatchback", {{"battery: engine bay left", "battery: {at: engine bay left, sensor: yes}"}},
     {{"battery: engine bay left", "battery: {at: engine bay left, sensor: yes}"}, brake_is("pedal brake: {fuse: 15 A, returns-to: battery negative}")}},
    {36, "extra-missing", Severity::warning, "mended-hatchback", {}, {no_cut_off}},
    {3, "method-unsuited", Severity::error, "compact-sedan", {}, {{"  signals: combined\n", "  signals: separate\n"}}},
    {37, "engine-off", Severity::warning, "mixed-hatchback", {{"load: 4.2 A, fuse: 10 A}", "load: 4.2 A, fuse: 10 A, live: always}"}}, {{"by: workshop", "by: another"}}},
    {38, "hot-leak", Severity::warning, "off-roader", {{"diode: low-drop, plate", "diode: silicon, plate"}}, {{"by: workshop", "by: another"}}},
    {39, "flash-rate", Severity::warning, "plain-hatchback", {{"  signals: combined ", "  flasher: {kind: variable load, cycles: [350/350 ms]}\n  signals: combined "}},   // 86 a minute
     {{"  signals: combined ", "  flasher: {kind: variable load, cycles: [160/160 ms]}\n  signals: combined "}}},                                                       // 188
    {32, "resistor-hot", Severity::warning, "plain-hatchback", {{"\nruns:\n", "\nextras:\n  detection load: {load: 100 ohm}\nruns:\n"}},
     {{"\nruns:\n", "\nextras:\n  detection load: {load: 6 ohm}\nruns:\n"}}},
};

Facts facts_of(const Check& c, const std::vector<Edit>& edits) {
  const Checked job = checked(edited(shown_job(c.job), edits));
  return job.facts->spec.as_found.empty() ? *job.facts : found_of(job).facts;
}

const RuleRow* table_row(const std::string& id) {
  for (const RuleRow& row : rule_table())
    if (row.id == id) return &row;
  return nullptr;
}

void run(const Check& c) {
  CAPTURE(c.number);
  const RuleRow* row = table_row(c.rule);
  REQUIRE(row != nullptr);
  CHECK(row->severity == c.severity);
  CHECK(std::string(row->reason).size() > 10);
  const Facts sound = facts_of(c, c.sound);
  CHECK(find_finding(sound, c.rule) == nullptr);
  if (c.wrong.empty()) return;   // its failing job stands below
  const Facts wrong = facts_of(c, c.wrong);
  const Finding* f = find_finding(wrong, c.rule);
  REQUIRE(f != nullptr);
  CHECK(f->place.known());
  CHECK_FALSE(f->action.empty());
}

}  // namespace

TEST_CASE("each check of the trade passes a sound job and fails one with the mistake") {
  int number = 0;
  for (const Check& c : checks) {
    const std::string name = std::to_string(++number) + " " + c.rule;
    SUBCASE(name.c_str()) { run(c); }
  }
}

// 11: the return is in every drop, and a thin ground is said.
TEST_CASE("check 11: a ground thinner than a signal is said, and its loss is in the lamp's volts") {
  const Edit thin{"wire: {standard: AWG, lamps: auto ribbon of 4}", "wire: {standard: AWG, lamps: 14 AWG, ground: 18 AWG}"};
  const Edit thick{"wire: {standard: AWG, lamps: auto ribbon of 4}", "wire: {standard: AWG, lamps: 14 AWG, ground: 14 AWG}"};
  const Edit far{"G-F: {at: front frame stud, takes: coach white}", "G-F: {at: left grommet, takes: coach white}"};
  const Edit budget{"limits: {drop: 0.7 V}", "limits: {drop: 2 V}"};
  const Checked a = checked(edited(shown_job("plain-hatchback"), {thin, far, budget})), b = checked(edited(shown_job("plain-hatchback"), {thick, far, budget}));
  CHECK(find_finding(*a.facts, "thin-ground") != nullptr);
  CHECK(find_finding(*b.facts, "thin-ground") == nullptr);
  const auto volts = [](const Checked& c) { return c.facts->states.lamps[scene_of(*c.facts, "tail + stop")][0].volts; };
  CHECK(volts(b) - volts(a) > 0.03);   // 1.6 m x (20.9 - 8.3) mohm/m x some 6 A = 0.12 V, less what dimmer lamps draw
}

// 13: a connector's file without half, key or contact is refused; both faces mirror each other (tests/published).
TEST_CASE("check 13: a connector without its key is refused, at its line of the job that defines it") {
  const std::string text = changed(shown_job("workshop-special"), "    key: key\n", "");
  Sources sources;
  Diagnostics diagnostics;
  const int file = sources.add("job.yaml", text);
  const auto root = read_yaml(file, sources, diagnostics);
  REQUIRE(root.has_value());
  const Spec spec = read_rows(*root, file, diagnostics);
  CHECK(spec.definitions.size() == 2);   // the plug and the method
  CHECK_FALSE(read_catalogue(std::filesystem::path(TOWLOOM_ROOT) / "specs", sources, diagnostics, {}, spec.definitions).has_value());
  REQUIRE(diagnostics.has_errors());
  CHECK(diagnostics.all()[0].message.find("key") != std::string::npos);
  CHECK(diagnostics.all()[0].place.file == file);
  CHECK(diagnostics.all()[0].place.line > 40);
}

// 14: a core that joins two functions is solved as it was metered, and found.
TEST_CASE("check 14: a crossed core of the cord is found, a straight one is not") {
  const auto crossed = [](const char* cores) {
    const Checked k = checked(edited(shown_job("mended-hatchback"), {{"kind: coiled}", "kind: coiled, continuity: " + std::string(cores) + "}"}}));
    return find_finding(*k.facts, "crossed-core") != nullptr;
  };
  CHECK_FALSE(crossed("{LT: LT, RT: RT, BAT: A}"));
  CHECK(crossed("{LT: RT, RT: LT}"));
}

// 20: sides are the vehicle's: where the driver sits changes nothing.
TEST_CASE("check 20: left and right are the same in a right-hand-drive job") {
  const Checked left = checked(shown_job("plain-hatchback")), right = checked(edited(shown_job("plain-hatchback"), {{"drive: left-hand", "drive: right-hand"}}));
  REQUIRE(left.facts->states.scenes.size() == right.facts->states.scenes.size());
  for (std::size_t s = 0; s < left.facts->states.scenes.size(); ++s)
    for (std::size_t l = 0; l < left.facts->states.lamps[s].size(); ++l) CHECK(left.facts->states.lamps[s][l].volts == right.facts->states.lamps[s][l].volts);
  const auto swapped = found_of(checked(edited(shown_job("plain-hatchback"), {as_found("  left and right exchanged at J1.3 and J1.4 (cord): {date: 2026-11-25, why: test}\n")})));
  CHECK(find_finding(swapped.facts, "lamp-differs", "left rear") != nullptr);
}

// 19: the builder itself joins three wires at most in the shown plain job; four in one sleeve are said.
TEST_CASE("check 19: a sleeve with four wires is said") {
  Checked c = checked(shown_job("plain-hatchback"));
  Circuit& k = c.facts->sized.circuit;
  const auto splice = std::find_if(k.parts.begin(), k.parts.end(), [](const Part& p) { return p.kind == "splice" && p.status == Status::fitted; });
  REQUIRE(splice != k.parts.end());
  Wire more;
  more.id = "W99";
  more.from = {{static_cast<int>(splice - k.parts.begin())}, 0};
  more.to = k.terminal("D1.A1");
  more.fixed_ohm = 1;
  k.wires.push_back(more);
  const auto findings = check(c.facts->spec, *c.job.catalogue, c.facts->sized, c.facts->states);
  CHECK(std::any_of(findings.begin(), findings.end(), [](const Finding& f) { return f.rule == "splice-full"; }));
}

TEST_CASE("check 22: a converter that finds stop and turn again says its limit") {
  const Checked c = checked(shown_job("compact-sedan"));
  const Finding* f = find_finding(*c.facts, "converter-limit", "hazard");
  REQUIRE(f != nullptr);
  CHECK(f->place.known());
}

TEST_CASE("a charge wire without a fuse at the car's battery is said where it is found") {
  const Checked c = checked(shown_job("inherited-hatchback"));
  CHECK(find_finding(*c.facts, "no-fuse") == nullptr);            // as meant
  CHECK(find_finding(found_of(c).facts, "no-fuse", "FU2") != nullptr);   // as found
}

// A rule of thumb never overrules the solution: where they disagree both are said.
TEST_CASE("an unsuited method that shows no wrong lamp says so") {
  const Edit tap{"isolation: {method: two-way-diodes, diode: silicon, plate: with left tail}", "isolation: {method: single-diode, diode: silicon}"};
  const Edit dark{"branch: upstream of left rear}", "branch: upstream of left rear, in tow: dark}"};
  const Finding* wrong = find_finding(*checked(edited(shown_job("plain-hatchback"), {tap, dark})).facts, "method-unsuited");
  REQUIRE(wrong != nullptr);
  CHECK(wrong->message.find("shows no wrong lamp") == std::string::npos);
}

TEST_CASE("every rule has its long story") {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "styles" / "words" / "english.yaml");
  std::ostringstream text;
  text << in.rdbuf();
  for (const RuleRow& row : rule_table()) {
    CAPTURE(row.id);
    const std::size_t at = text.str().find("\n  explain-" + std::string(row.id) + ": \"");
    REQUIRE(at != std::string::npos);
    CHECK(text.str().find('\n', at + 1) - at > 80);
  }
}

// 17: relays that feed filament tails from the car's battery, and no charge line: hours to flat are said.
TEST_CASE("check 17: battery-fed filament tails without a charge line") {
  const Checked c = checked(shown_job("old-roadster"));
  const Finding* f = find_finding(*c.facts, "battery-flat");
  REQUIRE(f != nullptr);
  // By hand: two tails of 0.44 A and a plate lamp of 0.40 A at 12.8 V are 1.3 A; 25 Ah last some 19 hours.
  const double hours = std::stod(f->message.substr(f->message.find("about ") + 6));
  CHECK(hours > 16);
  CHECK(hours < 23);
}
