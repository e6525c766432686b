// The 45 complaints of the trade, each with a job that has the mistake and with how towloom shows it: solved (another
// lamp, other volts in the solved circuit), checked (a rule speaks), printed (words that stand on the sheets), or
// outside what a drawing tool can do, and why. The rows were written from the trade's list before the program was
// looked at; each proof holds the mistake against the sound job.
#include <cmath>
#include <set>

#include "catalogue/settle.hpp"
#include "check/mistakes.hpp"
#include "solve/split.hpp"

using namespace towloom;
using namespace towloom::fixture;

namespace {

// Lamps of the mended hatchback in the order of its survey.
enum Mended { stop_l, stop_r, tail_l, tail_r, turn_l, turn_r, plate, high_stop };
// Lamps of the plain hatchback.
enum Plain { st_l, st_r, t_l, t_r, plates, chmsl, reversing };

const Edit tapped{"isolation: {method: two-way-diodes, diode: silicon, plate: with left tail}", "isolation: {method: single-diode, diode: silicon}"};
const Edit dark_plate{"node: TAIL}\n    high stop", "node: TAIL, in tow: dark}\n    high stop"};
const Edit no_cut_off{"  stop-lamp cut-off: {rests: closed, coil: charge, fuse: 2 A}\n", ""};
const Edit no_charge{"  charge line: {limiter: diode, diode: low-drop, fuse: 15 A}\n", ""};

Checked job(const std::string& name, const std::vector<Edit>& edits = {}) { return checked(edited(shown_job(name), edits)); }
Checked mended(const std::vector<Edit>& edits = {}) { return job("mended-hatchback", edits); }
Checked plain(const std::vector<Edit>& edits = {}) { return job("plain-hatchback", edits); }

AsFound plain_found(const std::string& rows) { return found_of(plain({as_found(rows)})); }
AsFound mended_found(const std::string& rows) { return found_of(mended({as_found(rows)})); }
std::string row(const std::string& what, const std::string& seen = "") {
  return "  \"" + what + "\": {" + (seen.empty() ? "" : seen + ", ") + "date: 2026-11-25, why: test}\n";
}

bool says(const std::vector<std::string>& lines, const std::string& words) {
  return std::any_of(lines.begin(), lines.end(), [&](const std::string& line) { return line.find(words) != std::string::npos; });
}
void check_speaks(const Checked& wrong, const Checked& sound, const std::string& rule, const std::string& words = "") {
  const Finding* f = find_finding(*wrong.facts, rule, words);
  REQUIRE_MESSAGE(f != nullptr, rule);
  CHECK(f->place.known());
  CHECK_FALSE(f->action.empty());
  CHECK(find_finding(*sound.facts, rule, words) == nullptr);
}
// A word of the sheets.
std::string printed_word(const std::string& key) {
  Sources sources;
  Diagnostics diagnostics;
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "styles" / "words" / "english.yaml");
  std::ostringstream text;
  text << in.rdbuf();
  const auto root = read_yaml(sources.add("english.yaml", text.str()), sources, diagnostics);
  REQUIRE(root.has_value());
  for (const Entry& e : root->entries)
    if (e.key == "words")
      for (const Entry& w : e.value.entries)
        if (w.key == key) return w.value.text;
  return "";
}
const Catalogue& shipped() {
  static const Checked c = plain();
  return *c.job.catalogue;
}

struct Complaint {
  int number;
  const char* wrong;
  const char* how;
  const char* shown;
  void (*proof)();
};

