// One scene: its phases, the modes that rest in them, and what pulses do to filaments.
#include "solve/pulses.hpp"
#include "solve/solver.hpp"

namespace towloom {
using std::size_t;
namespace {

// The parts whose modes still change: the loop.
std::vector<PartId> changing(const Modes& a, const Modes& b) {
  std::vector<PartId> out;
  for (size_t part = 0; part < a.pulled[0].size(); ++part)
    for (size_t phase = 0; phase < a.pulled.size(); ++phase)
      if (a.pulled[phase][part] != b.pulled[phase][part]) {
        out.push_back({static_cast<int>(part)});
        break;
      }
  return out;
}

}  // namespace

struct Solver::Job {
  const std::vector<Wave> waves;
  const std::vector<Attached>& attached;
  const Known& known;
  const std::vector<Solver>& by_flash;   // by flash phase, or none: this one for all
  std::array<std::vector<char>, 4> conducting = {};   // by phase, as solved last
};

void Solver::solve_phases(Job& job, const Modes& modes, Solved& out) const {
  for (int p = 0; p < out.phases; ++p) {
    const auto at = static_cast<size_t>(p);
    const Phase* near = job.known.near == nullptr ? nullptr : &job.known.near->phase[at];
    const int flash = p % out.flash_phases();
    const std::vector<char> key = conducting(job.waves, flash, modes.pulled[at], p < out.flash_phases());
    if (key == job.conducting[at]) {
      out.phase[at].pulled = modes.pulled[at];
      continue;
    }
    if (!out.phase[at].volts.empty()) near = &out.phase[at];
    job.conducting[at] = key;
    if (!job.by_flash.empty()) {
      out.phase[at] = job.by_flash[static_cast<size_t>(flash)].solve_phase(key, job.attached, near);
    } else if (job.known.phases == nullptr) {
      out.phase[at] = solve_phase(key, job.attached, near);
    } else {
      auto found = job.known.phases->find(key);
      if (found == job.known.phases->end()) found = job.known.phases->emplace(key, solve_phase(key, job.attached, near)).first;
      out.phase[at] = found->second;
    }
    out.phase[at].pulled = modes.pulled[at];   // an equal network may be another mode
  }
}

// All changes at once, until nothing changes. The modes found are left in `modes`.
void Solver::settle(Job& job, Modes& modes, Solved& out) const {
  if (const auto next = follow(devices_of_ == nullptr ? circuit_ : *devices_of_, points_, out, modes, [&] { solve_phases(job, modes, out); })) out.chatter = changing(modes, *next);
}

Solved Solver::frame(const Scene& scene) const {
  Solved out;
  for (const auto& [name, wave] : scene.signals)
    if (wave == Wave::flash || wave == Wave::counterflash) out.phases = 2;
  for (const Slot& s : slots_) {
    const Element& e = circuit_.parts[static_cast<size_t>(s.part)].elements[static_cast<size_t>(s.element)];
    if (s.pulsed && scene.signal(e.signal) != Wave::off) {
      out.duty = e.duty;
      break;
    }
  }
  out.pulsed = out.duty < 1;
  if (out.pulsed) out.phases *= 2;
  return out;
}

// Modes that were found to rest nearly so: whether they still do.
bool Solver::stay(Job& job, const Modes& modes, Solved& out) const {
  solve_phases(job, modes, out);
  return next_modes(devices_of_ == nullptr ? circuit_ : *devices_of_, points_, out, modes) == modes;
}

Modes Solver::rest(Job& job, Solved& out) const {
  Modes modes = modes_at_rest(circuit_, out.phases);
  if (!devices_) {
    solve_phases(job, modes, out);
    return modes;
  }
  settle(job, modes, out);
  if (job.known.near != nullptr) return modes;
  // From the other end: where relays that were in stay in, the scene before decides.
  Solved after = out;
  after.chatter.clear();
  Modes other = modes_pulled_in(circuit_, out.phases);
  settle(job, other, after);
  out.depends_on_before = out.chatter.empty() && other.pulled != modes.pulled;
  return modes;
}

Solved Solver::solve(const Scene& scene, const std::vector<Attached>& attached, const Known& known) const {
  const std::vector<Wave> waves = read(scene);
  Solved out = frame(scene);
  std::optional<Modes> rested;   // in the round before
  const auto rest_with = [&](std::vector<HeldFilament> held) {
    std::vector<Solver> by_flash;
    for (int flash = 0; flash < out.flash_phases() && !held.empty(); ++flash) by_flash.emplace_back(*this, held_changes(held, flash));
    out.chatter.clear();
    out.depends_on_before = false;
    Job job{waves, attached, known, by_flash};
    if (!nearly_ || !rested || !stay(job, *rested, out)) rested = rest(job, out);
    out.held = std::move(held);
  };
  // A circuit nearly the same tells what its filaments come to.
  rest_with(out.pulsed && known.near != nullptr ? known.near->held : std::vector<HeldFilament>{});
  // Filaments as resistors, until these are what their RMS volts make of them.
  constexpr int most_rounds = 20;   // each leaves about a twentieth of the difference
  for (int round = 0; out.pulsed && out.converged() && round < most_rounds; ++round) {
    std::vector<HeldFilament> held = held_filaments(*this, out);
    if (agree(held, out.held, nearly_ ? 1e-4 : 1e-6)) break;
    rest_with(std::move(held));
  }
  return out;
}

Solved Solver::solve_nearly(const Scene& scene, const Solved& near) {
  nearly_ = true;
  return solve(scene, {}, {&near, nullptr});
}

}  // namespace towloom
