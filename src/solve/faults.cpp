#include "solve/faults.hpp"

#include <algorithm>
#include <cmath>
#include <memory>

#include "solve/variant.hpp"

namespace towloom {
namespace {

bool gives_light(Seen seen) { return seen == Seen::lit || seen == Seen::flash || seen == Seen::counterflash; }

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

// No light is so near one of its limits that the leaks of a few points decide.
bool is_firm(const Sound& sound, int scene, const std::vector<LampState>& now) {
  constexpr double share = 1e-5;
  const std::vector<LampState>& was = sound.scenes[static_cast<std::size_t>(scene)].states;
  const auto apart = [](double value, double limit) { return std::fabs(value - limit) > share * limit || limit == 0; };
  for (std::size_t l = 0; l < now.size(); ++l)
    for (const double limit : {sound.rules.lit, sound.rules.dark, sound.dimmer_share * was[l].light, was[l].light / sound.dimmer_share})
      if (!apart(now[l].light, limit) || !apart(std::fabs(now[l].amps), sound.rules.led_leak_a)) return false;
  return true;
}

// One fault in all scenes.
class OneFault {
 public:
  OneFault(Sound& sound, const Fault& fault) : sound_(sound), fault_(fault) {}
  Essence essence() { return variant({}).essence(); }
  // Its answer holds of every fault with the same essence.
  bool firm() const {
    return firm_ && std::all_of(variants_.begin(), variants_.end(), [](const auto& v) { return v.second->firm(); });
  }

  // True: every lamp shows what it shows in the sound circuit, every relay goes the same way, no fuse opens.
  bool left_alone(int scene) {
    Variant& v = variant({});
    const SoundScene& s = sound_.scenes[static_cast<std::size_t>(scene)];
    return keeps_its_way(v, s) && std::all_of(s.way.last().begin(), s.way.last().begin() + s.frame.phases, [&](int n) { return v.outcome(n).same; });
  }

  void solve(int scene, FaultRow& row) {
    const SoundScene& s = sound_.scenes[static_cast<std::size_t>(scene)];
    std::vector<int> open;     // protectors
    for (;;) {
      Variant& v = variant(open);
      const Settled way = keeps_its_way(v, s) ? s.way : find_way(v, scene);
      int over = -1;
      bool solved = way.rests;
      for (int p = 0; p < s.frame.phases; ++p) {
        const Outcome& o = v.outcome(way.last()[static_cast<std::size_t>(p)]);
        solved = solved && o.converged;
        if (o.overloaded >= 0 && (over < 0 || o.overloaded < over)) over = o.overloaded;
      }
      if (over >= 0 && open.size() < most_blown) {
        const PartId part = sound_.protectors[static_cast<std::size_t>(over)].part;
        if (std::find(row.blown.begin(), row.blown.end(), part) == row.blown.end()) row.blown.push_back(part);
        open.insert(std::lower_bound(open.begin(), open.end(), over), over);
        continue;
      }
      if (!solved) ++row.unsolved;
      const auto now = sound_.show(v.solver(), s.frame, [&](int p) -> const auto& { return v.looks(way.last()[static_cast<std::size_t>(p)]); });
      firm_ = firm_ && is_firm(sound_, scene, now);
      return compare(sound_, scene, now, row);
    }
  }

 private:
  // Relays and modules stand in every round as they do in the sound circuit.
  bool keeps_its_way(Variant& v, const SoundScene& s) const {
    if (!sound_.solver.has_devices()) return true;
    for (const auto& round : s.way.rounds)
      for (int p = 0; p < s.frame.phases; ++p)
        if (!v.outcome(round[static_cast<std::size_t>(p)]).same_devices) return false;
    return true;
  }
  Settled find_way(Variant& v, int scene) const {
    return settle(
        sound_.solver, v.devices(), sound_.states.scenes[static_cast<std::size_t>(scene)], sound_.scenes[static_cast<std::size_t>(scene)].frame,
        [&](std::vector<char> conducting, const Pulled& pulled) { return sound_.number(std::move(conducting), pulled); },
        [&](int n) { return v.volts(n); });
  }
  Variant& variant(const std::vector<int>& open) {
    auto& found = variants_[open];
    if (found) return *found;
    std::vector<Change> changes = fault_.changes;
    for (const int p : open)
      for (const Change& c : opened(sound_.protectors[static_cast<std::size_t>(p)]).changes) changes.push_back(c);
    found = std::make_unique<Variant>(sound_, changes, open);
    return *found;
  }

  Sound& sound_;
  const Fault& fault_;
  Variants variants_;
  bool firm_ = true;
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

FaultTable solve_faults(const Circuit& circuit, const Catalogue& catalogue, const States& states, std::vector<Fault> faults) {
  Sound sound(circuit, catalogue, states);
  FaultTable out;
  std::map<Essence, std::size_t> firm;   // rows
  for (Fault& fault : faults) {
    FaultRow row;
    OneFault one(sound, fault);
    Essence essence = one.essence();
    if (const auto like = firm.find(essence); like != firm.end()) {
      row = out.rows[like->second];
      row.fault = std::move(fault);
      out.rows.push_back(std::move(row));
      ++out.shared;
      continue;
    }
    for (int s = 0; s < static_cast<int>(states.scenes.size()); ++s) {
      if (one.left_alone(s)) {
        ++out.skipped;
        continue;
      }
      ++out.solved;
      one.solve(s, row);
    }
    row.fault = std::move(fault);
    if (one.firm()) firm.emplace(std::move(essence), out.rows.size());
    out.rows.push_back(std::move(row));
  }
  out.classes = classify(out.rows);
  return out;
}

}  // namespace towloom
