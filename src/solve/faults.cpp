#include "solve/faults.hpp"

#include <algorithm>
#include <memory>

#include "solve/sound.hpp"

namespace towloom {
namespace {

bool gives_light(Seen seen) { return seen == Seen::lit || seen == Seen::flash || seen == Seen::counterflash; }

// The circuit with the fault, and with the fuses open that it blew in some scene.
struct Variant {
  Variant(Circuit c, const Catalogue& catalogue) : circuit(std::move(c)), solver(circuit, catalogue) {}
  Variant(const Variant&) = delete;
  Variant& operator=(const Variant&) = delete;
  const Circuit circuit;
  const Solver solver;
  std::map<int, Look> looks;   // by network, where there are no devices
  Phases phases;               // else
};
using Variants = std::map<std::vector<int>, std::unique_ptr<Variant>>;   // by the protectors that are open

void compare(const Sound& sound, int scene, const std::vector<LampState>& now, FaultRow& row) {
  const std::vector<LampState>& was = sound.scenes[static_cast<std::size_t>(scene)].states;
  for (std::size_t l = 0; l < now.size(); ++l) {
    Symptom s{scene, static_cast<int>(l), now[l].seen, LightChange::none};
    if (now[l].seen == was[l].seen && gives_light(now[l].seen)) {
      if (now[l].light < sound.dimmer_share * was[l].light) s.light = LightChange::dimmer;
      if (now[l].light * sound.dimmer_share > was[l].light) s.light = LightChange::brighter;
    }
    if (now[l].seen != was[l].seen || s.light != LightChange::none) row.symptoms.push_back(s);
  }
}

// One fault in all scenes.
class OneFault {
 public:
  OneFault(const Sound& sound, const Fault& fault, bool skip) : sound_(sound), fault_(fault), skip_(skip), reach_(sound.networks.size()) {}

  // True: every lamp shows what it shows in the sound circuit, every relay goes the same way, no fuse opens.
  bool left_alone(int scene) {
    if (!skip_) return false;
    const SoundScene& s = sound_.scenes[static_cast<std::size_t>(scene)];
    for (int p = 0; p < s.frame.phases; ++p) {
      const int network = s.network[static_cast<std::size_t>(p)];
      const Reach& r = reach(network);
      if (!is_quiet(r) && !(s.lamps[static_cast<std::size_t>(p)].holds(r) && r.amps < of(network).protectors)) return false;
    }
    return std::all_of(s.on_the_way.begin(), s.on_the_way.end(), [&](int n) { return is_quiet(reach(n)) || of(n).devices.holds(reach(n)); });
  }

  void solve(int scene, FaultRow& row) {
    std::vector<int> open;     // protectors
    for (;;) {
      Variant& v = variant(open);
      std::array<const Look*, 4> looks{};
      bool rests = true;
      if (sound_.solver.has_devices()) rests = solve_devices(scene, v, looks, open.empty());
      else solve_networks(scene, v, looks, open.empty());
      const SoundScene& s = sound_.scenes[static_cast<std::size_t>(scene)];
      int over = -1;
      bool solved = rests;
      for (int p = 0; p < s.frame.phases; ++p) {
        const Look& look = *looks[static_cast<std::size_t>(p)];
        solved = solved && look.converged;
        if (look.overloaded >= 0 && (over < 0 || look.overloaded < over)) over = look.overloaded;
      }
      if (over >= 0 && open.size() < most_blown) {
        const PartId part = sound_.protectors[static_cast<std::size_t>(over)].part;
        if (std::find(row.blown.begin(), row.blown.end(), part) == row.blown.end()) row.blown.push_back(part);
        open.insert(std::lower_bound(open.begin(), open.end(), over), over);
        continue;
      }
      if (!solved) ++row.unsolved;
      return compare(sound_, scene, sound_.show(v.circuit, s, [&](int p) -> const Look& { return *looks[static_cast<std::size_t>(p)]; }), row);
    }
  }

 private:
  const Reach& reach(int network) {
    auto& known = reach_[static_cast<std::size_t>(network)];
    if (!known) known = reach_of(sound_.circuit, sound_.solver.points(), fault_, *of(network).phase);
    return *known;
  }
  const SoundNetwork& of(int network) const { return sound_.networks[static_cast<std::size_t>(network)]; }
  bool alone(int network) { return skip_ && is_quiet(reach(network)); }

  Variant& variant(const std::vector<int>& open) {
    auto& found = variants_[open];
    if (found) return *found;
    Circuit circuit = with_fault(sound_.circuit, fault_, sound_.catalogue);
    for (const int p : open) circuit = with_fault(std::move(circuit), opened(sound_.protectors[static_cast<std::size_t>(p)]), sound_.catalogue);
    found = std::make_unique<Variant>(std::move(circuit), sound_.catalogue);
    return *found;
  }

