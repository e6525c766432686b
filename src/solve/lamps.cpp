// What the solution shows at each lamp, and everything solved together.
#include <algorithm>
#include <cmath>

#include "solve/backfeed.hpp"
#include "solve/lamps.hpp"
#include "solve/solver.hpp"

namespace towloom {
namespace {

enum class Level { dark, glow, lit };

double light_of(const Element& lamp, double volts, double amps, const LightRules& rules) {
  if (lamp.law == Law::filament) return std::pow(std::fabs(volts) / lamp.volts, rules.flux_exponent);
  if (lamp.law == Law::power) return std::max(0.0, volts * amps) / (lamp.volts * lamp.amps);
  return lamp.amps > 0 ? std::max(0.0, amps) / lamp.amps : 0;  // an LED's light goes with its current
}

Level level_of(const Element& lamp, double light, double amps, const LightRules& rules) {
  if (light >= rules.lit) return Level::lit;
  const bool dark = lamp.law == Law::filament ? light <= rules.dark : std::fabs(amps) < rules.led_leak_a;
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

bool gives_light(Seen seen) { return seen == Seen::lit || seen == Seen::flash || seen == Seen::counterflash; }

LightRules::LightRules(const Catalogue& c)
    : flux_exponent(c.rule("flux_exponent").value), lit(c.rule("lit_light").value), dark(c.rule("dark_light").value), led_leak_a(c.rule("led_leak_a").value) {}

LampLook look_at(const Circuit& circuit, const LightRules& rules, const Points& points, PartId lamp, const Phase& phase, int at_element) {
  const Element& element = circuit.part(lamp).elements[static_cast<std::size_t>(at_element)];
  const auto at = [&](int terminal) { return phase.volts[static_cast<std::size_t>(points.at({lamp, terminal}))]; };
  return look_at(element, rules, at(element.a) - at(element.b), phase.element_a[static_cast<std::size_t>(lamp.v)][static_cast<std::size_t>(at_element)]);
}

LampLook look_at(const Element& lamp, const LightRules& rules, double volts, double amps) { return {volts, amps, light_of(lamp, volts, amps, rules), volts}; }

namespace {

// What a lamp does over pulse and pause of one flash phase. A filament keeps the heat of its RMS volts; the light of an
// LED goes on and off, and the eye and a meter see the mean.
LampLook over_pulses(const Element& lamp, const LightRules& rules, const Solved& frame, const std::array<LampLook, 4>& looks, int flash) {
  LampLook mean;
  double square_v = 0, square_a = 0;
  for (int p = flash; p < frame.phases; p += frame.flash_phases()) {
    const LampLook& look = looks[static_cast<std::size_t>(p)];
    const double share = frame.weight(p) * frame.flash_phases();
    mean.volts += look.volts * share;
    mean.amps += look.amps * share;
    mean.light += look.light * share;
    square_v += look.volts * look.volts * share;
    square_a += look.amps * look.amps * share;
  }
  LampLook out = lamp.law == Law::filament ? look_at(lamp, rules, std::copysign(std::sqrt(square_v), mean.volts), std::copysign(std::sqrt(square_a), mean.amps)) : mean;
  out.meter_v = mean.volts;
  return out;
}

}  // namespace

LampState combine(const Element& lamp, const LightRules& rules, const Solved& frame, const std::array<LampLook, 4>& looks) {
  LampState out;
  Level levels[2] = {Level::dark, Level::dark};
  const int flashes = frame.flash_phases();
  for (int f = 0; f < flashes; ++f) {
    const LampLook look = frame.pulsed ? over_pulses(lamp, rules, frame, looks, f) : looks[static_cast<std::size_t>(f)];
    if (f == 0 || std::fabs(look.volts) > std::fabs(out.volts)) {
      out.volts = look.volts;
      out.amps = look.amps;
      out.meter_v = look.meter_v;
    }
    out.light = std::max(out.light, look.light);
    levels[f] = level_of(lamp, look.light, look.amps, rules);
  }
  if (flashes == 1) levels[1] = levels[0];
  out.seen = seen_of(levels[0], levels[1]);
  return out;
}

LampState lamp_state(const Circuit& circuit, const Catalogue& catalogue, const Points& points, PartId lamp, const Solved& solved, int at_element) {
  const LightRules rules(catalogue);
  std::array<LampLook, 4> looks;
  for (std::size_t p = 0; p < static_cast<std::size_t>(solved.phases); ++p) looks[p] = look_at(circuit, rules, points, lamp, solved.phase[p], at_element);
  return combine(circuit.part(lamp).elements[static_cast<std::size_t>(at_element)], rules, solved, looks);
}

bool to_print(const States& states, std::size_t scene) {
  const auto& required = states.required[scene];
  for (std::size_t l = 0; l < required.size(); ++l)
    if (required[l] != Seen::may && required[l] != states.lamps[scene][l].seen) return true;
  return states.scenes[scene].printed;
}

// A converter that must first see a whole flash lets some of them pass; in the car's own scenes it has no part.
int late_flashes(const Circuit& circuit, const LampIntent& lamp, const Scene& scene, Seen seen) {
  const bool flashes = seen == Seen::flash || seen == Seen::counterflash;
  if (!lamp.converter || !flashes || scene.signal("coupled") == Wave::off) return 0;
  const auto& logic = circuit.part(lamp.converter).logic;
  return logic ? logic->late_flashes : 0;
}

States solve_all(const Circuit& circuit, const Catalogue& catalogue, const Spec& spec) {
  States out;
  out.scenes = list_scenes(circuit, catalogue, spec);
  const Solver solver(circuit, catalogue);
  const Points& points = solver.points();
  std::map<std::vector<char>, Phase> phases;
  for (const Scene& scene : out.scenes) {
    out.solved.push_back(solver.solve(scene, {}, {nullptr, &phases}));
    std::vector<LampState> row;
    for (const LampIntent& lamp : circuit.lamps) {
      row.push_back(lamp_state(circuit, catalogue, points, lamp.lamp, out.solved.back()));
      row.back().late_flashes = late_flashes(circuit, lamp, scene, row.back().seen);
    }
    out.lamps.push_back(std::move(row));
    out.required.push_back(required_lamps(circuit, spec, scene));
  }
  probe_backfeed(circuit, catalogue, out);
  solve_hot(circuit, catalogue, out);
  return out;
}

}  // namespace towloom
