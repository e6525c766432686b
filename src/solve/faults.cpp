#include "solve/faults.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "solve/lamps.hpp"
#include "solve/protectors.hpp"
#include "solve/solver.hpp"

namespace towloom {
namespace {

bool gives_light(Seen seen) { return seen == Seen::lit || seen == Seen::flash || seen == Seen::counterflash; }

// What one phase of one circuit shows: all that a fault table needs of it.
struct Look {
  bool converged = false;
  int overloaded = -1;         // index of the first protector that opens
  std::vector<LampLook> lamps;
};
using Phases = std::map<std::vector<char>, Phase>;

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

// One scene of the sound circuit.
struct SoundScene {
  Solved frame;
  std::array<int, 4> network{};        // by phase: scenes share networks
  std::vector<LampState> lamps;
};
// A network of the sound circuit: which elements conduct.
struct SoundNetwork {
  int scene = 0, phase = 0;            // the first scene that has it
  Look look;
};

struct Run {
  const Circuit& sound;
  const Catalogue& catalogue;
  const States& states;
  const Solver solver;
  const std::vector<Protector> protectors;
  const std::vector<WatchedLamp> lamps;
  const LightRules rules;
  const double dimmer_share;
  const bool skip;
  std::vector<SoundScene> scenes;
  std::vector<SoundNetwork> networks;

  Run(const Circuit& c, const Catalogue& k, const States& s, bool skip_quiet)
      : sound(c), catalogue(k), states(s), solver(c, k), protectors(find_protectors(c, k)), lamps(watched_lamps(c)), rules(k),
        dimmer_share(k.rule("dimmer_share").value), skip(skip_quiet) {
    std::map<std::vector<char>, int> known;
    for (std::size_t i = 0; i < states.scenes.size(); ++i) {
      SoundScene scene;
      scene.frame = solver.frame(states.scenes[i]);
      const auto waves = solver.read(states.scenes[i]);
      for (int p = 0; p < scene.frame.phases; ++p) {
        const Phase& phase = states.solved[i].phase[static_cast<std::size_t>(p)];
        const int flash = p % scene.frame.flash_phases();
        auto key = solver.conducting(waves, flash, phase.pulled, p < scene.frame.flash_phases());
        for (const auto& devices : phase.pulled) key.insert(key.end(), devices.begin(), devices.end());   // equal networks may be other modes
        const auto [at, fresh] = known.try_emplace(key, static_cast<int>(networks.size()));
        if (fresh) networks.push_back({static_cast<int>(i), p, look(sound, phase)});
        scene.network[static_cast<std::size_t>(p)] = at->second;
      }
      scene.lamps = show(sound, scene, [&](int p) -> const Look& { return networks[static_cast<std::size_t>(scene.network[static_cast<std::size_t>(p)])].look; });
      scenes.push_back(std::move(scene));
    }
  }

  Look look(const Circuit& circuit, const Phase& phase) const {
    Look out{phase.converged, find_overloaded(protectors, phase), {}};
    for (const WatchedLamp& lamp : lamps) out.lamps.push_back(look_at(circuit, rules, solver.points(), lamp.part, phase, lamp.element));
    return out;
  }

  // `circuit` is the one that was solved: a burnt-out lamp gives no light whatever its volts.
  template <class Looks>
  std::vector<LampState> show(const Circuit& circuit, const SoundScene& scene, const Looks& look_of) const {
    std::vector<LampState> out;
    for (std::size_t l = 0; l < lamps.size(); ++l) {
      std::array<LampLook, 4> looks;
      for (int p = 0; p < scene.frame.phases; ++p) looks[static_cast<std::size_t>(p)] = look_of(p).lamps[l];
      out.push_back(combine(circuit.part(lamps[l].part).elements[static_cast<std::size_t>(lamps[l].element)], rules, scene.frame, looks));
    }
    return out;
  }

  void compare(int scene, const std::vector<LampState>& now, FaultRow& row) const {
    const std::vector<LampState>& was = scenes[static_cast<std::size_t>(scene)].lamps;
    for (std::size_t l = 0; l < lamps.size(); ++l) {
      Symptom s{scene, static_cast<int>(l), now[l].seen, LightChange::none};
      if (now[l].seen == was[l].seen && gives_light(now[l].seen)) {
        if (now[l].light < dimmer_share * was[l].light) s.light = LightChange::dimmer;
        if (now[l].light * dimmer_share > was[l].light) s.light = LightChange::brighter;
      }
      if (now[l].seen != was[l].seen || s.light != LightChange::none) row.symptoms.push_back(s);
    }
  }
};

// One fault in all scenes.
class OneFault {
 public:
  OneFault(const Run& run, const Fault& fault) : run_(run), fault_(fault), alone_(run.networks.size(), unknown) {}

  // True: every phase of the scene is the sound one's.
  bool left_alone(int scene) {
    const SoundScene& s = run_.scenes[static_cast<std::size_t>(scene)];
    for (int p = 0; p < s.frame.phases; ++p)
      if (!alone(s.network[static_cast<std::size_t>(p)])) return false;
    return true;
  }

