// `towloom list`, one's own catalogue folder, and what a job says of connectors, cord and colours.
#include <doctest/doctest.h>

#include <filesystem>
#include <set>
#include <sstream>

#include "commands/program.hpp"

using namespace towloom::testing;
namespace fs = std::filesystem;

TEST_CASE("list without a kind names the kinds, each of which lists something") {
  const Outcome kinds = towloom_run("list");
  CHECK(kinds.status == 0);
  for (const char* kind : {"connectors", "lamps", "wire", "fuses", "diodes", "relays", "parts", "terminals", "sleeves", "modules", "methods", "feeds"}) {
    CAPTURE(kind);
    CHECK(has(kinds, kind));
    const Outcome rows = towloom_run(std::string("list ") + kind);
    CHECK(rows.status == 0);
    CHECK(std::count(rows.text.begin(), rows.text.end(), '\n') >= 2);
  }
  CHECK(has(towloom_run("list lamps"), "P21/5W"));
}

TEST_CASE("list of one connector: its contacts, colour sets and sources") {
  const Outcome o = towloom_run("list connectors blade-7");
  CHECK(o.status == 0);
  for (const char* text : {"TAIL", "electric brake", "14 AWG", "rv-industry", "metered pin by pin", "receiver"}) CHECK(has(o, text));
  CHECK(has(towloom_run("list connectors round-6"), "match the moulded letters"));
  CHECK_FALSE(has(o, "match the moulded letters"));
}

TEST_CASE("list: unknown kinds and names are refused with the nearest") {
  const Outcome kind = towloom_run("list conectors");
  CHECK(kind.status == 2);
  CHECK(has(kind, "did you mean 'connectors'"));
  const Outcome name = towloom_run("list connectors blade7");
  CHECK(name.status == 2);
  CHECK(has(name, "did you mean 'blade-7'"));
  CHECK(towloom_run("list lamps -o /tmp").status == 2);
  CHECK(towloom_run("list a b c").status == 2);
}

TEST_CASE("list -o draws one connector's faces, and all on a poster") {
  const fs::path folder = fresh("list");
  CHECK(towloom_run("list connectors iso-13 -o " + folder.string()).status == 0);
  CHECK(bytes(folder / "iso-13.pdf").substr(0, 5) == "%PDF-");
  CHECK(bytes(folder / "iso-13-faces.svg").find("data-view=\"mating\"") != std::string::npos);
  CHECK(towloom_run("list connectors -o " + folder.string()).status == 0);
  CHECK(bytes(folder / "connectors.svg").find("data-connector=\"socket\"") != std::string::npos);
  CHECK(towloom_run("list connectors iso-13 --paper foolscap -o " + folder.string()).status == 2);
}

TEST_CASE("one's own catalogue folder: on the command line and in the job, read as strictly") {
  const fs::path folder = fresh("own");
  fs::create_directories(folder / "mine");
  std::string text = bytes(TOWLOOM_ROOT "/specs/connectors/flat-4.yaml");
  const size_t at = text.find("connector: flat-4");
  REQUIRE(at != std::string::npos);
  text.replace(at, 17, "connector: flat-own");
  write(folder / "mine/own.yaml", text);
  const std::string mine = (folder / "mine").string();
  CHECK(has(towloom_run("list connectors --catalogue " + mine), "flat-own"));
  CHECK_FALSE(has(towloom_run("list connectors"), "flat-own"));
  const std::string job = altered(folder, "coach:\n  outlet: flat-4", "catalogue: mine\ncoach:\n  outlet: flat-own");
  CHECK(towloom_run("check " + job).status == 0);
  write(folder / "mine/own.yaml", text + "colour: red\n");
  const Outcome broken = towloom_run("list connectors --catalogue " + mine);
  CHECK(broken.status == 2);
  CHECK(has(broken, "own.yaml:"));
  CHECK(has(broken, "unknown key 'colour'"));
  const Outcome nowhere = towloom_run("list connectors --catalogue /nowhere");
  CHECK(nowhere.status == 2);
  CHECK(has(nowhere, "no catalogue files"));
  const std::string lost = altered(folder, "coach:\n", "catalogue: lost\ncoach:\n");
  CHECK(has(towloom_run("check " + lost), "job.yaml:"));
}

TEST_CASE("colours of the car in a named convention, and a code that needs one") {
  const fs::path folder = fresh("colours");
  const Outcome trap = towloom_run("check " + altered(folder, "feed: WH/VT 0.5 mm2", "feed: GY 0.5 mm2"));
  CHECK(trap.status == 2);
  CHECK(has(trap, "'GY' can be GY in IEC 60757, GN/YE in single letters"));
  CHECK(has(trap, "job.yaml:"));
  const Outcome named = towloom_run("check " + altered(folder, "  battery: engine", "  colours: no-such\n  battery: engine"));
  CHECK(named.status == 2);
  CHECK(has(named, "no colour convention 'no-such'"));
}

