#include "solve/solve.hpp"

#include <algorithm>
#include <cmath>

#include "solve/modes.hpp"
#include "solve/network.hpp"

namespace towloom {
namespace {

// Figures are compared and printed after rounding, so that every compiler prints the same.
double rounded(double v) { return std::round(v * 1e6) / 1e6 + 0.0; }

// Rounds of relays and modules before it is called chatter; real circuits settle in two or three.
constexpr int most_rounds = 32;

// Volts of the network's points as another solution has them; points that it does not know start at 0 V.
std::vector<double> guess(const Flat& flat, const Phase& near) {
  std::vector<double> out(static_cast<size_t>(flat.network.points), 0);
  for (size_t p = 0; p < flat.point.size() && p < near.volts.size(); ++p)
    if (flat.point[p] >= 0) out[static_cast<size_t>(flat.point[p])] = near.volts[p];
  return out;
}

// Constant-power drivers: solved with the current of the volts found before, until both agree. Where the supply is
// too weak for the watts that never ends, and the phase counts as not converged.
constexpr int most_power_rounds = 60;
constexpr double power_amps_limit = 1e-9;

Operating settle_power(const Circuit& circuit, Flat& flat, const std::vector<double>& start) {
  Operating found = find_operating_point(flat.network, start);
  for (int round = 0; found.converged; ++round) {
    bool agree = true;
    for (size_t p = 0; p < circuit.parts.size(); ++p)
      for (size_t e = 0; e < circuit.parts[p].elements.size(); ++e) {
        const int at = flat.branch_of[p][e];
        if (circuit.parts[p].elements[e].law != Law::power || at < 0) continue;
        Branch& branch = flat.network.branches[static_cast<size_t>(at)];
        const auto volts = [&](int point) { return point < 0 ? 0.0 : found.volts[static_cast<size_t>(point)]; };
        const double amps = power_amps(circuit.parts[p].elements[e], volts(branch.a) - volts(branch.b));
        agree = agree && std::fabs(amps - branch.curve.amps) <= power_amps_limit;
        branch.curve.amps = amps;
      }
    if (agree) break;
    if (round == most_power_rounds) {
      found.converged = false;
      break;
    }
    found = find_operating_point(flat.network, found.volts);
  }
  return found;
}

Phase solve_phase(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene, int phase,
                  const std::vector<Attached>& attached, const Pulled& pulled, bool pulse, const Phase* near) {
  Flat flat = flatten(circuit, catalogue, scene, phase, attached, pulled, pulse);
  const Operating found = settle_power(circuit, flat, near == nullptr ? std::vector<double>{} : guess(flat, *near));
  const auto amps = [&](int branch) { return branch < 0 ? 0.0 : rounded(found.amps[static_cast<size_t>(branch)]); };
  Phase out;
  out.iterations = found.iterations;
  out.converged = found.converged;
  out.pulled = pulled;
  for (const int p : flat.point) out.volts.push_back(p < 0 ? 0.0 : rounded(found.volts[static_cast<size_t>(p)]));
  for (const auto& part : flat.branch_of) {
    std::vector<double> row;
    for (const int b : part) row.push_back(amps(b));
    out.element_a.push_back(std::move(row));
  }
  for (const int b : flat.branch_of_wire) out.wire_a.push_back(amps(b));
  return out;
}

// The share of time of a pulse-modulated feed that works in this scene; 1 = none does.
double pulse_duty(const Circuit& circuit, const Scene& scene) {
  for (const Part& part : circuit.parts)
    for (const Element& e : part.elements)
      if (e.duty < 1 && scene.signal(e.signal) != Wave::off) return e.duty;
  return 1;
}

struct Asked {                 // everything of one call that stays the same from round to round
  const Circuit& circuit;
  const Catalogue& catalogue;
  const Scene& scene;
  const std::vector<Attached>& attached;
  const Known& known;
};

void solve_phases(const Asked& q, const Modes& modes, Solved& out) {
  for (int p = 0; p < out.phases; ++p) {
    const auto at = static_cast<size_t>(p);
    const int flash = p % out.flash_phases();
    const bool pulse = p < out.flash_phases();
    const Phase* near = q.known.near == nullptr ? nullptr : &q.known.near->phase[at];
    const auto fresh = [&] { return solve_phase(q.circuit, q.catalogue, q.scene, flash, q.attached, modes.pulled[at], pulse, near); };
    if (q.known.phases == nullptr) {
      out.phase[at] = fresh();
      continue;
    }
    const std::vector<char> key = conducting(q.circuit, q.scene, flash, modes.pulled[at], pulse);
    const auto found = q.known.phases->find(key);
    out.phase[at] = found != q.known.phases->end() ? found->second : q.known.phases->emplace(key, fresh()).first->second;
    out.phase[at].pulled = modes.pulled[at];   // an equal network may be another mode
  }
}

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

// All changes at once, until nothing changes. The modes found are left in `modes`.
void settle(const Asked& q, const Points& points, Modes& modes, Solved& out) {
  std::vector<Modes> seen;
  for (int round = 0; round < most_rounds; ++round) {
    solve_phases(q, modes, out);
    Modes next = next_modes(q.circuit, points, out, modes);
    if (next == modes) return;
    if (std::find(seen.begin(), seen.end(), next) != seen.end()) {
      out.chatter = changing(modes, next);
      return;
    }
    seen.push_back(modes);
    modes = std::move(next);
  }
  out.chatter = changing(seen.back(), modes);
}

}  // namespace

Wave Scene::signal(const std::string& s) const {
  const auto at = signals.find(s);
  if (at != signals.end()) return at->second;
  if (s == "car.tail-stop") return signal("car.pedal") != Wave::off ? signal("car.pedal") : signal("car.lamps");
  const std::string both = "car.stop-turn.";
  if (s.rfind(both, 0) != 0) return Wave::off;
  const Wave turn = signal("car.turn." + s.substr(both.size()));
  return turn != Wave::off ? turn : signal("car.pedal");
}

double Solved::weight(int p) const {
  const double flash = 1.0 / flash_phases();
  return !pulsed ? flash : p < flash_phases() ? flash * duty : flash * (1 - duty);
}

bool Solved::converged() const {
  return std::all_of(phase.begin(), phase.begin() + phases, [](const Phase& p) { return p.converged; });
}

Solved solve(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene,
             const std::vector<Attached>& attached, const Known& known) {
  const Asked asked{circuit, catalogue, scene, attached, known};
  Solved out;
  for (const auto& [name, wave] : scene.signals)
    if (wave == Wave::flash || wave == Wave::counterflash) out.phases = 2;
  out.duty = pulse_duty(circuit, scene);
  out.pulsed = out.duty < 1;
  if (out.pulsed) out.phases *= 2;
  const Points points = number_points(circuit);
  Modes modes = modes_at_rest(circuit, out.phases);
  if (!has_devices(circuit)) {
    solve_phases(asked, modes, out);
    return out;
  }
  settle(asked, points, modes, out);
  if (known.near != nullptr) return out;
  // From the other end: where relays that were in stay in, the scene before decides.
  Solved after = out;
  after.chatter.clear();
  Modes other = modes_pulled_in(circuit, out.phases);
  settle(asked, points, other, after);
  out.depends_on_before = out.chatter.empty() && other.pulled != modes.pulled;
  return out;
}

}  // namespace towloom
