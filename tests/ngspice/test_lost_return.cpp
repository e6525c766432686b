// The coach's return lost on its way: every example, every towing scene, through ngspice, the coach's floating ground
// included; and what the towed lamps then do, read off ngspice's own volts.
#include <filesystem>

#include "ngspice/compare.hpp"
#include "oracles/matrix.hpp"

using namespace towloom;

namespace {

// Volts across a lamp by ngspice, in one phase.
double across(const Circuit& c, const Flat& flat, PartId lamp, const std::map<std::string, double>& theirs) {
  const Points points = number_points(c);
  const Element& e = c.part(lamp).elements[0];
  const auto volts = [&](int terminal) {
    const int n = flat.point[static_cast<std::size_t>(points.first[static_cast<std::size_t>(lamp.v)] + terminal)];
    return n < 0 ? 0.0 : theirs.at("p" + std::to_string(n));
  };
  return volts(e.a) - volts(e.b);
}

bool drives_alone(const Scene& scene) { return scene.kind != "towing"; }

}  // namespace

TEST_CASE("a coach without its return is solved as ngspice does, and lights no towed lamp through diodes") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  ngspice::Tally tally;
  int lost = 0, looked = 0, in_scenes = 0;
  int unsolved = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs")) {
    if (entry.path().extension() != ".yaml") continue;
    const std::string name = entry.path().stem().string();
    CAPTURE(name);
    const auto s = oracle::solved_text(oracle::job_text(name));
    const Catalogue& catalogue = *s.job.catalogue;
    const PartId coach = s.facts->circuit().find("COACH");
    REQUIRE(coach);
    // M1 is the coach's chassis: the wire or stud between it and the outlet's source carries every return.
    std::optional<Fault> fault;
    for (const Fault& f : list_faults(s.facts->circuit(), catalogue))
      if (f.kind == "wire-open" && f.at == "M1") fault = f;
    if (!fault) continue;
    ++lost;
    const Circuit c = with_fault(s.facts->circuit(), *fault, catalogue);
    struct Case { std::size_t scene; int phase; Solved ours; };
    std::vector<Case> cases;
    std::vector<std::string> decks;
    for (std::size_t scene = 0; scene < s.facts->states.scenes.size(); ++scene) {
      if (drives_alone(s.facts->states.scenes[scene])) continue;
      const Solved ours = solve(c, catalogue, s.facts->states.scenes[scene]);
      REQUIRE(ours.converged());
      if (!ours.chatter.empty()) continue;   // no operating point
      for (int p = 0; p < ours.phases; ++p) {
        cases.push_back({scene, p, ours});
        decks.push_back(netlist(c, catalogue, s.facts->states.scenes[scene], p));
      }
    }
    const auto theirs = ngspice::volts_of_all(decks);   // large-pickup's floating battery defeats it in a scene or two
    for (std::size_t i = 0; i < cases.size(); ++i) {
      const Scene& scene = s.facts->states.scenes[cases[i].scene];
      CAPTURE(scene.name);
      CAPTURE(cases[i].phase);
      if (theirs[i].empty()) {   // ngspice finds no operating point: counted, by job
        CHECK(name == "large-pickup");
        ++unsolved;
        continue;
      }
      ngspice::check_against(decks[i], theirs[i], c, catalogue, scene, cases[i].ours, cases[i].phase, tally);
      if (name != "plain-hatchback" || scene.signal("car.pedal") != Wave::off) continue;
      ++in_scenes;
      const int flash = cases[i].phase % cases[i].ours.flash_phases();
      const Flat flat = flatten(c, catalogue, scene, flash, {}, cases[i].ours.phase[static_cast<std::size_t>(cases[i].phase)].pulled);
      // By hand: the only way back to the coach's battery leads through the other feeds, against their diodes.
      for (const LampIntent& lamp : c.lamps)
        if (!lamp.tow_signal.empty()) {
          CHECK(std::fabs(across(c, flat, lamp.lamp, theirs[i])) < 0.01);
          ++looked;
        }
    }
  }
  MESSAGE(lost << " jobs, " << tally.networks << " networks, " << tally.carried_on << " carried on");
  CHECK(unsolved <= 4);
  CHECK(lost >= 13);
  CHECK(in_scenes >= 12);
  CHECK(looked > 40);
  CHECK(tally.points > 20000);
}