TEST_CASE("a stated layout, use or colour set must be one that the connector has") {
  const fs::path folder = fresh("stated");
  const auto outlet = [&](const std::string& more) {
    return towloom_run("check " + altered(folder, "outlet: flat-4, left of receiver", "outlet: {form: flat-4, " + more + "}"));
  };
  CHECK(has(outlet("layout: corners"), "has no layout 'corners'"));
  CHECK(has(outlet("use: coding"), "has no use 'coding'"));
  CHECK(has(outlet("colours: rv-industry"), "one of: automotive"));
  CHECK(outlet("colours: automotive").status == 0);
}

TEST_CASE("a cord whose ends do not mate is refused; one whose cores are crossed is solved as it lies and is a fault") {
  const fs::path folder = fresh("cord");
  const auto cord = [&](const std::string& more) {
    return towloom_run("check " + altered(folder, "cord: {length: 2.4 m,", "cord: {length: 2.4 m, " + more + ","));
  };
  CHECK(cord("ends: [flat-4 trailer, flat-4 live]").status == 0);
  const Outcome half = cord("ends: [flat-4 live, flat-4 live]");
  CHECK(half.status == 2);
  CHECK(has(half, "does not mate the coach's outlet"));
  CHECK(has(cord("ends: [round-4 plug, flat-4 live]"), "different forms"));
  CHECK(has(cord("ends: [flat-4 trailer]"), "two ends"));
  CHECK(has(cord("ends: [flat-4 rear, flat-4 live]"), "is no half of a connector"));
  CHECK(cord("continuity: {\"1\": \"1\", \"2\": \"2\", \"3\": \"3\", \"4\": \"4\"}").status == 0);
  const Outcome crossed = cord("continuity: {\"3\": \"4\", \"4\": \"3\"}");
  CHECK(crossed.status == 1);   // what it does on the road is worth knowing, so it is no longer refused
  CHECK(has(crossed, "a core joins contact 3 of the outlet (left) to contact 4 of the inlet, which is for right"));
  CHECK(has(crossed, "move it to contact 3"));
  CHECK(has(crossed, "left rear stop-turn is dark where it must be flashing in: left"));
  CHECK(has(cord("continuity: {\"9\": \"1\"}"), "no contact '9'"));
}

TEST_CASE("what a contact was found to do, and what a lamp is for, must stand in the catalogue") {
  const fs::path folder = fresh("functions");
  const Outcome does = towloom_run("check " + altered(folder, "\"2\": {does: tail,", "\"2\": {does: tali,"));
  CHECK(does.status == 2);
  CHECK(has(does, "no contact function 'tali' in the catalogue"));
  CHECK(has(does, "did you mean 'tail'?"));
  CHECK(has(does, "job.yaml:"));
  const Outcome lamp = towloom_run("check " + altered(folder, "{plate: 2 x R5W,", "{number-plate: 2 x R5W,"));
  CHECK(lamp.status == 2);
  CHECK(has(lamp, "'number-plate' is no lamp function"));
}

TEST_CASE("pins and positions as found: stated with a reason, held against the form, flagged") {
  const fs::path folder = fresh("found");
  const auto inlet = [&](const std::string& more) {
    return towloom_run("check " + altered(folder, "inlet: {form: flat-4, half: trailer, at: baseplate bracket}", "inlet: {form: flat-4, half: trailer, " + more + "}"));
  };
  const Outcome bare = inlet("positions: {\"3\": 2 from left, \"4\": 1 from left}");
  CHECK(bare.status == 2);
  CHECK(has(bare, "does not say why"));
  // On the trailer half white stands at the right: left turn is the second from the left already.
  CHECK_FALSE(has(inlet("positions: {\"3\": 2 from left}, why: read on the part"), "pins-differ"));
  const Outcome moved = inlet("positions: {\"3\": 1 from left, \"4\": 2 from left}, why: read on the part");
  CHECK(moved.status == 0);
  CHECK(has(moved, "contact 3 of the inlet was found elsewhere on the face than a four-way flat has it: read on the part"));
  CHECK(has(inlet("positions: {\"3\": 1 from left}, why: read"), "would stand in one place"));
  CHECK(has(inlet("positions: {\"3\": 3 o'clock}, why: read"), "is no position on the face"));
  CHECK(has(inlet("positions: {\"3\": 9 from left}, why: read"), "is no position on the face"));
  CHECK(has(inlet("pins: {\"3\": lefd}, why: read"), "no contact function 'lefd'"));
  CHECK(has(inlet("pins: {\"8\": left}, why: read"), "has no contact '8'"));
  CHECK(has(inlet("why: read"), "belongs to pins: or positions:"));
}

TEST_CASE("25: an old terminal mark is not guessed: both readings are shown") {
  const fs::path folder = fresh("old-mark");
  const Outcome old = towloom_run("check " + altered(folder, "\"3\": {does: left,", "54L: {does: left,"));
  CHECK(old.status == 2);
  CHECK(has(old, "54L can be left lamps where stop and turn share a lamp, or in older lists flasher output, now 49a"));
}
