// The trade's worked choices: class of car, coach, monitoring and brake, then the first and the second choice. Held: both
// stand, with the extras that the trade names, and the first stands first. Advise ranks the car's own lamps before lamps
// brought along, the sure before the doubtful, then by hours; where its order is another than the trade's the row says why.
#include "check/classes.hpp"
#include "check/mistakes.hpp"

using namespace towloom;
using namespace towloom::fixture;

namespace {

const std::string pedal = "extras:\n  pedal brake: {fuse: 15 A, at: left rear}\n";

struct Advised {
  Job job;
  std::vector<Candidate> all;
  const Candidate& operator[](const char* method) const { return candidate(all, method); }
};
std::unique_ptr<Advised> advised(int car, bool separate, const std::string& extras = "", const std::vector<Edit>& edits = {}) {
  auto out = std::make_unique<Advised>();
  out->all = advice(edited(survey(cars[car - 1], separate, extras), edits), out->job);
  return out;
}

void stands(const Candidate& c, const std::vector<std::string>& extras) {
  CAPTURE(c.method->name);
  CAPTURE(c.why);
  CHECK(c.advice == (extras.empty() ? Advice::works : Advice::with_extras));
  CHECK(c.extras.size() == extras.size());
  for (const std::string& e : extras) CHECK(needs(c, e));
}

std::string first(const Advised& a) { return a.all.front().method->name; }
std::size_t rank(const Advised& a, const char* method) {
  const auto at = std::find_if(a.all.begin(), a.all.end(), [&](const Candidate& c) { return c.method->name == method; });
  return static_cast<std::size_t>(at - a.all.begin());
}
// The first that needs no such extra.
std::string first_own_lamps(const Advised& a) {
  const auto at = std::find_if(a.all.begin(), a.all.end(), [](const Candidate& c) { return c.own_lamps(); });
  return at == a.all.end() ? "" : at->method->name;
}

}  // namespace

// Of lamps brought along the trade names bulbs, advise the strips: they take fewer hours.
TEST_CASE("K1 C n 0: two-way diodes, then added bulbs; cheap, proven") {
  const auto a = advised(1, false);
  CHECK(first(*a) == "two-way-diodes");
  CHECK(first_own_lamps(*a) == "dedicated-strips");
  stands((*a)["two-way-diodes"], {});
  stands((*a)["added-bulbs"], {});
}

TEST_CASE("K1 C n P: two-way diodes with the cut-off, then relays that save it") {
  const auto a = advised(1, false, pedal);
  CHECK(first(*a) == "two-way-diodes");
  CHECK(rank(*a, "relay-change-over") < rank(*a, "dedicated-strips"));
  stands((*a)["two-way-diodes"], {"cut-off"});
  stands((*a)["relay-change-over"], {});
}

TEST_CASE("K1 S w n P: converter, then battery-fed relays or a powered module, with the cut-off; diodes are dim") {
  const std::vector<Edit> weak = {{"\"1\": {does: left, open: 13.6 V, loaded: 13.2 V", "\"1\": {does: left, open: 12.4 V, loaded: 10.6 V"}};
  const auto a = advised(1, true, pedal, weak);
  // Diodes come after both: the weak contact makes them doubtful.
  stands((*a)["battery-fed-relays"], {"converter", "cut-off"});
  stands((*a)["powered-combining-module"], {"cut-off"});   // its converter is built in
  CHECK(rank(*a, "battery-fed-relays") < rank(*a, "powered-combining-module"));
  CHECK(rank(*a, "powered-combining-module") < rank(*a, "two-way-diodes"));
  CHECK((*a)["powered-combining-module"].least_v > 11);
  // A converter draws from the car's battery too, so the weak outlet shows where no converter stands between.
  const auto combined = advised(1, false, "", {{"LT\": {does: left, open: 13.6 V, loaded: 13.2 V", "LT\": {does: left, open: 12.4 V, loaded: 10.6 V"}});
  CHECK((*combined)["battery-fed-relays"].least_v > (*combined)["two-way-diodes"].least_v + 1);
}

TEST_CASE("K2 C f P: stop pair by two-way diodes with the cut-off, then relays; a shared stop node") {
  const auto a = advised(2, false, pedal, {{"  stop switch:", "  monitoring: flasher\n  stop switch:"}});
  stands((*a)["two-way-diodes"], {"cut-off"});
  stands((*a)["relay-change-over"], {});
  CHECK(first(*a) == "two-way-diodes");
}

TEST_CASE("K2 S f 0: two-way diodes lamp for lamp, then relays") {
  const auto a = advised(2, true, "", {{"  stop switch:", "  monitoring: flasher\n  stop switch:"}});
  stands((*a)["two-way-diodes"], {});
  stands((*a)["relay-change-over"], {});
}

