#include "solve/solve.hpp"

#include <algorithm>
#include <cmath>

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

double warming_amps(const Solved& solved, WireId wire) {
  double most = 0;
  for (int flash = 0; flash < solved.flash_phases(); ++flash) {
    double square = 0;
    for (int p = flash; p < solved.phases; p += solved.flash_phases()) {
      const double amps = solved.phase[static_cast<std::size_t>(p)].wire_a[static_cast<std::size_t>(wire.v)];
      square += amps * amps * solved.weight(p) * solved.flash_phases();
    }
    most = std::max(most, square);
  }
  return std::sqrt(most);
}

Solved solve(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene,
             const std::vector<Attached>& attached, const Known& known) {
  return Solver(circuit, catalogue).solve(scene, attached, known);
}

}  // namespace towloom
