#include "solve/solve.hpp"

#include <algorithm>

#include "solve/solver.hpp"

namespace towloom {

Wave Scene::signal(const std::string& s) const {
  const auto at = signals.find(s);
  if (at != signals.end()) return at->second;
  if (s == "car.tail-stop") return signal("car.pedal") != Wave::off ? signal("car.pedal") : signal("car.lamps");
  const std::string both = "car.stop-turn.";
  if (s.rfind(both, 0) != 0) return Wave::off;
  const Wave turn = signal("car.turn." + s.substr(both.size()));
  return turn != Wave::off ? turn : signal("car.pedal");
}

double Solved::weight(int p) const {
  const double flash = 1.0 / flash_phases();
  return !pulsed ? flash : p < flash_phases() ? flash * duty : flash * (1 - duty);
}

bool Solved::converged() const {
  return std::all_of(phase.begin(), phase.begin() + phases, [](const Phase& p) { return p.converged; });
}

Solved solve(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene,
             const std::vector<Attached>& attached, const Known& known) {
  return Solver(circuit, catalogue).solve(scene, attached, known);
}

}  // namespace towloom