// The trade's first is diodes lamp for lamp. Solved, converter and silicon diode together leave this car's lamps dim, so
// advise has the field-effect pair before them; the diodes stand, and it says that they are dim.
TEST_CASE("K2 C where the rule wants amber: behind a converter, the sure before the dim") {
  const auto a = advised(2, false);
  const auto amber = std::find_if(a->all.begin(), a->all.end(), [](const Candidate& c) { return needs(c, "converter-combined-to-separate"); });
  REQUIRE(amber != a->all.end());
  CHECK(amber->method->name == "field-effect");
  CHECK(amber->advice == Advice::with_extras);
  const auto diodes = std::find_if(a->all.begin(), a->all.end(), [](const Candidate& c) {
    return c.method->name == "two-way-diodes" && needs(c, "converter-combined-to-separate");
  });
  REQUIRE(diodes != a->all.end());
  CHECK(diodes->advice == Advice::with_extras);
  CHECK(diodes->dim);
  CHECK(amber > a->all.begin());   // the stop pair alone comes first
  CHECK(first(*a) == "two-way-diodes");
}

TEST_CASE("K2 C where the rule wants amber: converter and six functions, with the hazard limit said") {
  const Checked c = checked(shown_job("compact-sedan"));
  CHECK(find_finding(*c.facts, "lamp-differs") == nullptr);
  CHECK(find_finding(*c.facts, "converter-limit") != nullptr);
  CHECK(seen(*c.facts, "left", 2) == Seen::flash);
  CHECK(seen(*c.facts, "stop", 2) == Seen::dark);
}

// What an extra of the job spoils, it spoils under every method: the reason names the extra's fault, not a lamp.
TEST_CASE("a cut-off that the car's battery holds through a charge line that does not block is the reason everywhere") {
  const std::string extras = "extras:\n  pedal brake: {fuse: 15 A, at: left rear}\n  charge line: {limiter: none, fuse: 15 A}\n  stop-lamp cut-off: {at: left rear}\n";
  const auto a = advised(2, false, extras);
  for (const char* method : {"two-way-diodes", "added-bulbs"}) {
    CAPTURE(method);
    CHECK((*a)[method].advice == Advice::does_not);
    CHECK((*a)[method].why.find("still works with the cord out") != std::string::npos);
  }
}

// The coach's fog contact finds no load, and no lamp of the bar is fed by it: nothing is lost.
TEST_CASE("a coach that looks for a load misses none on a contact that the car leaves alone") {
  const std::string text = edited(job_file("bus-lamp-estate"), {{"  signals: separate\n", "  signals: separate\n  detection: load\n"},
      {"    right tail: {in: right rear, tail: LED 0.10 A,", "    fog: {in: right rear, fog: P21W, drive: data-bus, feed: RD/BU 0.5 mm2, node: BUS}\n    right tail: {in: right rear, tail: LED 0.10 A,"}});
  CHECK_FALSE(checked(text).has("not-detected"));
  CHECK(checked(edited(text, {{"left bar turn: {in: left bar, at: left of bar, turn: LED 0.40 A", "left bar turn: {in: left bar, at: left of bar, turn: LED 0.04 A"}})).has("not-detected"));
}

TEST_CASE("K3 C i,o H: relays, then field-effect with bleed resistors; no loss, no false message") {
  const auto a = advised(3, false, "", {{"  stop switch:", "  monitoring: off-pulse\n  stop switch:"}});
  stands((*a)["relay-change-over"], {});
  stands((*a)["field-effect"], {"bleed"});
  CHECK(first(*a) == "relay-change-over");
  CHECK_FALSE((*a)["field-effect"].doubts.empty());   // the trade: may report a lamp; bleed can help or upset
}

TEST_CASE("K4 C i 0, a coach that pulses and detects: powered module with a load resistor, then strips") {
  const auto a = advised(4, false, "", {{"  signals: combined\n", "  signals: combined\n  detection: load\n  outputs: pulse-modulated\n"}, {"  stop switch:", "  monitoring: on-current\n  stop switch:"}});
  stands((*a)["powered-module"], {"filter", "detection load"});
  CHECK((*a)["battery-fed-relays"].advice == Advice::does_not);   // they chatter
  CHECK_FALSE((*a)["dedicated-strips"].doubts.empty());           // they may flicker
  stands((*a)["dedicated-strips"], {});
}

// K7: the trade's M3 and M9 stand; relays in the returns use the car's own lamps, so advise puts them first.
TEST_CASE("K5, K6 and K7 with a pedal brake: lamps of their own; nothing to feed, or nothing to switch") {
  for (const int car : {5, 6, 7}) {
    CAPTURE(car);
    const auto a = advised(car, false, pedal);
    stands((*a)["dedicated-strips"], {});
    if (car == 7)
      CHECK((*a)["added-bulbs"].advice != Advice::does_not);
    else
      stands((*a)["removable-lamps"], {});
  }
}

// Field-effect modules and diodes take fewer hours and are clean too, each lamp behind its car-side diode: advise puts them
// before the relays. What the car's battery would feed does not work, unless the coach can feed it.
TEST_CASE("battery open in tow, K3: relays fed by the coach, then strips; nothing from the car's battery") {
  const auto a = advised(3, false, "extras:\n  battery disconnect: yes\n");
  stands((*a)["relay-change-over"], {});
  stands((*a)["dedicated-strips"], {});
  CHECK((*a)["battery-fed-relays"].advice == Advice::does_not);
  CHECK(needs((*a)["powered-module"], "fed-by: coach"));
}
