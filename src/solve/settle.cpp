#include "solve/settle.hpp"

#include <algorithm>

namespace towloom {

Settled settle(const Solver& solver, const Circuit& devices, const Scene& scene, const Solved& frame,
               const std::function<int(std::vector<char>, const Pulled&)>& network, const std::function<std::vector<double>(int)>& volts) {
  Settled out;
  Solved found = frame;
  const std::vector<Wave> waves = solver.read(scene);
  Modes modes = modes_at_rest(devices, found.phases);
  std::vector<Modes> seen;
  for (int round = 0; round < most_rounds; ++round) {
    std::array<int, 4>& now = out.rounds.emplace_back();
    for (int p = 0; p < found.phases; ++p) {
      const auto at = static_cast<std::size_t>(p);
      now[at] = network(solver.conducting(waves, p % found.flash_phases(), modes.pulled[at], p < found.flash_phases()), modes.pulled[at]);
      if (solver.has_devices()) found.phase[at].volts = volts(now[at]);
    }
    if (!solver.has_devices()) return out;
    Modes next = next_modes(devices, solver.points(), found, modes);
    if (next == modes) return out;
    if (std::find(seen.begin(), seen.end(), next) != seen.end()) break;
    seen.push_back(modes);
    modes = std::move(next);
  }
  out.rests = false;
  return out;
}

}  // namespace towloom
