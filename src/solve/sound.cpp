#include "solve/sound.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "solve/pulses.hpp"

namespace towloom {
namespace {

double rounded(double v) { return std::round(v * 1e6) / 1e6 + 0.0; }

// How far a value may move before it comes to a limit.
double room(const Thresholds& limits, double value) {
  const double v = limits.both_ways ? std::fabs(value) : value;
  double out = std::numeric_limits<double>::infinity();
  for (const double at : limits.at) out = std::min(out, std::fabs(at - v));
  return out;
}

double highest_volts(const Circuit& c) {
  double out = 0;
  for (const Part& part : c.parts)
    for (const Element& e : part.elements)
      if (e.law == Law::source) out = std::max(out, std::fabs(e.volts));
  return out;
}

}  // namespace

Sound::Sound(const Circuit& c, const Catalogue& k, const States& s)
    : circuit(c), catalogue(k), states(s), solver(c, k), protectors(find_protectors(c, k)), lamps(watched_lamps(c)), rules(k),
      dimmer_share(k.rule("dimmer_share").value), leaks_a(solver.nodes() * point_leak * highest_volts(c)) {
  std::vector<std::vector<double>> lights(lamps.size());
  for (const Scene& asked : states.scenes) {
    SoundScene scene;
    scene.frame = solver.frame(asked);
    scene.way = settle(
        solver, circuit, asked, scene.frame, [&](std::vector<char> conducting, const Pulled& pulled) { return number(std::move(conducting), pulled); },
        [&](int n) { return solver.by_point(network(n).solved.volts); });
    // Over pulses a filament is held at its RMS volts: that is no network by itself.
    const Solved& solved = states.solved[scenes.size()];
    scene.states = solved.held.empty() ? show(solver, scene.frame, [&](int p) -> const auto& { return network(scene.way.last()[static_cast<std::size_t>(p)]).lamps; })
                                       : show(solver, solved);
    for (std::size_t l = 0; l < lamps.size(); ++l) if (scene.states[l].light >= rules.lit) lights[l].push_back(scene.states[l].light);
    scenes.push_back(std::move(scene));
  }
  watches = make_watches(solver, lamps, lights, protectors, rules, dimmer_share);
  watching_ = true;
  for (auto& network : networks_) find_margin(solver.network(network->conducting), *network);
  for (std::size_t i = 0; i < scenes.size(); ++i)
    if (!states.solved[i].held.empty()) scenes[i].held = hold(states.scenes[i], states.solved[i]);
}

std::vector<SoundNetwork> Sound::hold(const Scene& scene, const Solved& solved) const {
  const std::vector<Wave> waves = solver.read(scene);
  std::vector<SoundNetwork> out(static_cast<std::size_t>(solved.phases));
  for (int flash = 0; flash < solved.flash_phases(); ++flash) {
    const Solver by_resistors(solver, held_changes(solved.held, flash));
    for (int p = flash; p < solved.phases; p += solved.flash_phases()) {
      const Phase& phase = solved.phase[static_cast<std::size_t>(p)];
      SoundNetwork& n = out[static_cast<std::size_t>(p)];
      n.conducting = solver.conducting(waves, flash, phase.pulled, p < solved.flash_phases());
      n.pulled = phase.pulled;
      n.solved = by_resistors.operate(by_resistors.network(n.conducting), solver.by_node(phase.volts));
      find_margin(by_resistors.network(n.conducting), n);
    }
  }
  return out;
}

int Sound::number(std::vector<char> conducting, const Pulled& pulled) {
  std::string key(conducting.begin(), conducting.end());
  for (const auto& devices : pulled) key.append(devices.begin(), devices.end());   // equal networks may be other modes
  const auto [at, fresh] = known_.try_emplace(std::move(key), networks());
  if (!fresh) return at->second;
  auto made = std::make_unique<SoundNetwork>();
  made->conducting = std::move(conducting);
  made->pulled = pulled;
  // What a fault leads to must not hang on the faults before.
  const std::vector<double> near = networks_.empty() ? std::vector<double>{} : (watching_ ? networks_.front() : networks_.back())->solved.volts;
  if (!watching_ || solver.has_power()) {
    made->solved = solver.operate(solver.network(made->conducting), near);
  } else {   // a fault alone leads here: no scene shows it, and nothing is held against it
    made->shown = false;
    made->solved.volts = near;
    made->solved.amps.assign(static_cast<std::size_t>(solver.branches()), 0);
    made->solved.converged = true;
    made->within = std::numeric_limits<double>::infinity();
  }
  if (made->shown) made->lamps = look(solver, made->solved.volts, made->solved.amps);
  if (watching_) find_margin(solver.network(made->conducting), *made);
  networks_.push_back(std::move(made));
  return at->second;
}

std::vector<LampState> Sound::show(const Solver& of, const Solved& solved) const {
  std::array<std::vector<LampLook>, 4> looks;
  for (std::size_t p = 0; p < static_cast<std::size_t>(solved.phases); ++p) {
    const Phase& phase = solved.phase[p];
    const auto at = [&](TerminalRef t) { return phase.volts[static_cast<std::size_t>(of.points().at(t))]; };
    for (const WatchedLamp& lamp : lamps) {
      const Element& e = of.element(of.branch(lamp.part, lamp.element));
      const double amps = phase.element_a[static_cast<std::size_t>(lamp.part.v)][static_cast<std::size_t>(lamp.element)];
      looks[p].push_back(look_at(e, rules, at({lamp.part, e.a}) - at({lamp.part, e.b}), amps));
    }
  }
  return show(of, solved, [&](int p) -> const auto& { return looks[static_cast<std::size_t>(p)]; });
}

std::vector<LampLook> Sound::look(const Solver& of, const std::vector<double>& volts, const std::vector<double>& amps) const {
  std::vector<LampLook> out;
  const auto at = [&](TerminalRef t) { return of.node(t) < 0 ? 0.0 : rounded(volts[static_cast<std::size_t>(of.node(t))]); };
  for (const WatchedLamp& lamp : lamps) {
    const int branch = of.branch(lamp.part, lamp.element);
    const Element& e = of.element(branch);
    out.push_back(look_at(e, rules, at({lamp.part, e.a}) - at({lamp.part, e.b}), rounded(amps[static_cast<std::size_t>(branch)])));
  }
  return out;
}

void Sound::find_margin(const Network& network, SoundNetwork& n) const {
  n.ways = find_ways(network, watches.supplies, n.solved.volts);
  n.margin = std::numeric_limits<double>::infinity();
  for (const auto* of : {&watches.lamps, &watches.devices, &watches.protectors})
    for (const AmpsWatch& w : *of) n.margin = std::min(n.margin, room(w.limits, n.solved.amps[static_cast<std::size_t>(w.branch)]));
}

bool Sound::is_firm(int scene, const std::vector<LampState>& now, double amps) const {
  const double steepest = rules.flux_exponent / (1 + 2 * filament_exponent);   // of a light over its amps, both as shares
  constexpr double least_a = 1e-3;                                             // below, a lamp is dark by far
  const std::vector<LampState>& was = scenes[static_cast<std::size_t>(scene)].states;
  for (std::size_t l = 0; l < now.size(); ++l) {
    const double share = steepest * amps / std::max(std::fabs(now[l].amps), least_a);
    const auto near = [&](double limit) { return std::fabs(now[l].light - limit) <= share * limit; };
    if (near(rules.lit) || near(rules.dark)) return false;
    if (gives_light(was[l].seen) && (near(dimmer_share * was[l].light) || near(was[l].light / dimmer_share))) return false;
    if (std::fabs(std::fabs(now[l].amps) - rules.led_leak_a) <= amps) return false;
  }
  return true;
}

}  // namespace towloom
