// Marks that stand on no drawing are printed in words.
#include <doctest/doctest.h>

#include "check/fixture.hpp"
#include "layout/style_fixture.hpp"
#include "sheets/names.hpp"

using namespace towloom;

TEST_CASE("lamps, contacts and factory wires are named so that a fitter finds them") {
  const fixture::Checked job = fixture::checked(fixture::plain_job());
  const fixture::Looks looks;
  const Style& style = looks.look().style;
  const Circuit& c = job.facts->circuit();
  const auto words = [&](const std::string& text) { return in_words(text, c, style); };
  // Survey S01: the left stop/turn lamp is the first row, its feed GY/VT; the outlet's third contact is the left signal.
  CHECK(words("13.2 V at E1.feed: read on") == "13.2 V at left rear stop/turn, feed: read on");
  CHECK(words("lamp E1 burnt out") == "lamp left rear stop/turn burnt out");
  CHECK(words("0.0 V at J2.3.car: C3 open; contact J1.3 open") == "0.0 V at J2 contact 3, car side: C3 open; J1 contact 3 open");
  CHECK(words("wires of D2.A1 and D2.K exchanged") == "wires of D2 A1 and D2 K exchanged");
  CHECK(words("W5 open; fuse FU1 blown; STOP stuck") == "W5 open; fuse FU1 blown; STOP stuck");
  for (const Wire& w : c.wires)   // the factory feed behind the block
    if (w.status == Status::factory && w.colour == "GY/VT" && c.part(w.to.part).kind == "lamp") CHECK(words(w.id + " open") == "factory wire GY/VT (D1 K to left rear stop/turn) open");
  CHECK(words("M3 open") == "coach's wire to J1 contact 3 open");
}
