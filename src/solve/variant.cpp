#include "solve/variant.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace towloom {
namespace {

constexpr double endless = std::numeric_limits<double>::infinity();
// Whatever else joins them, no two points are farther apart than by their own leaks.
constexpr double leaks_ohm = 2 / point_leak;
constexpr double least_missing = 1e-10;   // A, of rounding

double between(const std::vector<double>& volts, int a, int b) {
  return (a < 0 ? 0.0 : volts[static_cast<std::size_t>(a)]) - (b < 0 ? 0.0 : volts[static_cast<std::size_t>(b)]);
}

std::optional<Circuit> with_forced(const Circuit& circuit, const std::vector<Change>& changes, const Catalogue& catalogue) {
  Fault only;
  for (const Change& c : changes)
    if (std::holds_alternative<ModeForced>(c)) only.changes.push_back(c);
  if (only.changes.empty()) return std::nullopt;
  return with_fault(circuit, only, catalogue);
}

}  // namespace

Variant::Variant(Sound& sound, const std::vector<Change>& changes, bool last)
    : sound_(sound), solver_(sound.solver, changes), forced_(with_forced(sound.circuit, changes, sound.catalogue)),
      last_(last) {
  for (const Change& c : changes)
    if (const auto* forced = std::get_if<ModeForced>(&c)) forces_.push_back(*forced);
  for (const AmpsWatch& lamp : sound.watches.lamps)
    if (std::find(solver_.changed().begin(), solver_.changed().end(), lamp.branch) != solver_.changed().end()) lamp_changed_ = true;
  const auto touch = [&](const Branch& b) {
    for (const int p : {b.a, b.b})
      if (p >= 0 && std::find(touched_.begin(), touched_.end(), p) == touched_.end()) touched_.push_back(p);
  };
  for (const int b : solver_.changed()) {
    touch(solver_.branch_at(b));
    touch(sound.solver.branch_at(b));
  }
  for (int b = sound.solver.branches(); b < solver_.branches(); ++b) touch(solver_.branch_at(b));
}

const Outcome& Variant::outcome(int network) {
  if (outcomes_.size() <= static_cast<std::size_t>(network)) outcomes_.resize(static_cast<std::size_t>(sound_.networks()));
  Outcome& out = outcomes_[static_cast<std::size_t>(network)];
  if (out.known) return out;
  out.known = true;
  const SoundNetwork& n = sound_.network(network);
  const bool rises = !solver_.has_power() && n.solved.converged;
  if (!(rises && quiet(n, solver_.has_pulses() ? untouched_a : endless, out))) solve(n, rises, out);
  return out;
}

bool Variant::leaves_alone(const SoundNetwork& held, bool& firm) {
  Outcome out;
  if (solver_.has_power() || !held.solved.converged || !quiet(held, little_a, out)) return false;
  firm = firm && out.firm;
  return out.same;
}

bool Variant::firm() const {
  return std::all_of(outcomes_.begin(), outcomes_.end(), [](const Outcome& o) { return !o.known || (o.firm && o.converged); });
}

bool Variant::firm(const Solved& held, const Scene& scene) const {
  const std::vector<Wave> waves = sound_.solver.read(scene);
  for (int p = 0; p < held.phases; ++p) {
    const Phase& phase = held.phase[static_cast<std::size_t>(p)];
    const std::vector<char> conducting = sound_.solver.conducting(waves, p % held.flash_phases(), phase.pulled, p < held.flash_phases());
    const std::vector<double> volts = solver_.by_node(phase.volts);
    const auto is_firm = [&](const AmpsWatch& w) { return w.limits.position(solver_.amps_at(w.branch, conducting, volts), sound_.leaks_a) >= 0; };
    for (const auto* of : {&sound_.watches.protectors, &sound_.watches.devices})
      if (!std::all_of(of->begin(), of->end(), is_firm)) return false;
    // A filament as it is held is a better way than find_ways() takes it for.
    const std::vector<VoltsWatch>& supplies = sound_.watches.supplies;
    const Ways ways = find_ways(solver_.network(conducting), supplies, volts);
    for (std::size_t i = 0; i < supplies.size(); ++i) {
      const double within = sound_.leaks_a * std::min(ways.ohms[i], leaks_ohm) + (ways.islands[i] != 0 ? island_v : 0);
      if (supplies[i].limits.position(between(volts, supplies[i].plus, supplies[i].minus), within) < 0) return false;
    }
  }
  return true;
}

const std::vector<LampLook>& Variant::looks(int network) {
  const Outcome& o = outcome(network);
  return o.lamps.empty() ? sound_.network(network).lamps : o.lamps;
}

