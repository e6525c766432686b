// A circuit taken apart into pages holds each part once and each wire whole, or in two pieces with references.
#include <map>

#include "circuit/fixture.hpp"
#include "layout/split.hpp"
#include "random/jobs.hpp"

using namespace towloom;

TEST_CASE("pages together hold every part once and every wire whole or in two pieces") {
  int divided = 0;
  for (int seed = 1; seed <= 16; ++seed) {
    const fixture::Job job = fixture::built(by_chance::job(static_cast<unsigned>(seed)));
    REQUIRE(job.circuit.has_value());
    const Circuit& whole = *job.circuit;
    for (const Apart& apart : {Apart{Apart::nothing}, Apart{Apart::auxiliaries}, Apart{Apart::lamps}, Apart{Apart::all}, Apart{Apart::all, 2, 1}, Apart{Apart::all, 3, 2}, Apart{Apart::all, 2, 1, 1}, Apart{Apart::all, 2, 1, 3}, Apart{Apart::all, 2, 1, 1, true}, Apart{Apart::all, 2, 1, 1, true, {3, 2, 3, 2}}}) {
      CAPTURE(seed);
      CAPTURE(static_cast<int>(apart.level));
      CAPTURE(apart.lamp_pages);
      std::map<int, int> parts, ends;
      const std::vector<PageCircuit> pages = split(whole, apart);
      const auto [signal_lengths, lamp_lengths, auxiliary_lengths, car_lengths] = apart.lengths;
      const int most = apart.signal_pages * signal_lengths + apart.lamp_pages * lamp_lengths + auxiliary_lengths + apart.car_pages * car_lengths;
      CHECK(static_cast<int>(pages.size()) <= (apart.level == Apart::nothing ? 1 : apart.level == Apart::all ? most : 2));
      for (const PageCircuit& page : pages) {
        REQUIRE(page.wire_of.size() == page.circuit.wires.size());
        REQUIRE(page.part_of.size() == page.circuit.parts.size());
        for (int p : page.part_of)
          if (p >= 0) ++parts[p];
        for (std::size_t w = 0; w < page.wire_of.size(); ++w) {
          const Wire &here = page.circuit.wires[w], &there = whole.wires[static_cast<std::size_t>(page.wire_of[w])];
          CHECK(here.id == there.id);
          CHECK(page.circuit.net(here.from) == whole.net(there.from));
          for (const bool from : {true, false}) {
            const TerminalRef a = from ? here.from : here.to, b = from ? there.from : there.to;
            if (page.circuit.part(a.part).kind == "reference") {
              ++divided;
              continue;
            }
            ++ends[page.wire_of[w]];
            CHECK(page.circuit.name(a) == whole.name(b));
          }
        }
      }
      for (std::size_t w = 0; w < whole.wires.size(); ++w) CHECK(ends[static_cast<int>(w)] == 2);
      for (std::size_t p = 0; p < whole.parts.size(); ++p) {
        const std::string& kind = whole.parts[p].kind;
        INFO(whole.parts[p].id);
        if (kind == "coach-feed" || kind == "stud") CHECK(parts[static_cast<int>(p)] >= 1);
        else CHECK(parts[static_cast<int>(p)] == 1);
      }
    }
  }
  CHECK(divided > 0);
}
