// What the solution shows at each lamp, and everything solved together.
#include <algorithm>
#include <cmath>

#include "solve/backfeed.hpp"
#include "solve/lamps.hpp"

namespace towloom {
namespace {

enum class Level { dark, glow, lit };

double light_of(const Element& lamp, double volts, double amps, const Catalogue& catalogue) {
  if (lamp.law == Law::filament) return std::pow(std::fabs(volts) / lamp.volts, catalogue.rule("flux_exponent").value);
  if (lamp.law == Law::power) return std::max(0.0, volts * amps) / (lamp.volts * lamp.amps);
  return lamp.amps > 0 ? std::max(0.0, amps) / lamp.amps : 0;  // an LED's light goes with its current
}

Level level_of(const Element& lamp, double light, double amps, const Catalogue& catalogue) {
  if (light >= catalogue.rule("lit_light").value) return Level::lit;
  const bool dark = lamp.law == Law::filament ? light <= catalogue.rule("dark_light").value
                                              : std::fabs(amps) < catalogue.rule("led_leak_a").value;
  return dark ? Level::dark : Level::glow;
}

Seen seen_of(Level first, Level second) {
  if (first == Level::glow || second == Level::glow) return Seen::glow;
  if (first == second) return first == Level::lit ? Seen::lit : Seen::dark;
  return first == Level::lit ? Seen::flash : Seen::counterflash;
}

}  // namespace

const char* to_text(Seen seen) {
  switch (seen) {
    case Seen::dark: return "dark";
    case Seen::lit: return "lit";
    case Seen::flash: return "flashing";
    case Seen::counterflash: return "flashing in the other phase";
    case Seen::glow: return "glowing";
    case Seen::may: return "either";
  }
  return "";
}

LampState lamp_state(const Circuit& circuit, const Catalogue& catalogue, const Points& points, PartId lamp, const Solved& solved, int at_element) {
  const auto e = static_cast<std::size_t>(at_element);
  const Element& element = circuit.part(lamp).elements[e];
  LampState out;
  Level levels[2] = {Level::dark, Level::dark};
  const int flashes = solved.flash_phases();
  for (int f = 0; f < flashes; ++f) {
    double light = 0, amps_seen = 0;   // a pulse-modulated lamp shows its mean
    for (int p = f; p < solved.phases; p += flashes) {
      const Phase& phase = solved.phase[static_cast<std::size_t>(p)];
      const auto at = [&](int terminal) {
        return phase.volts[static_cast<std::size_t>(points.first[static_cast<std::size_t>(lamp.v)] + terminal)];
      };
      const double volts = at(element.a) - at(element.b);
      const double amps = phase.element_a[static_cast<std::size_t>(lamp.v)][e];
      const double share = solved.weight(p) * flashes;
      light += light_of(element, volts, amps, catalogue) * share;
      amps_seen += amps * share;
      if (p == 0 || std::fabs(volts) > std::fabs(out.volts)) {
        out.volts = volts;
        out.amps = amps;
      }
    }
    out.light = std::max(out.light, light);
    levels[f] = level_of(element, light, amps_seen, catalogue);
  }
  if (flashes == 1) levels[1] = levels[0];
  out.seen = seen_of(levels[0], levels[1]);
  return out;
}

States solve_all(const Circuit& circuit, const Catalogue& catalogue, const Spec& spec) {
  States out;
  out.scenes = list_scenes(circuit, spec);
  const Points points = number_points(circuit);
  std::map<std::vector<char>, Phase> phases;
  for (const Scene& scene : out.scenes) {
    out.solved.push_back(solve(circuit, catalogue, scene, {}, {nullptr, &phases}));
    std::vector<LampState> row;
    for (const LampIntent& lamp : circuit.lamps) row.push_back(lamp_state(circuit, catalogue, points, lamp.lamp, out.solved.back()));
    out.lamps.push_back(std::move(row));
    out.required.push_back(required_lamps(circuit, spec, scene));
  }
  probe_backfeed(circuit, catalogue, out);
  return out;
}

}  // namespace towloom
