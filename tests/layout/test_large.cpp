// Jobs whose bench sheet is hard to divide or to label: each is drawn without a defect.
#include <set>
#include <string>

#include "layout/enlarged.hpp"
#include "layout/style_fixture.hpp"
#include "layout/unsolved.hpp"
#include "prove/prove.hpp"
#include "sheets/sheets.hpp"

using namespace towloom;

namespace {

std::vector<Drawing> drawn(const std::string& text, const Facts& facts, Catalogue& catalogue) {
  const fixture::Looks looks;
  Diagnostics diagnostics;
  const auto pages = bench_sheet(facts, catalogue, *looks.style, looks.measure, 0, diagnostics);
  for (const Diagnostic& d : diagnostics.all()) MESSAGE(d.message);
  CAPTURE(text);
  CHECK(prove(pages, facts.circuit()).empty());
  return pages;
}

// Four wires and more end on both posts of the battery, and one passes under its name.
const char* const battery_posts = R"(job: {title: "battery disconnect with powered module", number: b7, date: 2026-11-26, by: me}
coach:
  outlet: {form: blade-7, at: rear}
  signals: combined
  found:
    TAIL: {does: tail, open: 13.6 V, loaded: 13.2 V}
    LT: {does: left, open: 13.6 V, loaded: 13.0 V}
    RT: {does: right, open: 13.6 V, loaded: 13.0 V}
    BAT: {does: charge, open: 13.8 V, loaded: 13.4 V, fuse: 20 A, live: always}
    EBR: {does: brake, open: 13.0 V}
    REV: {does: monitor, note: to the dash}
cord: {length: 8 ft, wire: 12 AWG}
car:
  inlet: {form: blade-7, at: front}
  battery: {at: engine bay left, sensor: yes}
  drive: left-hand
  towing: {ignition: off, stop lamps: asleep, standing draw: 0.4 A}
  monitoring: flasher
  stop switch: {kind: switch, feeds: [turn switch, HS]}
  lamps:
    left rear: {stop-turn: 1157 bright, feed: GN/RD 1.0 mm2, node: ST_L, return: BK 1.0 mm2 to G-L}
    right rear: {stop-turn: 1157 bright, feed: GN/YE 1.0 mm2, node: ST_R, return: BK 1.0 mm2 to G-R}
    left tail: {in: left rear, tail: 1157 dim, feed: BN 1.0 mm2, node: TAIL}
    right tail: {in: right rear, tail: 1157 dim, feed: BN 1.0 mm2, node: TAIL}
    reverse: {in: right rear, reverse: "1156", feed: WH 1.0 mm2, node: REV}
    plate: {plate: "168", feed: BN 0.75 mm2, node: TAIL}
    high stop: {chmsl: LED 0.25 A, feed: WH/VT 0.5 mm2, node: HS}
isolation: {method: powered-module, fed-by: coach, fuse: 10 A, plate: with left tail}
extras: {battery disconnect: yes, brake unit: {returns-to: battery negative, break-away: yes}, brake monitor: yes, brake signal: {from: brake, returns-to: battery negative}}
runs:
  front: {from: inlet, to: left grommet, length: 1.4 m}
  sill: {from: left grommet, to: left rear, length: 4.1 m}
  cross: {from: left rear, to: right rear, length: 1.5 m}
  batt: {from: inlet, to: battery, length: 1.2 m}
  pedal: {from: left grommet, to: stop switch, length: 0.7 m}
grounds:
  G-F: {at: front stud, takes: coach white}
  G-L: {at: left stud, beside: left rear}
  G-R: {at: right stud, beside: right rear}
wire: {standard: AWG}
limits: {drop: 0.9 V}
)";

}  // namespace

TEST_CASE("the name of a battery belongs to the battery, however near a wire of its post lies") {
  fixture::Job plain = fixture::built(fixture::plain_job());
  const auto facts = fixture::unsolved(battery_posts, *plain.catalogue);
  REQUIRE(facts.has_value());
  CHECK(drawn("battery posts", *facts, *plain.catalogue).size() == 1);
}

TEST_CASE("more than two hundred wires go over as many pages as they need; a joint of many wires names its other sheets") {
  fixture::Job plain = fixture::built(fixture::plain_job());
  auto facts = fixture::unsolved(fixture::enlarged(fixture::plain_job(), 36), *plain.catalogue);
  REQUIRE(facts.has_value());
  facts->spec.paper = "a3";
  facts->spec.paper_named = true;
  CHECK(facts->circuit().wires.size() > 200);
  const auto pages = drawn("enlarged", *facts, *plain.catalogue);
  CHECK(pages.size() > 4);
  std::set<std::size_t> with_joint;   // pages that show the joint of the tail lamps
  for (std::size_t p = 0; p < pages.size(); ++p)
    for (const Item& item : pages[p].items)
      if (const auto* part = std::get_if<PartFigure>(&item); part != nullptr && part->part == "SP-TAIL") {
        with_joint.insert(p);
        CHECK(part->repeat == (with_joint.size() > 1));
      }
  REQUIRE(with_joint.size() > 1);
  for (const std::size_t p : with_joint) {
    bool named = false;
    for (const Item& item : pages[p].items)
      if (const auto* label = std::get_if<Label>(&item)) named = named || label->text.rfind("SP-TAIL also on sheets ", 0) == 0;
    CAPTURE(p);
    CHECK(named);
  }
}
