#include "solve/rests.hpp"

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

// The modes of all parts as they follow.
bool move_all(Modes& now, const Modes& next) {
  if (now == next) return false;
  now = next;
  return true;
}

// Moves until nothing moves; false where that never comes.
bool settle(const Solver& solver, const Circuit& circuit, const Scene& scene, Modes& modes, bool (*move)(Modes&, const Modes&)) {
  const std::vector<Wave> waves = solver.read(scene);
  Solved found = solver.frame(scene);
  for (int moves = 0; moves < most_moves; ++moves) {
    for (int p = 0; p < found.phases; ++p) {
      const auto at = static_cast<std::size_t>(p);
      const std::vector<char> conducting = solver.conducting(waves, p % found.flash_phases(), modes.pulled[at], p < found.flash_phases());
      found.phase[at] = solver.solve_phase(conducting, {}, nullptr);
      if (!found.phase[at].converged) return false;
    }
    if (!move(modes, next_modes(circuit, solver.points(), found, modes))) return true;
  }
  return false;
}

}  // namespace

bool rests_in_turn(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene) {
  const Solver solver(circuit, catalogue);
  Modes modes = modes_at_rest(circuit, solver.frame(scene).phases);
  return settle(solver, circuit, scene, modes, move_first);
}

std::vector<PartId> parts_held(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene) {
  const Solver solver(circuit, catalogue);
  const int phases = solver.frame(scene).phases;
  Modes rested = modes_at_rest(circuit, phases), held = modes_pulled_in(circuit, phases);
  std::vector<PartId> out;
  if (!settle(solver, circuit, scene, rested, move_all) || !settle(solver, circuit, scene, held, move_all)) return out;
  for (std::size_t part = 0; part < circuit.parts.size(); ++part)
    for (std::size_t phase = 0; phase < rested.pulled.size(); ++phase)
      if (rested.pulled[phase][part] != held.pulled[phase][part]) {
        out.push_back({static_cast<int>(part)});
        break;
      }
  return out;
}

}  // namespace towloom
