// Whole sheets of jobs made by number: placed, routed, labelled and read back without a defect.
#include <algorithm>
#include <array>
#include <thread>

#include "layout/random_jobs.hpp"
#include "layout/style_fixture.hpp"
#include "prove/prove.hpp"
#include "sheets/sheets.hpp"

using namespace towloom;

namespace {

constexpr int jobs = 2000;

struct Tally {
  int drawn = 0, several = 0, least = 100000, most = 0;
  std::string faults;
};

// The sheets need no solved scene: wires get one size, and no volts are printed.
std::optional<Facts> unsolved(const std::string& text, const Catalogue& catalogue, std::string& fault) {
  Sources sources;
  Diagnostics diagnostics;
  const int file = sources.add("job.yaml", text);
  Facts facts;
  const auto root = read_yaml(file, sources, diagnostics);
  auto spec = root ? read_job(*root, file, diagnostics) : std::nullopt;
  auto circuit = spec ? build(*spec, catalogue, diagnostics) : std::nullopt;
  if (!circuit) {
    fault = "not built: " + format_diagnostics(diagnostics, sources, false) + text;
    return std::nullopt;
  }
  facts.spec = std::move(*spec);
  facts.sized.circuit = std::move(*circuit);
  for (Wire& w : facts.sized.circuit.wires)
    if (!w.size && w.fixed_ohm < 0) w.size = WireSizeName{"16", WireSizeName::System::awg};
  return facts;
}

std::string drawn(const Facts& facts, const Catalogue& catalogue, const fixture::Looks& looks, Tally& tally) {
  Diagnostics diagnostics;
  const auto pages = bench_sheet(facts, catalogue, *looks.style, looks.measure, 0, diagnostics);
  std::string fault;
  for (const Diagnostic& d : diagnostics.all()) fault += d.message + "\n";
  if (pages.empty()) return fault + "no page\n";
  for (const Defect& d : prove(pages, facts.circuit())) fault += d.kind + ": " + d.message + "\n";
  const int wires = static_cast<int>(facts.circuit().wires.size());
  tally.least = std::min(tally.least, wires);
  tally.most = std::max(tally.most, wires);
  ++tally.drawn;
  tally.several += pages.size() > 1;
  return fault;
}

// Jobs first, first + step, ...; each on a4, letter, a3 or the first paper that holds it.
void draw_share(int first, int step, const Catalogue& catalogue, Tally& tally) {
  const fixture::Looks looks;
  for (int seed = first; seed <= jobs; seed += step) {
    const std::string text = seed % 4 == 0 ? fixture::random_job(seed) : fixture::VariedJob(seed).text();
    std::string fault;
    auto facts = unsolved(text, catalogue, fault);
    if (facts) {
      const char* papers[] = {"a3", "", "a3", "letter"};
      facts->spec.paper = papers[seed % 4];
      fault = drawn(*facts, catalogue, looks, tally);
    }
    if (!fault.empty()) tally.faults += "job " + std::to_string(seed) + ": " + fault;
  }
}

}  // namespace

TEST_CASE("jobs made by number: each is drawn, and read back from its geometry it is the circuit") {
  Sources sources;
  Diagnostics diagnostics;
  const auto catalogue = read_catalogue(std::filesystem::path(TOWLOOM_ROOT) / "specs", sources, diagnostics);
  REQUIRE(catalogue.has_value());
  std::array<Tally, 2> tallies;   // one a thread
  std::thread other([&] { draw_share(2, 2, *catalogue, tallies[1]); });
  draw_share(1, 2, *catalogue, tallies[0]);
  other.join();
  CHECK(tallies[0].faults == "");
  CHECK(tallies[1].faults == "");
  CHECK(tallies[0].drawn + tallies[1].drawn == jobs);
  CHECK(std::min(tallies[0].least, tallies[1].least) < 25);
  CHECK(std::max(tallies[0].most, tallies[1].most) >= 140);
  CHECK(tallies[0].several + tallies[1].several > 0);
}
