#include "solve/modes.hpp"

#include <algorithm>
#include <cmath>

namespace towloom {
namespace {

Modes all(const Circuit& circuit, int phases, char mode) {
  Modes out;
  for (int p = 0; p < phases; ++p) {
    Pulled pulled;
    std::vector<std::vector<char>> levels;
    for (const Part& part : circuit.parts) {
      pulled.emplace_back(part.devices.size(), mode);
      levels.emplace_back(part.logic ? part.logic->inputs.size() : 0, char{0});
    }
    out.pulled.push_back(std::move(pulled));
    out.levels.push_back(std::move(levels));
  }
  return out;
}

bool stays_in(const Device& device, double volts, bool in) {
  const double seen = device.polarised ? volts : std::fabs(volts);
  return seen >= (in ? device.drop_out_v : device.pull_in_v);
}

Wave wave_of(char first, char second) {
  return first != 0 ? (second != 0 ? Wave::on : Wave::flash) : second != 0 ? Wave::counterflash : Wave::off;
}

// What the table says of the inputs, for each phase: an output is on only while the module is supplied.
void set_outputs(const Part& part, std::size_t p, int flash_phases, Modes& next) {
  const auto level = [&](int phase, std::size_t input) { return next.levels[static_cast<std::size_t>(phase)][p][input]; };
  const int phases = static_cast<int>(next.pulled.size());
  for (int phase = 0; phase < phases; ++phase) {
    const int first = phase / flash_phases * flash_phases;   // the flash pair that this phase belongs to
    std::vector<Wave> in;
    for (std::size_t i = 0; i < part.logic->inputs.size(); ++i)
      in.push_back(wave_of(level(first, i), level(first + flash_phases - 1, i)));
    const LogicAnswer said = answer(*part.logic, in);
    auto& devices = next.pulled[static_cast<std::size_t>(phase)][p];
    for (std::size_t d = 0; d < part.devices.size(); ++d) {
      const Device& device = part.devices[d];
      if (device.output < 0) continue;
      devices[d] = devices[0] != 0 && lit_in_phase(said.out[static_cast<std::size_t>(device.output)], phase % flash_phases);
    }
  }
}

}  // namespace

bool has_devices(const Circuit& circuit) {
  for (const Part& part : circuit.parts)
    if (!part.devices.empty()) return true;
  return false;
}

Modes modes_at_rest(const Circuit& circuit, int phases) { return all(circuit, phases, 0); }
Modes modes_pulled_in(const Circuit& circuit, int phases) { return all(circuit, phases, 1); }

Modes next_modes(const Circuit& circuit, const Points& points, const Solved& solved, const Modes& now) {
  Modes next = now;
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const Part& part = circuit.parts[p];
    if (part.devices.empty()) continue;
    for (int phase = 0; phase < solved.phases; ++phase) {
      const auto at = static_cast<std::size_t>(phase);
      const auto volts = [&](int point) { return solved.phase[at].volts[static_cast<std::size_t>(points.first[p] + point)]; };
      for (std::size_t d = 0; d < part.devices.size(); ++d) {
        const Device& device = part.devices[d];
        if (device.output < 0)
          next.pulled[at][p][d] = stays_in(device, volts(device.plus) - volts(device.minus), now.pulled[at][p][d] != 0);
      }
      if (!part.logic) continue;
      for (std::size_t i = 0; i < part.logic->inputs.size(); ++i) {
        const double v = volts(static_cast<int>(2 + i)) - volts(1);   // terminals: supply, ground, inputs, outputs
        if (v >= part.logic->high_v) next.levels[at][p][i] = 1;
        if (v <= part.logic->low_v) next.levels[at][p][i] = 0;
      }
    }
    if (part.logic) set_outputs(part, p, solved.flash_phases(), next);
  }
  return next;
}

std::optional<Modes> follow(const Circuit& circuit, const Points& points, const Solved& solved, Modes& modes, const std::function<void()>& solve) {
  constexpr int most_rounds = 32;   // before it is called chatter; real circuits settle in two or three
  std::vector<Modes> seen;
  for (int round = 1;; ++round) {
    solve();
    Modes next = next_modes(circuit, points, solved, modes);
    if (next == modes) return std::nullopt;
    if (round == most_rounds || std::find(seen.begin(), seen.end(), next) != seen.end()) return next;
    seen.push_back(modes);
    modes = std::move(next);
  }
}

}  // namespace towloom