const Complaint complaints[] = {
    {1, "the left signal lights both rear lamps: they share a stop node and nothing isolates the car side", "solved", "right rear flashes with left",
     [] {
       CHECK(seen(*mended().facts, "left", stop_r) == Seen::dark);
       const auto c = mended({dark_plate, tapped});
       CHECK(seen(*c.facts, "left", stop_l) == Seen::flash);
       CHECK(seen(*c.facts, "left", stop_r) == Seen::flash);
       CHECK(find_finding(*c.facts, "lamp-differs", "right rear stop") != nullptr);
     }},
    {2, "the high stop lamp lights with a turn signal: it hangs on the same stop node", "solved", "high stop flashes with left",
     [] {
       CHECK(seen(*mended().facts, "left", high_stop) == Seen::dark);
       CHECK(seen(*mended({dark_plate, tapped}).facts, "left", high_stop) == Seen::flash);
     }},
    {3, "dash and front lamps of the towed car light: the coach feeds the car's tail node", "solved", "front and dash rows lit with tail; back-feed at the tap",
     [] {
       const Edit more{"    high stop: {chmsl", "    front: {front: 0.4 A, feed: OG/VT 0.5 mm2, node: TAIL}\n    dash: {dash: 0.1 A, feed: OG/VT 0.5 mm2, node: TAIL}\n    high stop: {chmsl"};
       const auto sound = mended({more}), wrong = mended({dark_plate, more, tapped});
       for (const std::size_t lamp : {7, 8}) {
         CHECK(seen(*sound.facts, "tail", lamp) == Seen::dark);
         CHECK(seen(*sound.facts, "car: lamps", lamp) == Seen::lit);
         CHECK(seen(*wrong.facts, "tail", lamp) == Seen::lit);
       }
       check_speaks(wrong, sound, "back-feed", "the coach feeds the car");
     }},
    {4, "a faint flash on the other side with the tail lamps on: the return floats", "solved", "another lamp glows or flashes once the white wire is open",
     [] {
       constexpr std::size_t right_bulb = 6;   // the car's four come first, then left bulb, its tail, right bulb, its tail
       const auto c = found_of(job("city-car", {as_found(row("contact J2.1 open"))}));
       CHECK(seen(*job("city-car").facts, "tail + left", right_bulb) == Seen::dark);
       CHECK(seen(c.facts, "tail + left", right_bulb) == Seen::glow);   // home through the coach's own right lamp
     }},
    {5, "a lamp unit's ground is open: its stop lamp lights with the tail lamps' return, its turn is dead", "solved", "one side only",
     [] {
       const auto c = plain_found(row("ground G-RL open"));
       CHECK(seen(c.facts, "left", st_l) != Seen::flash);
       CHECK(seen(c.facts, "right", st_r) == Seen::flash);
       CHECK(c.rows[0].mends);
     }},
    {6, "tail and turn disturb each other only when the car is coupled: the coach outlet's ground is bad", "solved", "contact J1's ground in the symptom list; the car alone is right",
     [] {
       const auto c = plain_found(row("contact J1.1 badly corroded"));
       const auto sound = plain();
       const auto volts = [](const Facts& f, const char* scene) { return f.states.lamps[scene_of(f, scene)][st_l].volts; };
       CHECK(volts(*sound.facts, "tail + left") - volts(c.facts, "tail + left") > 1);
       CHECK(volts(*sound.facts, "car: lamps + left") == doctest::Approx(volts(c.facts, "car: lamps + left")));
     }},
    {7, "many lamps on at once, some dead: the plug was wired from the wrong face", "solved", "several lamps differ in one scene",
     [] {
       const auto c = mended_found(row("J1 (cord) wired from the wrong face") + row("tow bar", "ohm: 0.3 ohm"));
       const std::size_t s = scene_of(c.facts, "stop");
       int wrong = 0;
       for (std::size_t l = 0; l < c.facts.states.lamps[s].size(); ++l) wrong += c.facts.states.required[s][l] != Seen::may && c.facts.states.required[s][l] != c.facts.states.lamps[s][l].seen;
       CHECK(wrong >= 1);
     }},
    {8, "left and right swapped, tails always on: the same mirror error on a seven-way blade", "solved", "tails lit with all off; right flashes for left",
     [] {
       const auto c = mended_found(row("J1 (cord) wired from the wrong face") + row("tow bar", "ohm: 0.3 ohm"));
       CHECK(seen(c.facts, "all off", tail_l) == Seen::lit);
       CHECK(seen(c.facts, "all off", tail_r) == Seen::lit);
       CHECK(seen(c.facts, "left", stop_r) == Seen::flash);
       CHECK(seen(c.facts, "left", stop_l) == Seen::dark);
     }},
    {9, "it worked with the old cord and not with the new: two cores are crossed", "solved", "cores as metered are solved; a metered cord that crosses is found",
     [] {
       const auto c = mended_found("  cord: {cores: {TAIL: LT, LT: TM}, date: 2026-11-25, why: new cord}\n");
       CHECK(seen(c.facts, "left", stop_l) == Seen::dark);
       CHECK(seen(c.facts, "left", tail_l) == Seen::flash);
       CHECK(c.rows[0].fault.find("exchanged") != std::string::npos);
       check_speaks(mended({{"kind: coiled}", "kind: coiled, continuity: {LT: RT, RT: LT}}"}}), mended(), "crossed-core");
     }},
    {10, "the centre contact does something odd: it was wired by somebody's choice", "checked", "contact-differs asks for the proof and a label",
     [] { check_speaks(mended({{"    BAT: {does: charge", "    \"7\": {does: monitor}\n    BAT: {does: charge"}}), mended(), "contact-differs"); }},
    {11, "the turn signal vanishes while braking: a brake presses the pedal and nothing parts the car's stop feed", "solved", "steady where it must flash, in the scenes with the pedal; brake-conflict",
     [] {
       const auto wrong = mended({no_cut_off}), sound = mended();
       CHECK(seen(*wrong.facts, "stop + left, pedal pressed", stop_l) == Seen::lit);
       CHECK(seen(*sound.facts, "stop + left, pedal pressed", stop_l) == Seen::flash);
       check_speaks(wrong, sound, "brake-conflict", "left rear stop");
     }},
    {12, "right in the shop, wrong on the road an hour later: the car's stop lamps fall asleep", "checked", "stop-asleep: both states are solved and differ; retest after the wait",
     [] {
       const Edit asleep{"stop lamps: live", "stop lamps: asleep"};
       check_speaks(mended({no_cut_off, asleep}), mended({no_cut_off}), "stop-asleep", "left rear stop");
       const auto parted = mended({asleep});
       CHECK(find_finding(*parted.facts, "stop-asleep", "left rear stop") == nullptr);
     }},
    {13, "both lamps steady while braking, the signal lost, no auxiliary brake: diodes were taken for a converter", "solved", "steady in 'stop + left'",
     [] {
       const auto wrong = job("delivery-van", {with_mistakes(), {"converter: converter-separate-to-combined\n  converter-at: left grommet\n  fuse: 10 A\n", "converter: diode-or\n"}});
       CHECK(seen(*wrong.facts, "stop + left", 0) == Seen::lit);
       CHECK(seen(*job("delivery-van").facts, "stop + left", 0) == Seen::flash);
       CHECK(find_finding(*wrong.facts, "lamp-differs") != nullptr);
     }},
    {14, "no stop lamp at all: two converters in line, or a separate coach with none", "checked", "two converters are refused, none is signal-lost",
     [] {
       const Job two = built(edited(shown_job("delivery-van"), {{"method: two-way-diodes\n", "method: powered-module\n"}}));
       CHECK(reported(two, "two-converters", "two converters in line"));
       const auto none = job("delivery-van", {{"  converter: converter-separate-to-combined\n  converter-at: left grommet\n  fuse: 10 A\n", ""}});
       check_speaks(none, job("delivery-van"), "signal-lost", "stop");
     }},
    {15, "amber lamps show stop: combined signals were led to the turn lamps", "checked", "lamp-colour",
     [] { check_speaks(plain({{"left rear: {stop-turn: P21/5W bright,", "left rear: {stop-turn: P21/5W bright, lens: amber,"}}), plain(), "lamp-colour", "amber"); }},
    {16, "dim lamps: old thin coach wiring, 10.5 V at its outlet", "solved", "volts at the lamp and where most are lost",
     [] { check_speaks(plain({{"\"3\": {does: left, open: 13.5 V, loaded: 12.9 V", "\"3\": {does: left, open: 13.5 V, loaded: 10.5 V"}}), plain(), "low-volts", "the coach's own wiring"); }},
    {17, "dim stop and turn behind a converter box that loses 2.5 V", "solved", "volts at the lamp; the box loses most",
     [] { check_speaks(job("delivery-van", {with_mistakes(), {"  fuse: 10 A\n", "  fuse: 10 A\n  module: old-combiner\n"}, {"limits: {drop: 0.9 V}", "limits: {drop: 4 V}"}}), job("delivery-van"), "low-volts", "U1 loses"); }},
    {18, "LED lamps glow when all is off: something leaks", "solved", "glowing with all off; a bleed resistor takes it",
     [] {
       const Edit leaky{"isolation: {method: powered-module,", "isolation: {method: powered-module, module: leaky-repeater,"};
       CHECK(seen(*job("led-wagon").facts, "all off", 0) == Seen::dark);
       CHECK(seen(*job("led-wagon", {with_mistakes(), leaky}).facts, "all off", 0) == Seen::glow);
       CHECK(seen(*job("led-wagon", {with_mistakes(), leaky, {"\nruns:\n", "\nextras: {bleed resistors: yes}\n\nruns:\n"}}).facts, "all off", 0) == Seen::dark);
     }},
    {19, "LED lamps tick when parked: the coach looks for a trailer", "checked", "not-detected: the load on each contact is solved",
     [] {
       const Edit looks{"  signals: combined\n", "  signals: combined\n  detection: load\n"};
       check_speaks(job("led-wagon", {looks}), job("led-wagon"), "not-detected", "left");
       CHECK(find_finding(*job("led-wagon", {looks, {"\nruns:\n", "\nextras:\n  detection load: {load: 47 ohm}\nruns:\n"}}).facts, "not-detected", "left") == nullptr);
     }},
    {20, "the signal flashes fast: a bulb is out, or draws too little", "solved", "the amps on that contact fall; the lamp is dark",
     [] {
       const auto c = plain_found(row("lamp E1 burnt out"));
       const auto amps = [](const Facts& f) {
         const PartId contact = f.circuit().find("J1.3");
         return std::fabs(f.states.solved[scene_of(f, "left")].phase[0].element_a[static_cast<std::size_t>(contact.v)][0]);
       };
       CHECK(seen(c.facts, "left", st_l) == Seen::dark);
       CHECK(amps(*plain().facts) > 1.5);
       CHECK(amps(c.facts) < 0.01);
     }},
    {21, "a load resistor burns the trim", "checked", "resistor-hot: 6 ohm at some 13.5 V is about 30 W",
     [] {
       const auto with = [](const char* ohm) { return plain({{"\nruns:\n", "\nextras:\n  detection load: {load: " + std::string(ohm) + "}\nruns:\n"}}); };
       check_speaks(with("6 ohm"), with("100 ohm"), "resistor-hot");
       const std::string message = find_finding(*with("6 ohm").facts, "resistor-hot")->message;
       const double watts = std::stod(message.substr(message.find("turns ") + 6));
       CHECK(watts > 22);   // 12.2 V behind the outlet's own resistance: 24.8 W
       CHECK(watts < 33);   // 14 V: the trade's own figure
     }},
    {22, "a lamp-out message after diodes were fitted", "checked", "monitor-current with both currents; off-pulse asks for bleed resistors",
     [] {
       check_speaks(plain({{"monitoring: none", "monitoring: on-current"}}), plain(), "monitor-current");
       check_speaks(plain({{"monitoring: none", "monitoring: off-pulse"}}), plain(), "method-doubtful", "pulse");
     }},
    {23, "a lamp output of the car is dead until the key is cycled: it was loaded beyond its own lamps", "checked", "output-loaded",
     [] { check_speaks(job("low-coupe", {{"bleed: 1 kohm", "bleed: 47 ohm"}}), job("low-coupe"), "output-loaded", "LCM_L1"); }},
    {24, "the car's battery is flat on arrival: key in accessory, brake unit, no charge line", "checked", "battery-flat with hours",
     [] {
       const Edit draw{"stop lamps: live}", "stop lamps: live, standing draw: 0.9 A}"};
       check_speaks(mended({draw, no_charge}), mended({draw}), "battery-flat", "hours");
     }},
    {25, "flat in spite of a charge line: its fuse is blown or the contact corroded", "solved", "charge-none speaks in the circuit as found",
     [] {
       const auto sound = mended();
       const std::string fuse = [&] {
         for (const Part& p : sound.facts->circuit().parts)
           if (p.kind == "fuse" && p.status == Status::fitted && p.value == "15 A" && sound.facts->circuit().net(sound.facts->circuit().terminal(p.id + ".2")) == sound.facts->circuit().net(sound.facts->circuit().terminal("BAT.+"))) return p.id;
         return std::string();
       }();
       REQUIRE_FALSE(fuse.empty());
       CHECK(find_finding(*sound.facts, "charge-none") == nullptr);
       const auto c = mended_found(row("fuse " + fuse + " blown"));
       CHECK(find_finding(c.facts, "charge-none") != nullptr);
       CHECK(says(c.rows[0].findings, "charge-none"));
     }},
    {26, "flat although there are volts at the plug: diode and thin wire leave too little", "checked", "charge-none with the amps and the battery's volts",
     [] { check_speaks(mended({{"BAT: {does: charge, open: 13.6 V, loaded: 13.3 V", "BAT: {does: charge, open: 13.3 V, loaded: 12.0 V"}, {"charge line: {limiter: diode, diode: low-drop", "charge line: {limiter: diode, diode: silicon"}}), mended(), "charge-none", "brings"); }},
    {27, "the brake unit stops on the way: its socket sleeps", "checked", "load-dead: its volts are solved in tow",
     [] { check_speaks(mended({with_mistakes(), {"  pedal brake: {fuse: 15 A}", "  socket brake: yes"}}), mended(), "load-dead", "brake unit"); }},
    {28, "the brake drags: its signal comes through two diodes from left and right", "checked", "brake-pulsed",
     [] {
       const auto sound = mended({{"  pedal brake: {fuse: 15 A}", "  pedal brake: {fuse: 15 A}\n  brake signal from left and right: yes"}});
       check_speaks(mended({with_mistakes(), {"  pedal brake: {fuse: 15 A}", "  pedal brake: {fuse: 15 A}\n  two-diode brake signal: yes"}}), sound, "brake-pulsed");
     }},
    {29, "brakes locked and battery flat overnight: the break-away pin was left out", "printed", "a step and a caution of the extra",
     [] {
       CHECK(says(shipped().extras.at("break-away switch").steps, "pin back in"));
       CHECK(says(shipped().extras.at("break-away switch").cautions, "pin left out"));
     }},
    {30, "the break-away does nothing: the disconnect opened its supply", "checked", "load-dead, solved with the pin out and the cord parted",
     [] {
       const auto with = [](const char* where) {
         return mended({{"  pedal brake: {fuse: 15 A}", "  battery disconnect: yes\n  break-away switch: {returns-to: " + std::string(where) + "}"}});
       };
       check_speaks(with("ground"), with("battery negative"), "load-dead", "brake unit driven");
     }},
    {31, "the fuse panel is worn and a fuse broke off in it", "printed", "the fuse-and-switch loop and its caution",
     [] {
       CHECK(says(shipped().extras.at("fuse-and-switch loop").cautions, "wears its socket"));
       CHECK(says(shipped().extras.at("fuse-and-switch loop").steps, "TOW / DRIVE"));
     }},
    {32, "the steering locked and the tyres were dragged: the key was in the wrong position", "outside", "a drawing turns no key; the job's towing state is kept for the customer's card, and a feed that must stay live is load-dead when it is not",
     [] {
       CHECK(mended().facts->spec.car.ignition->value == "off");
       const auto loop = [](const char* state) {
         return mended({{"  pedal brake: {fuse: 15 A}", "  fuse-and-switch loop: {fuse: 10 A, circuit: steering-lock, in-tow: " + std::string(state) + "}"}});
       };
       check_speaks(loop("dead"), loop("live"), "load-dead", "steering lock");
     }},
    {33, "the right tail is dead in tow only: its diode is reversed", "solved", "dark in tow, lit when driven; diode-idle",
     [] {
       const auto c = mended_found(row("D4.A1", "band: away"));
       CHECK(seen(c.facts, "tail", tail_r) == Seen::dark);
       CHECK(seen(c.facts, "tail", tail_l) == Seen::lit);
       CHECK(seen(c.facts, "car: lamps", tail_r) == Seen::lit);
       CHECK(c.rows[0].fault == "diode D4.A1 reversed");
       CHECK(find_finding(c.facts, "diode-idle", "D4.A1") != nullptr);
     }},
    {34, "one side works, the other is dead: the jumper is missing", "solved", "one tail dark",
     [] {
       const auto c = plain_found(row(wire_at(plain().facts->circuit(), "D4.A1") + " open"));
       CHECK(seen(c.facts, "tail", t_l) == Seen::lit);
       CHECK(seen(c.facts, "tail", t_r) == Seen::dark);
     }},
    {35, "the plate lamp is dark: its branch leaves before the cut", "checked", "plate-dark",
     [] { check_speaks(plain({{", plate: with left tail}", "}"}, {"branch: upstream of left rear}", "branch: upstream of left rear, in tow: dark}"}}), plain(), "plate-dark"); }},
    {36, "a module or block is hot or dead: it sits in foam, or is overloaded", "checked", "hot or too-hot, by mounting and watts",
     [] {
       const auto wrong = plain({{"diode: silicon,", "diode: silicon, mounting: in loom,"}, {"limits: {drop: 0.7 V}", "limits: {drop: 0.7 V, ambient: 60 °C}"}});
       CHECK((find_finding(*wrong.facts, "hot") != nullptr || find_finding(*wrong.facts, "too-hot") != nullptr));
       CHECK(find_finding(*plain().facts, "hot") == nullptr);
     }},
    {37, "green crust under tape, intermittent: an unsealed tap in the wheel arch", "solved", "what the tap loses is solved at the lamp",
     [] {
       const auto c = mended_found(row("D1.A1", "loses: 0.9 V, at: 1.9 A"));
       const auto volts = [](const Facts& f) { return f.states.lamps[scene_of(f, "left")][stop_l].volts; };
       CHECK(volts(*mended().facts) - volts(c.facts) == doctest::Approx(0.9).epsilon(0.15));
       CHECK(c.rows[0].mends);
     }},
    {38, "it works while the cord is wiggled: a worn contact or a broken core", "solved", "the open contact stands in the symptom table",
     [] {
       const auto sound = plain();
       std::vector<Fault> faults;
       for (const Fault& f : list_faults(sound.facts->circuit(), *sound.job.catalogue))
         if (f.kind == "contact-open" && f.at == "J1.3") faults.push_back(f);
       REQUIRE(faults.size() == 1);
       const FaultTable table = solve_faults(sound.facts->circuit(), *sound.job.catalogue, sound.facts->states, faults);
       CHECK_FALSE(table.rows[0].symptoms.empty());
     }},
    {39, "water in the lamp, a distorted lens: an added bulb's hole", "printed", "cautions of the method; where the hole belongs is for the eye at the lamp",
     [] {
       CHECK(says(shipped().methods.at("added-bulbs").cautions, "unsealed hole"));
       CHECK(says(shipped().methods.at("added-bulbs").cautions, "distorts the lens"));
     }},
    {40, "the leaflet shows two systems and parts are left over", "outside", "a tool cannot mend a leaflet; its own drawing is of this car: no fitted part is without a wire at each used end",
     [] {
       const auto c = plain();
       for (std::size_t p = 0; p < c.facts->circuit().parts.size(); ++p) {
         const Part& part = c.facts->circuit().parts[p];
         if (part.status != Status::fitted || part.kind == "stud") continue;
         CAPTURE(part.id);
         const auto& wires = c.facts->circuit().wires;
         const auto ends = std::count_if(wires.begin(), wires.end(), [&](const Wire& w) { return w.from.part.v == static_cast<int>(p) || w.to.part.v == static_cast<int>(p); });
         CHECK(ends >= (part.kind == "cap" ? 1 : 2));
       }
     }},
    {41, "hours at the car, and the fault was in the coach", "solved", "one reading splits the two sides of the plug",
     [] {
       const auto c = plain();
       std::vector<Fault> faults;
       for (const Fault& f : list_faults(c.facts->circuit(), *c.job.catalogue))
         if ((f.kind == "contact-open" && f.at == "J1.3") || (f.kind == "diode-open" && f.at == "D1.A1")) faults.push_back(f);
       REQUIRE(faults.size() == 2);
       const FaultTable table = solve_faults(c.facts->circuit(), *c.job.catalogue, c.facts->states, faults);
       REQUIRE(table.classes.size() == 1);   // at the lamps they look the same
       CHECK(split_class(c.facts->circuit(), *c.job.catalogue, c.facts->states, table, table.classes[0]).next.size() == 2);
     }},
    {42, "radio code and windows to be learned after each tow: the battery is opened", "printed", "a caution of the extra",
     [] { CHECK(says(shipped().extras.at("battery disconnect").cautions, "learn again")); }},
    {43, "the wires match the chart and not the car: colours were trusted", "checked", "what a contact was found to do is solved, and said where the chart has something else",
     [] {
       const auto c = plain({{"\"3\": {does: left", "\"3\": {does: right"}, {"\"4\": {does: right", "\"4\": {does: left"}});
       CHECK(seen(*c.facts, "left", st_l) == Seen::flash);
       check_speaks(c, plain(), "contact-differs", "contact 3");
     }},
    {44, "the drawing is of another trim", "outside", "no tool sees the car; the plate's data stand in the title of every sheet",
     [] { CHECK(checked(edited(shown_job("plain-hatchback"), {{"by: workshop}", "by: workshop, car: plate 1234}"}})).facts->spec.job.car == "plate 1234"); }},
    {45, "the airbag lamp is on after the wires were led: a yellow loom was disturbed", "printed", "the caution on the bench sheet; where looms lie is for the eye at the car",
     [] { CHECK(printed_word("caution-work").find("airbag (yellow)") != std::string::npos); }},
};

}  // namespace

TEST_CASE("the 45 complaints of the trade are each solved, checked, printed or outside, with a proof") {
  const std::set<std::string> ways = {"solved", "checked", "printed", "outside"};
  int expected = 0;
  for (const Complaint& c : complaints) {
    CHECK(c.number == ++expected);
    CHECK(ways.count(c.how) == 1);
    CHECK(std::string(c.wrong).size() > 20);
    CHECK(std::string(c.shown).size() > 5);
  }
  CHECK(expected == 45);
}

TEST_CASE("each complaint, run against a job that has the mistake") {
  for (const Complaint& c : complaints) {
    const std::string name = std::to_string(c.number) + ": " + c.wrong;
    SUBCASE(name.c_str()) { c.proof(); }
  }
}
