#include "solve/faults.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>

#include "base/parallel.hpp"
#include "solve/pulses.hpp"
#include "solve/variant.hpp"

namespace towloom {
namespace {

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
    if (!s.held.empty()) return sound_.is_firm(scene, s.states, little_a) && all_leave(v, s) && keeps_its_way(v, s);
    return keeps_its_way(v, s) && std::all_of(s.way.last().begin(), s.way.last().begin() + s.frame.phases,
                       [&](int n) { return v.outcome(n).same && (v.outcome(n).untouched || !s.frame.pulsed); });
  }

  void solve(int scene, FaultRow& row) {
    const SoundScene& s = sound_.scenes[static_cast<std::size_t>(scene)];
    std::vector<int> open;     // protectors
    for (;;) {
      Variant& v = variant(open);
      const Settled way = !s.held.empty() ? Settled{} : keeps_its_way(v, s) ? s.way : find_way(v, scene);
      const std::optional<Solved> held = hold_filaments(v, way, scene);
      int over = -1;
      bool solved = held ? held->converged() && held->chatter.empty() : way.rests;
      const auto opens = [&](int protector) { over = over < 0 || (protector >= 0 && protector < over) ? protector : over; };
      if (held) {
        firm_ = firm_ && v.firm(*held, sound_.states.scenes[static_cast<std::size_t>(scene)]);
        for (int p = 0; p < held->phases; ++p) opens(find_overloaded(sound_.protectors, held->phase[static_cast<std::size_t>(p)]));
      } else {
        for (int p = 0; p < s.frame.phases; ++p) {
          const Outcome& o = v.outcome(way.last()[static_cast<std::size_t>(p)]);
          solved = solved && o.converged;
          opens(o.overloaded);
        }
      }
      if (over >= 0 && open.size() < most_blown) {
        const PartId part = sound_.protectors[static_cast<std::size_t>(over)].part;
        if (std::find(row.blown.begin(), row.blown.end(), part) == row.blown.end()) row.blown.push_back(part);
        open.insert(std::lower_bound(open.begin(), open.end(), over), over);
        continue;
      }
      if (!solved) ++row.unsolved;
      const std::vector<LampState> now =
          held ? sound_.show(v.solver(), *held)
               : sound_.show(v.solver(), s.frame, [&](int p) -> const auto& { return v.looks(way.last()[static_cast<std::size_t>(p)]); });
      firm_ = firm_ && sound_.is_firm(scene, now, sound_.leaks_a);
      return compare(sound_, scene, now, row);
    }
  }

 private:
  bool all_leave(Variant& v, const SoundScene& s) {
    return std::all_of(s.held.begin(), s.held.end(), [&](const SoundNetwork& n) { return v.leaves_alone(n, firm_); });
  }
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
  // Where pulses reach a filament it is held at its RMS volts, as in the sound circuit: the scene is solved by itself.
  // No `way`: they reach one without the fault, and are taken to do it with it.
  std::optional<Solved> hold_filaments(Variant& v, const Settled& way, int scene) const {
    const Solved& frame = sound_.scenes[static_cast<std::size_t>(scene)].frame;
    if (!frame.pulsed) return std::nullopt;
    if (!way.rounds.empty()) {
      std::array<std::vector<double>, 4> volts;
      for (std::size_t p = 0; p < static_cast<std::size_t>(frame.phases); ++p) volts[p] = v.volts(way.last()[p]);
      if (!do_pulses_reach(v.solver(), frame, volts)) return std::nullopt;
    }
    return Solver(v.solver(), {}, &v.devices()).solve_nearly(sound_.states.scenes[static_cast<std::size_t>(scene)], sound_.states.solved[static_cast<std::size_t>(scene)]);
  }
  Variant& variant(const std::vector<int>& open) {
    auto& found = variants_[open];
    if (found) return *found;
    std::vector<Change> changes = fault_.changes;
    for (const int p : open)
      for (const Change& c : opened(sound_.protectors[static_cast<std::size_t>(p)]).changes) changes.push_back(c);
    found = std::make_unique<Variant>(sound_, changes, open.size() == most_blown);
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

struct Answer {
  FaultRow row;
  int solved = 0, skipped = 0;
  bool firm = false;
};

Answer find_answer(Sound& sound, const Fault& fault) {
  Answer out;
  OneFault one(sound, fault);
  for (int s = 0; s < static_cast<int>(sound.states.scenes.size()); ++s) {
    if (one.left_alone(s)) {
      ++out.skipped;
      continue;
    }
    ++out.solved;
    one.solve(s, out.row);
  }
  out.firm = one.firm();
  return out;
}

// Few faults are not worth a thread's own sound circuit.
std::size_t threads_for(std::size_t faults) {
  constexpr std::size_t faults_a_thread = 50;
  return std::clamp<std::size_t>(faults / faults_a_thread, 1, most_threads());
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
  std::vector<std::unique_ptr<Sound>> sounds(threads_for(faults.size()));   // one a thread: what they remember is not shared
  in_parallel(sounds.size(), sounds.size(), [&](std::size_t, std::size_t i) { sounds[i] = std::make_unique<Sound>(circuit, catalogue, states); });

  std::vector<Essence> essences(faults.size());
  std::vector<Answer> answers(faults.size());
  const auto each = [&](const std::vector<std::size_t>& of, const auto& work) {
    in_parallel(sounds.size(), of.size(), [&](std::size_t thread, std::size_t i) { work(*sounds[thread], of[i]); });
  };
  std::vector<std::size_t> all(faults.size()), first, own;
  std::iota(all.begin(), all.end(), std::size_t{0});
  each(all, [&](Sound& sound, std::size_t f) { essences[f] = OneFault(sound, faults[f]).essence(); });
  std::map<Essence, std::size_t> known;
  std::vector<std::size_t> like(faults.size());   // the first with the same essence
  for (const std::size_t f : all) {
    const auto [at, fresh] = known.try_emplace(std::move(essences[f]), f);
    like[f] = at->second;
    if (fresh) first.push_back(f);
  }
  const auto solve = [&](Sound& sound, std::size_t f) { answers[f] = find_answer(sound, faults[f]); };
  each(first, solve);
  for (const std::size_t f : all)
    if (like[f] != f && !answers[like[f]].firm) own.push_back(f);
  each(own, solve);

  FaultTable out;
  for (const std::size_t f : all) {
    const bool shared = like[f] != f && answers[like[f]].firm;
    FaultRow row = shared ? out.rows[like[f]] : std::move(answers[f].row);
    row.fault = std::move(faults[f]);
    out.rows.push_back(std::move(row));
    out.solved += answers[f].solved;
    out.skipped += answers[f].skipped;
    out.shared += shared;
  }
  out.classes = classify(out.rows);
  return out;
}

}  // namespace towloom
