// Faulty circuits of the plain job through ngspice: a fault, a scene and a phase by chance, of a fixed seed.
#include <cmath>
#include <random>

#include "check/check.hpp"
#include "circuit/fixture.hpp"
#include "ngspice/floating.hpp"
#include "ngspice/run_deck.hpp"
#include "solve/network.hpp"

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
  std::vector<std::size_t> coupled;   // with the cord out the coach floats: test_plain_job.cpp
  for (std::size_t s = 0; s < facts->states.scenes.size(); ++s)
    if (facts->states.scenes[s].signal("coupled") != Wave::off) coupled.push_back(s);
  std::vector<Case> cases;
  std::vector<std::string> decks;
  for (int i = 0; i < 120; ++i) {
    const Fault& fault = faults[pick(faults.size())];
    const std::size_t s = coupled[pick(coupled.size())];
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
  int solved = 0, floating = 0, points = 0;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const Case& c = cases[i];
    CAPTURE(c.fault.kind + " " + c.fault.at + ", " + c.scene.name);
    if (theirs[i].empty()) continue;
    ++solved;
    const Flat flat = flatten(c.circuit, catalogue, c.scene, c.phase);
    for (std::size_t p = 0; p < flat.point.size(); ++p) {
      if (flat.point[p] < 0) continue;
      const double expected = theirs[i].at("p" + std::to_string(flat.point[p]));
      const double mine = c.ours.phase[static_cast<std::size_t>(c.phase)].volts[p];
      double off = std::fabs(mine - expected) / (10e-6 + 1e-6 * std::fabs(expected));
      // Without its ground wire the whole coach hangs on its leak, as with the cord out.
      const std::string opened = c.fault.kind == "contact-open" || c.fault.kind == "wire-open" ? c.fault.at : "";
      const bool coach_floats = opened == "M1" || opened == "J1.1" || opened == "C1" || opened == "J2.1" || opened == "W1";
      if (off > 1 && (coach_floats || ngspice::floats(c.circuit, catalogue, c.scene, c.ours, c.phase, p))) {
        ++floating;
        off /= 30;   // a piece cut off by an open fault hangs on its leak alone
      }
      CAPTURE(mine);
      CAPTURE(expected);
      CHECK(off <= 1);
      ++points;
    }
  }
  CHECK(solved >= 115);
  CHECK(points > 8000);
  CHECK(floating < points / 50);
}
