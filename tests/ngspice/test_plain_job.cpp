// Every scene and flash phase of the plain job through ngspice.
#include <cmath>

#include "check/check.hpp"
#include "circuit/fixture.hpp"
#include "ngspice/floating.hpp"
#include "ngspice/run_deck.hpp"
#include "solve/network.hpp"

using namespace towloom;

TEST_CASE("every scene of the plain job is solved as ngspice does") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  fixture::Job job = fixture::built(fixture::plain_job());
  const auto facts = find_facts(*job.spec, *job.catalogue, job.diagnostics);
  REQUIRE(facts.has_value());
  const Circuit& circuit = facts->circuit();
  const auto coach_ground = static_cast<std::size_t>(number_points(circuit).at(circuit.terminal("COACH.ground")));
  int decks = 0, lit = 0;
  for (std::size_t s = 0; s < facts->states.scenes.size(); ++s) {
    const Scene& scene = facts->states.scenes[s];
    const Solved& solved = facts->states.solved[s];
    CAPTURE(scene.name);
    REQUIRE(solved.converged());
    for (int phase = 0; phase < solved.phases; ++phase) {
      CAPTURE(phase);
      const auto theirs = ngspice::volts(netlist(circuit, *job.catalogue, scene, phase));
      REQUIRE_FALSE(theirs.empty());
      ++decks;
      const Flat flat = flatten(circuit, *job.catalogue, scene, phase);
      const auto& ours = solved.phase[static_cast<std::size_t>(phase)].volts;
      REQUIRE(ours.size() == flat.point.size());
      for (std::size_t p = 0; p < ours.size(); ++p) {
        if (flat.point[p] < 0) {
          CHECK(ours[p] == 0);
          continue;
        }
        const auto at = theirs.find("p" + std::to_string(flat.point[p]));
        REQUIRE(at != theirs.end());
        CAPTURE(p);
        CAPTURE(at->second);
        CAPTURE(ours[p]);
        // With the cord out the coach floats: only its volts against its own ground mean anything.
        const bool floats = scene.signal("coupled") == Wave::off && ngspice::of_coach(circuit, number_points(circuit), p);
        const double mine = ours[p] - (floats ? ours[coach_ground] : 0);
        const double his = at->second - (floats ? theirs.at("p" + std::to_string(flat.point[coach_ground])) : 0);
        // With the cord out, open contacts hang on 1 nS alone, where ngspice's doubles are up to 0.1 mV off
        // (tests/solve/test_floating.cpp): ten times the tolerance.
        const double wide = scene.signal("coupled") == Wave::off ? 10 : 1;
        CHECK(std::fabs(mine - his) <= wide * (10e-6 + 1e-6 * std::fabs(his)));
        lit += at->second > 10;
      }
    }
  }
  CHECK(decks > 30);
  CHECK(lit > 100);  // the decks were not dead
}
