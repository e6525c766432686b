#include "solve/race.hpp"

#include "solve/solver.hpp"

namespace towloom {
namespace {

constexpr int most_moves = 64;

// One part's modes as they follow, the others as they were. False if nothing follows.
bool move_first(Modes& now, const Modes& next) {
  for (std::size_t part = 0; part < now.pulled[0].size(); ++part) {
    bool moved = false;
    for (std::size_t phase = 0; phase < now.pulled.size(); ++phase) {
      moved = moved || now.pulled[phase][part] != next.pulled[phase][part] || now.levels[phase][part] != next.levels[phase][part];
      now.pulled[phase][part] = next.pulled[phase][part];
      now.levels[phase][part] = next.levels[phase][part];
    }
    if (moved) return true;
  }
  return false;
}

}  // namespace

bool rests_in_turn(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene) {
  const Solver solver(circuit, catalogue);
  const std::vector<Wave> waves = solver.read(scene);
  Solved found = solver.frame(scene);
  Modes modes = modes_at_rest(circuit, found.phases);
  for (int move = 0; move < most_moves; ++move) {
    for (int p = 0; p < found.phases; ++p) {
      const auto at = static_cast<std::size_t>(p);
      const std::vector<char> conducting = solver.conducting(waves, p % found.flash_phases(), modes.pulled[at], p < found.flash_phases());
      found.phase[at] = solver.solve_phase(conducting, {}, nullptr);
      if (!found.phase[at].converged) return false;
    }
    if (!move_first(modes, next_modes(circuit, solver.points(), found, modes))) return true;
  }
  return false;
}

}  // namespace towloom
