// The shipped converters against tables written by hand from the trade's own rules: separate to combined shows
// turn while it flashes, else stop; combined to separate calls both steady stop and one changing alone a turn.
#include <doctest/doctest.h>

#include "circuit/builder.hpp"
#include "fixture.hpp"

using namespace towloom;

namespace {

constexpr Wave O = Wave::off, I = Wave::on, F = Wave::flash, G = Wave::counterflash;

Logic table_of(const char* name) {
  const fixture::Job job = fixture::built(fixture::plain_job());
  return *module_part(job.catalogue->modules.at(name), nullptr).logic;
}

struct Row {
  std::vector<Wave> in, out;
};

}  // namespace

TEST_CASE("separate to combined: turn while it flashes, else stop") {
  const Logic logic = table_of("separate-to-combined");
  // left, right, stop -> left, right
  const Row rows[] = {{{O, O, O}, {O, O}}, {{O, O, I}, {I, I}}, {{F, O, O}, {F, O}}, {{O, F, O}, {O, F}},
                      {{F, O, I}, {F, I}}, {{O, F, I}, {I, F}}, {{F, F, O}, {F, F}}, {{F, F, I}, {F, F}},
                      {{G, O, I}, {G, I}},
                      // a side held on and steady, by a tester or a flasher that has stopped
                      {{I, O, O}, {I, O}}, {{O, I, O}, {O, I}}, {{I, I, O}, {I, I}}, {{I, O, I}, {I, I}}, {{I, I, I}, {I, I}}};
  for (const Row& row : rows) CHECK(answer(logic, row.in).out == row.out);
}

TEST_CASE("combined to separate: steady together is stop, one changing alone is a turn") {
  const Logic logic = table_of("combined-to-separate");
  // left, right -> stop, left, right
  const Row rows[] = {{{O, O}, {O, O, O}}, {{I, I}, {I, O, O}}, {{F, O}, {O, F, O}}, {{O, F}, {O, O, F}},
                      {{F, I}, {I, F, O}}, {{I, F}, {I, O, F}}, {{F, F}, {F, O, O}}, {{O, G}, {O, O, G}},
                      {{I, O}, {O, I, O}}, {{O, I}, {O, O, I}}};   // one side on alone is no stop
  for (const Row& row : rows) CHECK(answer(logic, row.in).out == row.out);
  CHECK(answer(logic, {F, F}).uncertain);   // hazard and a pumped brake are one waveform
  CHECK_FALSE(answer(logic, {I, I}).uncertain);
}

// Figures from memory must not pass without a visible note.
TEST_CASE("a part whose figures are from memory is named among the assumed, once for all lamps") {
  fixture::Job job = fixture::built(fixture::plain_job());
  REQUIRE(job.catalogue->parts.at("field-effect").provenance.weak());
  Method& method = job.catalogue->methods.at("two-way-diodes");
  FragmentPart& block = method.fragments.at(0).parts.at(0);
  block.kind = "ideal-pair";
  block.values["model"].value = "field-effect";
  Diagnostics diagnostics;
  const auto circuit = build(*job.spec, *job.catalogue, diagnostics);
  REQUIRE(circuit.has_value());
  int said = 0;
  for (const Assumed& a : circuit->assumed) said += a.what == "isolating field-effect module";
  CHECK(said == 1);
  CHECK(job.circuit->find("D1"));
  CHECK(circuit->part(circuit->find("D4")).kind == "ideal-pair");
}
