// Faults behind a coach whose lamp outputs are pulse-modulated: a filament keeps the resistance of its RMS volts then too.
#include "check/scene_by_scene.hpp"

using namespace towloom;
using namespace towloom::fixture;

namespace {

Checked on_pulses(const std::string& job, const std::string& duty) {
  return checked(changed(job, "  signals: combined", "  outputs: pulse-modulated\n  duty: " + duty + "\n  signals: combined"));
}

}  // namespace

// The scene solver is held against hand calculation in tests/solve/test_pulses.cpp.
TEST_CASE("with pulses the table is what scene by scene gives") {
  struct Row {
    std::string job, duty;
  };
  // Plain diodes, also at a duty that takes high amps in the pulse; relays that part the stop lamps. With more drop allowed.
  const std::string plain = changed(plain_job(), "{drop: 0.7 V}", "{drop: 3 V}"), relays = changed(job_file("mended-hatchback"), "{drop: 0.9 V}", "{drop: 3 V}");
  for (const Row& r : {Row{plain, "85 %"}, Row{plain, "40 %"}, Row{relays, "85 %"}}) {
    CAPTURE(r.job.substr(0, 80));
    CAPTURE(r.duty);
    const Checked job = on_pulses(r.job, r.duty);
    const Catalogue& catalogue = *job.job.catalogue;
    const Circuit& circuit = job.facts->circuit();
    const States& states = job.facts->states;
    const bool held = std::any_of(states.solved.begin(), states.solved.end(), [](const Solved& s) { return !s.held.empty(); });
    REQUIRE(held);
    // Every seventh fault: each is solved scene by scene.
    std::vector<Fault> faults;
    const std::vector<Fault> all = list_faults(circuit, catalogue);
    for (std::size_t f = 0; f < all.size(); f += 7) faults.push_back(all[f]);
    const FaultTable table = solve_faults(circuit, catalogue, states, faults);
    CHECK(SceneByScene{circuit, catalogue, states}.compare(table, 13, 80) > 8);
  }
}

TEST_CASE("with pulses a shared answer is the own answer too") {
  const Checked job = on_pulses(plain_job(), "85 %");
  const Catalogue& catalogue = *job.job.catalogue;
  const Circuit& circuit = job.facts->circuit();
  const FaultTable table = solve_faults(circuit, catalogue, job.facts->states, list_faults(circuit, catalogue));
  CHECK(table.shared > 20);
  for (std::size_t f = 0; f < table.rows.size(); f += 20) {
    CAPTURE(table.rows[f].fault.kind + " " + table.rows[f].fault.at);
    const FaultTable alone = solve_faults(circuit, catalogue, job.facts->states, {table.rows[f].fault});
    CHECK(alone.rows[0].symptoms == table.rows[f].symptoms);
    CHECK(alone.rows[0].blown == table.rows[f].blown);
  }
}
