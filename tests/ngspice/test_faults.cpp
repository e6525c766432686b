// Faulty circuits of the plain job through ngspice: a fault, a scene and a phase by chance, of a fixed seed.
#include <cmath>
#include <random>

#include "check/check.hpp"
#include "circuit/fixture.hpp"
#include "ngspice/compare.hpp"

using namespace towloom;

TEST_CASE("120 single faults are solved as ngspice does, in one process") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  fixture::Job job = fixture::built(fixture::plain_job());
  const auto facts = find_facts(*job.spec, *job.catalogue, job.diagnostics);
  REQUIRE(facts.has_value());
  const Catalogue& catalogue = *job.catalogue;
  struct Case {
    Circuit circuit;
    Fault fault;
    Scene scene;
    int phase;
    Solved ours;
  };
  std::mt19937 random(20);
  const auto pick = [&](std::size_t n) { return random() % n; };
  std::vector<Fault> faults = list_faults(facts->circuit(), catalogue);
  std::vector<Case> cases;
  std::vector<std::string> decks;
  for (int i = 0; i < 120; ++i) {
    const Fault& fault = faults[pick(faults.size())];
    const std::size_t s = pick(facts->states.scenes.size());
    const Scene& scene = facts->states.scenes[s];
    Circuit faulty = with_fault(facts->circuit(), fault, catalogue);
    // Started from the sound solution, as the symptom table is.
    Solved ours = solve(faulty, catalogue, scene, {}, {&facts->states.solved[s], nullptr});
    REQUIRE(ours.converged());
    const int phase = static_cast<int>(pick(static_cast<std::size_t>(ours.phases)));
    decks.push_back(netlist(faulty, catalogue, scene, phase));
    cases.push_back({std::move(faulty), fault, scene, phase, std::move(ours)});
  }
  const auto theirs = ngspice::volts_of_all(decks);
  ngspice::Tally tally;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const Case& c = cases[i];
    CAPTURE(c.fault.kind + " " + c.fault.at + ", " + c.scene.name);
    REQUIRE_FALSE(theirs[i].empty());
    ngspice::check_against(decks[i], theirs[i], c.circuit, catalogue, c.scene, c.ours, c.phase, tally);
  }
  CHECK(tally.points > 8000);
}