std::vector<double> Variant::volts(int network) {
  const Outcome& o = outcome(network);
  std::vector<double> volts = sound_.network(network).solved.volts;
  if (o.change >= 0)
    for (std::size_t p = 0; p < volts.size(); ++p) volts[p] += known_[static_cast<std::size_t>(o.change)].change[p];
  return solver_.by_point(volts);
}

// What decides how much the fault does: the sound network's volts and amps where it is.
std::vector<double> Variant::signature(const SoundNetwork& n) const {
  std::vector<double> out;
  for (const int p : touched_) out.push_back(n.solved.volts[static_cast<std::size_t>(p)]);
  for (const int b : solver_.changed()) out.push_back(n.solved.amps[static_cast<std::size_t>(b)]);
  return out;
}

// The amps that Kirchhoff's law misses at the sound network's volts.
double Variant::disturbance(const std::vector<char>& conducting, const Operating& solved) const {
  double out = 0;
  for (const int b : solver_.changed()) {
    const double was = solved.amps[static_cast<std::size_t>(b)], now = solver_.amps_at(b, conducting, solved.volts);
    const Branch &before = sound_.solver.branch_at(b), &after = solver_.branch_at(b);
    if (before.a == after.a && before.b == after.b) out += 2 * std::fabs(now - was);
    else if (before.a == after.b && before.b == after.a) out += 2 * std::fabs(now + was);
    else out += 2 * (std::fabs(now) + std::fabs(was));
  }
  for (int b = sound_.solver.branches(); b < solver_.branches(); ++b) out += 2 * std::fabs(solver_.amps_at(b, conducting, solved.volts));
  return out;
}

// Nothing changes by more than a limit allows.
bool Variant::quiet(const SoundNetwork& n, double most, Outcome& out) {
  const double astray = n.within + disturbance(n.conducting, n.solved);
  out.untouched = astray < untouched_a;
  if (!(astray < n.margin && astray < most)) return false;
  out.converged = true;
  std::vector<double> amps = n.solved.amps;
  for (const int b : solver_.changed()) amps[static_cast<std::size_t>(b)] = solver_.amps_at(b, n.conducting, n.solved.volts);
  return judge(n, n.solved.volts, amps, astray, out);
}

// The solved network in which the fault finds most nearly the same volts and amps.
std::optional<std::size_t> Variant::most_like(const SoundNetwork& n) const {
  const std::vector<double> here = signature(n);
  std::optional<std::size_t> best;
  double least = endless;
  for (std::size_t k = 0; k < known_.size(); ++k) {
    double apart = 0;
    for (std::size_t i = 0; i < here.size(); ++i) apart = std::max(apart, std::fabs(here[i] - known_[k].signature[i]));
    if (apart < least) {
      least = apart;
      best = k;
    }
  }
  return best;
}

// Where the search starts: the same change of the volts as in the network most like this one.
std::vector<double> Variant::guess(const SoundNetwork& n) const {
  if (!n.shown && !last_volts_.empty()) return last_volts_;
  std::vector<double> out = n.solved.volts;
  if (const auto like = n.shown ? most_like(n) : std::nullopt)
    for (std::size_t p = 0; p < out.size(); ++p) out[p] += known_[*like].change[p];
  return out;
}

void Variant::keep(const SoundNetwork& n, const std::vector<double>& volts, Outcome& out) {
  last_volts_ = volts;
  Known k{volts, signature(n)};
  for (std::size_t p = 0; p < volts.size(); ++p) k.change[p] -= n.solved.volts[p];
  out.change = static_cast<int>(known_.size());
  known_.push_back(std::move(k));
}

// To the last digit only where a limit is in doubt.
void Variant::solve(const SoundNetwork& n, bool rises, Outcome& out) {
  std::vector<double> near = rises ? guess(n) : n.solved.volts;
  if (rises) {
    amps_.resize(static_cast<std::size_t>(solver_.branches()));
    const Nearly nearly = solver_.operate_nearly(n.conducting, near, [&](const std::vector<double>& volts, double missing) {
      // The light of a pulse-fed lamp is the mean of two networks: neither alone says on which side of its limits that is.
      if (solver_.has_pulses() && !(missing < untouched_a)) return false;
      for (const int b : sound_.watches.branches) amps_[static_cast<std::size_t>(b)] = solver_.amps_at(b, n.conducting, volts);
      return judge(n, volts, amps_, std::max(missing, least_missing), out);
    });
    near = nearly.volts;
    if (nearly.enough) return keep(n, near, out);
  }
  const Operating found = solver_.operate(solver_.network(n.conducting), near);
  out.converged = found.converged;
  judge(n, found.volts, found.amps, 0, out);
  keep(n, found.volts, out);
}

