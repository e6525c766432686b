// Whole sheets of jobs made by number: placed, routed, labelled and read back without a defect.
#include <algorithm>

#include "layout/random_jobs.hpp"
#include "layout/style_fixture.hpp"
#include "prove/prove.hpp"
#include "sheets/sheets.hpp"

using namespace towloom;

namespace {

constexpr int jobs = 48;

// The sheets need no solved scene: wires get one size, and no volts are printed.
Facts unsolved(const fixture::Job& job, const std::string& paper) {
  Facts facts;
  facts.spec = *job.spec;
  facts.spec.paper = paper;
  facts.sized.circuit = *job.circuit;
  for (Wire& w : facts.sized.circuit.wires)
    if (!w.size && w.fixed_ohm < 0) w.size = WireSizeName{"16", WireSizeName::System::awg};
  return facts;
}

}  // namespace

TEST_CASE("jobs made by number: each is drawn, and read back from its geometry it is the circuit") {
  const fixture::Looks looks;
  int drawn = 0, several = 0, least = 1000, most = 0;
  for (int seed = 1; seed <= jobs; ++seed) {
    const std::string text = fixture::random_job(seed);
    const fixture::Job job = fixture::built(text);
    CAPTURE(text);
    INFO(format_diagnostics(job.diagnostics, job.sources, false));
    REQUIRE(job.circuit.has_value());
    const Facts facts = unsolved(job, "a3");
    const int wires = static_cast<int>(facts.circuit().wires.size());
    least = std::min(least, wires);
    most = std::max(most, wires);
    Diagnostics diagnostics;
    const auto pages = bench_sheet(facts, *job.catalogue, *looks.style, looks.measure, 0, diagnostics);
    INFO(format_diagnostics(diagnostics, job.sources, false));
    CHECK_FALSE(pages.empty());
    if (pages.empty()) continue;
    std::string defects;
    for (const Defect& d : prove(pages, facts.circuit())) defects += d.kind + ": " + d.message + "\n";
    CHECK(defects == "");
    ++drawn;
    several += pages.size() > 1;
  }
  CHECK(drawn == jobs);
  CHECK(least < 50);
  CHECK(most > 60);
}
