// Every scene and phase of every job that is shown, through one process of ngspice a job; relays and modules stand in
// the decks as the resistors of the modes that were found.
#include <filesystem>

#include "check/check.hpp"
#include "ngspice/compare.hpp"
#include "oracles/matrix.hpp"

using namespace towloom;

namespace {

struct Deck {
  std::size_t scene;
  int phase;
};

}  // namespace

TEST_CASE("every scene of every example is solved as ngspice does") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  int jobs = 0;
  ngspice::Tally tally;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs")) {
    if (entry.path().extension() != ".yaml") continue;
    const std::string name = entry.path().stem().string();
    CAPTURE(name);
    const auto s = oracle::solved_text(oracle::job_text(name));
    const Circuit& c = s.facts->circuit();
    const Catalogue& catalogue = *s.job.catalogue;
    ++jobs;
    std::vector<Deck> list;
    std::vector<std::string> decks;
    for (std::size_t scene = 0; scene < s.facts->states.scenes.size(); ++scene)
      for (int p = 0; p < s.facts->states.solved[scene].phases; ++p) {
        list.push_back({scene, p});
        decks.push_back(netlist(c, catalogue, s.facts->states.scenes[scene], p));
      }
    const auto theirs = ngspice::volts_of_all(decks);
    for (std::size_t i = 0; i < list.size(); ++i) {
      const Scene& scene = s.facts->states.scenes[list[i].scene];
      CAPTURE(scene.name);
      CAPTURE(list[i].phase);
      REQUIRE_FALSE(theirs[i].empty());
      ngspice::check_against(decks[i], theirs[i], c, catalogue, scene, s.facts->states.solved[list[i].scene], list[i].phase, tally);
    }
  }
  MESSAGE(tally.networks << " networks, " << tally.carried_on << " carried on to more digits, by at most " << tally.moved << " V");
  CHECK(jobs >= 13);
  CHECK(tally.networks > 500);
  CHECK(tally.live > 5000);   // the decks were not dead
}