// False: a limit is in doubt. `known_within` 0: solved, nothing is in doubt.
bool Variant::judge(const SoundNetwork& n, const std::vector<double>& volts, const std::vector<double>& amps, double known_within, Outcome& out) {
  const bool solved = known_within == 0;
  bool same = true, same_devices = true;
  out.firm = true;
  const auto hold = [&](const Thresholds& limits, double now, double was, double within, bool& kept) {
    const int p = limits.position(now, within);
    if (p < 0 && !solved) return false;
    if (p < 0 || p != limits.position(was, n.within)) kept = false;
    return true;
  };
  const auto hold_amps = [&](const AmpsWatch& w, bool& kept) {
    return hold(w.limits, amps[static_cast<std::size_t>(w.branch)], n.solved.amps[static_cast<std::size_t>(w.branch)], solved ? 0 : known_within + sound_.leaks_a, kept);
  };
  const auto is_firm = [&](const AmpsWatch& w) { return w.limits.position(amps[static_cast<std::size_t>(w.branch)], sound_.leaks_a) >= 0; };
  const auto forced = [&](int part, int device) {
    return std::any_of(forces_.begin(), forces_.end(), [&](const ModeForced& f) { return f.part.v == part && f.device == device; });
  };
  for (const AmpsWatch& w : sound_.watches.protectors)
    if (!hold_amps(w, same)) return false;
  out.overloaded = -1;
  for (std::size_t p = 0; p < sound_.protectors.size() && out.overloaded < 0; ++p)
    if (std::fabs(std::round(amps[static_cast<std::size_t>(sound_.watches.protectors[p].branch)] * 1e6) / 1e6) >= sound_.protectors[p].opens_a)
      out.overloaded = static_cast<int>(p);
  const bool opens = out.overloaded >= 0 && !last_;
  for (const AmpsWatch& w : sound_.watches.lamps)
    if (!opens && !hold_amps(w, same)) return false;
  for (const AmpsWatch& w : sound_.watches.devices)
    if (!forced(w.device_part, w.device) && !hold_amps(w, same_devices)) return false;
  // Of the lamps the scene's own limits decide: is_firm in faults.cpp.
  if (solved)
    for (const auto* of : {&sound_.watches.protectors, &sound_.watches.devices}) out.firm = out.firm && std::all_of(of->begin(), of->end(), is_firm);
  const bool kept = keeps_ways(n, volts, known_within);
  std::optional<Ways> own;
  for (std::size_t i = 0; i < sound_.watches.supplies.size(); ++i) {
    const VoltsWatch& w = sound_.watches.supplies[i];
    if (forced(w.device_part, w.device)) continue;
    const double now = between(volts, w.plus, w.minus), was = between(n.solved.volts, w.plus, w.minus);
    const double within = known_within * (kept && n.ways.islands[i] == 0 ? std::min(n.ways.ohms[i], leaks_ohm) : leaks_ohm);
    if (!hold(w.limits, now, was, within, same_devices)) return false;
    const auto holds_firmly = [&](const Ways& ways) {
      return w.limits.position(now, within + sound_.leaks_a * std::min(ways.ohms[i], leaks_ohm) + (ways.islands[i] != 0 ? island_v : 0)) >= 0;
    };
    if (kept && holds_firmly(n.ways)) continue;
    if (!own) own = find_ways(solver_.network(n.conducting), sound_.watches.supplies, volts);
    if (!holds_firmly(*own)) out.firm = false;
  }
  for (const ModeForced& f : forces_)
    if ((n.pulled[static_cast<std::size_t>(f.part.v)][static_cast<std::size_t>(f.device)] != 0) != f.in) same_devices = false;
  if (!solved) out.converged = true;
  out.same_devices = same_devices;
  out.same = same && !opens && same_devices && out.converged && !lamp_changed_;
  if (out.same && (out.untouched || !solver_.has_pulses())) return true;
  if (!opens) out.lamps = sound_.look(solver_, volts, amps);
  return true;
}

// The supplies hang where they hung without the fault.
bool Variant::keeps_ways(const SoundNetwork& n, const std::vector<double>& volts, double known_within) const {
  if (sound_.watches.supplies.empty()) return true;
  const auto marked = [](const std::vector<char>& of, int i) { return of[static_cast<std::size_t>(i)] != 0; };
  return std::none_of(solver_.changed().begin(), solver_.changed().end(), [&](int b) { return marked(n.ways.branches, b); }) &&
         std::none_of(touched_.begin(), touched_.end(), [&](int p) { return marked(n.ways.adrift, p); }) &&
         std::all_of(n.ways.limited.begin(), n.ways.limited.end(),
                     [&](std::size_t b) { return is_within_bounds(solver_.branch_at(static_cast<int>(b)), solver_.curve_at(static_cast<int>(b)), volts, known_within + sound_.leaks_a); });
}

}  // namespace towloom