  void solve(int scene, FaultRow& row) {
    std::vector<int> open;     // protectors
    for (;;) {
      Variant& v = variant(open);
      std::array<const Look*, 4> looks{};
      bool rests = true;
      if (run_.solver.has_devices()) rests = solve_devices(scene, v, looks, open.empty());
      else solve_networks(scene, v, looks, open.empty());
      const SoundScene& s = run_.scenes[static_cast<std::size_t>(scene)];
      int over = -1;
      bool solved = rests;
      for (int p = 0; p < s.frame.phases; ++p) {
        const Look& look = *looks[static_cast<std::size_t>(p)];
        solved = solved && look.converged;
        if (look.overloaded >= 0 && (over < 0 || look.overloaded < over)) over = look.overloaded;
      }
      if (over >= 0 && open.size() < most_blown) {
        const PartId part = run_.protectors[static_cast<std::size_t>(over)].part;
        if (std::find(row.blown.begin(), row.blown.end(), part) == row.blown.end()) row.blown.push_back(part);
        open.insert(std::lower_bound(open.begin(), open.end(), over), over);
        continue;
      }
      if (!solved) ++row.unsolved;
      return run_.compare(scene, run_.show(v.circuit, s, [&](int p) -> const Look& { return *looks[static_cast<std::size_t>(p)]; }), row);
    }
  }

 private:
  static constexpr char unknown = 2;

  bool alone(int network) {
    char& known = alone_[static_cast<std::size_t>(network)];
    if (known == unknown) {
      const SoundNetwork& n = run_.networks[static_cast<std::size_t>(network)];
      known = leaves_alone(run_.sound, run_.solver.points(), fault_, sound_phase(n)) ? 1 : 0;
    }
    return run_.skip && known == 1;
  }
  const Phase& sound_phase(const SoundNetwork& n) const {
    return run_.states.solved[static_cast<std::size_t>(n.scene)].phase[static_cast<std::size_t>(n.phase)];
  }

  Variant& variant(const std::vector<int>& open) {
    auto& found = variants_[open];
    if (found) return *found;
    Circuit circuit = with_fault(run_.sound, fault_, run_.catalogue);
    for (const int p : open) circuit = with_fault(std::move(circuit), opened(run_.protectors[static_cast<std::size_t>(p)]), run_.catalogue);
    found = std::make_unique<Variant>(std::move(circuit), run_.catalogue);
    return *found;
  }

  // No device: each network is solved once, whatever scenes have it.
  void solve_networks(int scene, Variant& v, std::array<const Look*, 4>& looks, bool may_skip) {
    const SoundScene& s = run_.scenes[static_cast<std::size_t>(scene)];
    for (int p = 0; p < s.frame.phases; ++p) {
      const int network = s.network[static_cast<std::size_t>(p)];
      const SoundNetwork& sound = run_.networks[static_cast<std::size_t>(network)];
      if (may_skip && alone(network)) {
        looks[static_cast<std::size_t>(p)] = &sound.look;
        continue;
      }
      const auto [at, fresh] = v.looks.try_emplace(network);
      if (fresh) {
        const auto key = v.solver.conducting(v.solver.read(run_.states.scenes[static_cast<std::size_t>(scene)]), p % s.frame.flash_phases(), {},
                                             p < s.frame.flash_phases());
        at->second = run_.look(v.circuit, v.solver.solve_phase(key, {}, &sound_phase(sound)));
      }
      looks[static_cast<std::size_t>(p)] = &at->second;
    }
  }

  // Relays and modules: their modes are found from rest, with the networks that are known already. False: no rest.
  bool solve_devices(int scene, Variant& v, std::array<const Look*, 4>& looks, bool may_skip) {
    const SoundScene& s = run_.scenes[static_cast<std::size_t>(scene)];
    const Scene& asked = run_.states.scenes[static_cast<std::size_t>(scene)];
    const auto waves = v.solver.read(asked);
    for (int p = 0; may_skip && p < s.frame.phases; ++p) {
      const SoundNetwork& sound = run_.networks[static_cast<std::size_t>(s.network[static_cast<std::size_t>(p)])];
      if (!alone(s.network[static_cast<std::size_t>(p)])) continue;
      const Phase& phase = sound_phase(sound);
      const auto key = v.solver.conducting(waves, p % s.frame.flash_phases(), phase.pulled, p < s.frame.flash_phases());
      v.phases.try_emplace(key, phase).first->second.wire_a.resize(v.circuit.wires.size(), 0);
    }
    const Solved solved = v.solver.solve(asked, {}, {&run_.states.solved[static_cast<std::size_t>(scene)], &v.phases});
    for (std::size_t p = 0; p < static_cast<std::size_t>(solved.phases); ++p) {
      own_[p] = run_.look(v.circuit, solved.phase[p]);
      looks[p] = &own_[p];
    }
    return solved.chatter.empty();
  }

  const Run& run_;
  const Fault& fault_;
  std::vector<char> alone_;    // by network
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
  const Run run(circuit, catalogue, states, skip);
  FaultTable out;
  for (Fault& fault : faults) {
    FaultRow row;
    OneFault one(run, fault);
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
