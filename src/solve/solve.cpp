#include "solve/solve.hpp"

#include <algorithm>
#include <cmath>

#include "solve/network.hpp"

namespace towloom {
namespace {

// Figures are compared and printed after rounding, so that every compiler prints the same.
double rounded(double v) { return std::round(v * 1e6) / 1e6 + 0.0; }

Phase solve_phase(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene, int phase,
                  const std::vector<Attached>& attached) {
  const Flat flat = flatten(circuit, catalogue, scene, phase, attached);
  const Operating found = find_operating_point(flat.network);
  const auto amps = [&](int branch) { return branch < 0 ? 0.0 : rounded(found.amps[static_cast<size_t>(branch)]); };
  Phase out;
  out.iterations = found.iterations;
  out.converged = found.converged;
  for (const int p : flat.point) out.volts.push_back(p < 0 ? 0.0 : rounded(found.volts[static_cast<size_t>(p)]));
  for (const auto& part : flat.branch_of) {
    std::vector<double> row;
    for (const int b : part) row.push_back(amps(b));
    out.element_a.push_back(std::move(row));
  }
  for (const int b : flat.branch_of_wire) out.wire_a.push_back(amps(b));
  return out;
}

}  // namespace

Wave Scene::signal(const std::string& s) const {
  const auto at = signals.find(s);
  return at == signals.end() ? Wave::off : at->second;
}

bool Solved::converged() const {
  return std::all_of(phase.begin(), phase.begin() + phases, [](const Phase& p) { return p.converged; });
}

Solved solve(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene,
             const std::vector<Attached>& attached) {
  Solved out;
  for (const auto& [name, wave] : scene.signals)
    if (wave == Wave::flash || wave == Wave::counterflash) out.phases = 2;
  for (int p = 0; p < out.phases; ++p)
    out.phase[static_cast<size_t>(p)] = solve_phase(circuit, catalogue, scene, p, attached);
  return out;
}

}  // namespace towloom
