// The plain job's netlists, each in a process of its own and as the program writes them.
#include "check/check.hpp"
#include "circuit/fixture.hpp"
#include "ngspice/compare.hpp"

using namespace towloom;

TEST_CASE("ngspice runs every netlist of the plain job as it is") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  fixture::Job job = fixture::built(fixture::plain_job());
  const auto facts = find_facts(*job.spec, *job.catalogue, job.diagnostics);
  REQUIRE(facts.has_value());
  int decks = 0, live = 0;
  for (std::size_t s = 0; s < facts->states.scenes.size(); ++s) {
    const Scene& scene = facts->states.scenes[s];
    const Solved& solved = facts->states.solved[s];
    CAPTURE(scene.name);
    REQUIRE(solved.converged());
    for (int phase = 0; phase < solved.phases; ++phase) {
      CAPTURE(phase);
      const auto theirs = ngspice::volts(netlist(facts->circuit(), *job.catalogue, scene, phase));
      REQUIRE_FALSE(theirs.empty());
      ++decks;
      // With the cord out pieces hang on 1 nS, where a netlist of plain resistances loses digits (equations.hpp);
      // test_examples.cpp compares those scenes.
      if (scene.signal("coupled") == Wave::off) continue;
      const ngspice::Difference d = ngspice::compare(facts->circuit(), *job.catalogue, scene, solved, phase, theirs);
      CAPTURE(d.where);
      CHECK(d.worst <= 1);
      live += d.live;
    }
  }
  CHECK(decks > 30);
  CHECK(live > 100);   // the decks were not dead
}
