// Every scene and phase of every job that is shown, through one process of ngspice a job; relays and modules stand in
// the decks as the resistors of the modes that were found.
#include <cmath>
#include <filesystem>

#include "check/check.hpp"
#include "ngspice/floating.hpp"
#include "ngspice/run_deck.hpp"
#include "oracles/matrix.hpp"
#include "solve/network.hpp"

using namespace towloom;

namespace {

struct Deck {
  std::size_t scene;
  int phase;
};

}  // namespace

TEST_CASE("every scene of every example is solved as ngspice does") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  int decks_solved = 0, live = 0, jobs = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs")) {
    if (entry.path().extension() != ".yaml") continue;
    const std::string name = entry.path().stem().string();
    CAPTURE(name);
    const auto s = oracle::solved_text(oracle::job_text(name));
    const Circuit& c = s.facts->circuit();
    const Catalogue& catalogue = *s.job.catalogue;
    const Points points = number_points(c);
    ++jobs;
    std::vector<Deck> list;
    std::vector<std::string> decks;
    for (std::size_t scene = 0; scene < s.facts->states.scenes.size(); ++scene)
      for (int p = 0; p < s.facts->states.solved[scene].phases; ++p) {
        list.push_back({scene, p});
        decks.push_back(netlist(c, catalogue, s.facts->states.scenes[scene], p));
      }
    const auto theirs = ngspice::volts_of_all(decks);
    const auto ground = static_cast<std::size_t>(points.at(c.terminal("COACH.ground")));
    for (std::size_t d = 0; d < list.size(); ++d) {
      const Scene& scene = s.facts->states.scenes[list[d].scene];
      const Solved& ours = s.facts->states.solved[list[d].scene];
      CAPTURE(scene.name);
      CAPTURE(list[d].phase);
      REQUIRE_FALSE(theirs[d].empty());
      ++decks_solved;
      const Phase& phase = ours.phase[static_cast<std::size_t>(list[d].phase)];
      const Flat flat = flatten(c, catalogue, scene, list[d].phase % ours.flash_phases(), {}, phase.pulled, list[d].phase < ours.flash_phases());
      const auto his_volts = [&](std::size_t p) {
        const auto at = theirs[d].find("p" + std::to_string(flat.point[p]));
        REQUIRE(at != theirs[d].end());
        return at->second;
      };
      double worst = 0;
      std::size_t where = 0;
      for (std::size_t p = 0; p < phase.volts.size(); ++p) {
        if (flat.point[p] < 0) continue;
        // With the cord out the coach floats: only its volts against its own ground mean anything.
        const bool floats = scene.signal("coupled") == Wave::off && ngspice::of_coach(c, points, p) && flat.point[ground] >= 0;
        const double mine = phase.volts[p] - (floats ? phase.volts[ground] : 0), his = his_volts(p) - (floats ? his_volts(ground) : 0);
        double off = std::fabs(mine - his) / (10e-6 + 1e-6 * std::fabs(his));
        // A coach that floats hangs on 1 nS behind stubs of 10^4 S: doubles of 16 digits leave ngspice some 0.7 mV there.
        if (off > 1 && floats) off /= 100;
        if (off > 1 && ngspice::floats(c, catalogue, scene, ours, list[d].phase, p)) off /= 10;
        if (off > worst) worst = off, where = p;
        live += his > 10;
      }
      CAPTURE(where);
      CHECK(worst <= 1);
    }
  }
  CHECK(jobs >= 13);
  CHECK(decks_solved > 500);
  CHECK(live > 5000);   // the decks were not dead
}
