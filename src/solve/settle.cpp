#include "solve/settle.hpp"

namespace towloom {

Settled settle(const Solver& solver, const Circuit& devices, const Scene& scene, const Solved& frame,
               const std::function<int(std::vector<char>, const Pulled&)>& network, const std::function<std::vector<double>(int)>& volts) {
  Settled out;
  Solved found = frame;
  const std::vector<Wave> waves = solver.read(scene);
  Modes modes = modes_at_rest(devices, found.phases);
  const auto solve = [&] {
    std::array<int, 4>& now = out.rounds.emplace_back();
    for (int p = 0; p < found.phases; ++p) {
      const auto at = static_cast<std::size_t>(p);
      now[at] = network(solver.conducting(waves, p % found.flash_phases(), modes.pulled[at], p < found.flash_phases()), modes.pulled[at]);
      if (solver.has_devices()) found.phase[at].volts = volts(now[at]);
    }
  };
  if (solver.has_devices()) out.rests = !follow(devices, solver.points(), found, modes, solve);
  else solve();
  return out;
}

}  // namespace towloom
