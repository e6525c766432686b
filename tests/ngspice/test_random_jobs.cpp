// Jobs made by chance of fixed seeds, of every method, extra and kind of coach and car that is shipped: all their
// scenes are solved, and every network that occurs in one of them is solved again by ngspice, in one process a batch.
#include <algorithm>
#include <optional>
#include <set>
#include "circuit/fixture.hpp"
#include "ngspice/compare.hpp"
#include "random/jobs.hpp"

using namespace towloom;

namespace {

constexpr unsigned jobs = 300, batch = 30;

struct Made {
  Circuit circuit;
  Spec spec;
};

// Nothing where what chance wrote contradicts itself: an added lamp that no run reaches, a signal that the coach has not.
std::optional<Made> make(unsigned seed, const Catalogue& catalogue) {
  Sources sources;
  Diagnostics diagnostics;
  const int file = sources.add("job.yaml", by_chance::job(seed));
  CAPTURE(sources.files[static_cast<std::size_t>(file)].text);
  const auto root = read_yaml(file, sources, diagnostics);
  auto spec = root ? read_job(*root, file, diagnostics) : std::nullopt;
  auto circuit = spec ? build(*spec, catalogue, diagnostics) : std::nullopt;
  if (!circuit) return std::nullopt;
  std::mt19937 random(seed);
  const auto& sizes = catalogue.wires.at(circuit->wire_series).sizes;
  for (Wire& w : circuit->wires)   // sizing is another test's: any size will do
    if (!w.size && w.fixed_ohm < 0) w.size = sizes[random() % sizes.size()].name;
  return Made{std::move(*circuit), std::move(*spec)};
}

struct Case {                  // one network: every scene and phase that has it is solved by it
  std::size_t job;
  Scene scene;
  int phase;
  Solved ours;
};

struct Count {
  int scenes = 0, chatter = 0, modules = 0, pulled = 0, unsolved = 0;
};

// The networks of one job: one case for each set of elements that conduct in some scene and phase.
void collect(std::size_t number, const Made& made, const Catalogue& catalogue, std::vector<Case>& cases, std::vector<std::string>& decks, Count& count) {
  std::map<std::vector<char>, Phase> known;
  std::set<std::vector<char>> seen;
  for (const Scene& scene : list_scenes(made.circuit, catalogue, made.spec)) {
    CAPTURE(scene.name);
    const Solved solved = solve(made.circuit, catalogue, scene, {}, {nullptr, &known});
    REQUIRE(solved.converged());
    ++count.scenes;
    if (!solved.chatter.empty()) {   // no rest, no operating point to compare
      ++count.chatter;
      continue;
    }
    for (int p = 0; p < solved.phases; ++p) {
      const auto& pulled = solved.phase[static_cast<std::size_t>(p)].pulled;
      for (const auto& part : pulled) count.pulled += static_cast<int>(std::count(part.begin(), part.end(), char{1}));
      if (!seen.insert(conducting(made.circuit, scene, p % solved.flash_phases(), pulled, p < solved.flash_phases())).second) continue;
      decks.push_back(netlist(made.circuit, catalogue, scene, p));
      cases.push_back({number, scene, p, solved});
    }
  }
  for (const Part& part : made.circuit.parts) count.modules += part.logic.has_value();
}

}  // namespace

TEST_CASE("300 jobs by chance are solved as ngspice does, in all their scenes") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  fixture::Job base = fixture::built(fixture::plain_job());
  const Catalogue& catalogue = *base.catalogue;
  Count count;
  ngspice::Tally tally;
  unsigned seed = 0, valid = 0;
  while (valid < jobs) {
    const unsigned first = seed + 1;
    std::vector<Made> made;
    std::vector<Case> cases;
    std::vector<std::string> decks;
    while (made.size() < batch) {
      REQUIRE(++seed < 4 * jobs);   // most of what chance writes can be built
      CAPTURE(seed);
      auto one = make(seed, catalogue);
      if (!one) continue;
      ++valid;
      made.push_back(std::move(*one));
      collect(made.size() - 1, made.back(), catalogue, cases, decks, count);
    }
    const auto theirs = ngspice::volts_of_all(decks);
    for (std::size_t i = 0; i < cases.size(); ++i) {
      const Case& c = cases[i];
      CAPTURE(first + c.job);
      CAPTURE(c.scene.name);
      CAPTURE(c.phase);
      if (theirs[i].empty()) {
        ++count.unsolved;
        MESSAGE("ngspice finds no operating point: job " << first + c.job << ", " << c.scene.name);
        continue;
      }
      ngspice::check_against(decks[i], theirs[i], made[c.job].circuit, catalogue, c.scene, c.ours, c.phase, tally);
    }
  }
  MESSAGE(count.scenes << " scenes of " << jobs << " jobs, " << tally.networks << " networks, " << tally.points << " points, " << count.chatter << " with chatter; "
                       << tally.carried_on << " carried on to more digits, by at most " << tally.moved << " V");
  CHECK(count.unsolved == 0);   // each of them is compared
  CHECK(tally.carried_on < tally.networks / 5);   // most with the cord out
  CHECK(tally.networks > 3000);
  CHECK(count.chatter < count.scenes / 50);
  CHECK(count.modules > 30);
  CHECK(count.pulled > 1000);
  CHECK(tally.live > 50000);   // the decks were not dead
}