  // No device: each network is solved once, whatever scenes have it.
  void solve_networks(int scene, Variant& v, std::array<const Look*, 4>& looks, bool may_skip) {
    const SoundScene& s = sound_.scenes[static_cast<std::size_t>(scene)];
    for (int p = 0; p < s.frame.phases; ++p) {
      const int network = s.network[static_cast<std::size_t>(p)];
      const SoundNetwork& sound = of(network);
      if (may_skip && alone(network)) {
        looks[static_cast<std::size_t>(p)] = &sound.look;
        continue;
      }
      const auto [at, fresh] = v.looks.try_emplace(network);
      if (fresh) {
        const auto key = v.solver.conducting(v.solver.read(sound_.states.scenes[static_cast<std::size_t>(scene)]), p % s.frame.flash_phases(), {},
                                             p < s.frame.flash_phases());
        at->second = sound_.look(v.circuit, v.solver.solve_phase(key, {}, sound.phase));
      }
      looks[static_cast<std::size_t>(p)] = &at->second;
    }
  }

  // Relays and modules: their modes are found from rest, with the networks that are known already. False: no rest.
  bool solve_devices(int scene, Variant& v, std::array<const Look*, 4>& looks, bool may_skip) {
    const SoundScene& s = sound_.scenes[static_cast<std::size_t>(scene)];
    const Scene& asked = sound_.states.scenes[static_cast<std::size_t>(scene)];
    const auto waves = v.solver.read(asked);
    for (int p = 0; may_skip && p < s.frame.phases; ++p) {
      const SoundNetwork& sound = of(s.network[static_cast<std::size_t>(p)]);
      if (!alone(s.network[static_cast<std::size_t>(p)])) continue;
      const Phase& phase = *sound.phase;
      const auto key = v.solver.conducting(waves, p % s.frame.flash_phases(), phase.pulled, p < s.frame.flash_phases());
      v.phases.try_emplace(key, phase).first->second.wire_a.resize(v.circuit.wires.size(), 0);
    }
    const Solved solved = v.solver.solve(asked, {}, {&sound_.states.solved[static_cast<std::size_t>(scene)], &v.phases, &sound_.phases});
    for (std::size_t p = 0; p < static_cast<std::size_t>(solved.phases); ++p) {
      own_[p] = sound_.look(v.circuit, solved.phase[p]);
      looks[p] = &own_[p];
    }
    return solved.chatter.empty();
  }

  const Sound& sound_;
  const Fault& fault_;
  const bool skip_;
  std::vector<std::optional<Reach>> reach_;    // by network
  Variants variants_;
  std::array<Look, 4> own_;
};

// Rows that show the same everywhere.
std::vector<FaultClass> classify(const std::vector<FaultRow>& rows) {
  std::vector<FaultClass> out;
  std::map<std::vector<Symptom>, std::size_t> known;
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const auto [at, fresh] = known.try_emplace(rows[r].symptoms, out.size());
    if (fresh) out.push_back({rows[r].symptoms, {}});
    out[at->second].faults.push_back(static_cast<int>(r));
  }
  return out;
}

}  // namespace

std::vector<WatchedLamp> watched_lamps(const Circuit& circuit) {
  std::vector<WatchedLamp> out;
  for (const LampIntent& lamp : circuit.lamps) out.push_back({lamp.lamp, 0});
  for (std::size_t p = 0; p < circuit.parts.size(); ++p)
    for (std::size_t e = 0; e < circuit.parts[p].elements.size(); ++e)
      if (circuit.parts[p].kind != "lamp" && circuit.parts[p].elements[e].law == Law::filament)
        out.push_back({{static_cast<int>(p)}, static_cast<int>(e)});
  return out;
}

FaultTable solve_faults(const Circuit& circuit, const Catalogue& catalogue, const States& states, std::vector<Fault> faults, bool skip) {
  const Sound sound(circuit, catalogue, states);
  FaultTable out;
  for (Fault& fault : faults) {
    FaultRow row;
    OneFault one(sound, fault, skip);
    for (int s = 0; s < static_cast<int>(states.scenes.size()); ++s) {
      if (one.left_alone(s)) {
        ++out.skipped;
        continue;
      }
      ++out.solved;
      one.solve(s, row);
    }
    row.fault = std::move(fault);
    out.rows.push_back(std::move(row));
  }
  out.classes = classify(out.rows);
  return out;
}

}  // namespace towloom
