#include <algorithm>
#include <cmath>

#include "size/parts.hpp"
#include "solve/currents.hpp"
#include "solve/required.hpp"

namespace towloom {
namespace {

// Currents below are leakage, not a lamp's feed.
constexpr double least_feed_a = 1e-3;

// Everything that hands current on towards lamps: wires, contacts, fuses, isolating elements.
std::vector<Current> find_ways(const Circuit& circuit, const Points& points, const Phase& phase) {
  std::vector<Current> out = find_currents(circuit, points, phase, least_feed_a);
  out.erase(std::remove_if(out.begin(), out.end(), [&](const Current& c) { return !passes_on(circuit, c); }), out.end());
  return out;
}

// Coach side of the outlet's contact with this function: -1 when the outlet has none.
int outlet_point(const Circuit& circuit, const Points& points, const std::string& function) {
  for (size_t p = 0; p < circuit.parts.size(); ++p) {
    const Part& part = circuit.parts[p];
    if (part.kind != "contact" || part.function != function) continue;
    const auto at = std::find(part.terminals.begin(), part.terminals.end(), "coach");
    if (at != part.terminals.end()) return points.first[p] + static_cast<int>(at - part.terminals.begin());
  }
  return -1;
}

// Where a lamp's current can come from: the outlet contact of its signal; behind a converter or relays any
// other live contact, or the car's battery.
struct Supply {
  int plus = -1, minus = -1;
};
std::vector<Supply> supplies(const Circuit& circuit, const Points& points, const LampIntent& intent, const Scene& scene) {
  std::vector<Supply> out;
  const int ground = outlet_point(circuit, points, "ground");
  const auto add = [&](int plus, int minus) {
    if (plus >= 0) out.push_back({plus, minus});
  };
  const auto unlike = circuit.brought_by.find(intent.tow_signal);
  if (!intent.converter) add(outlet_point(circuit, points, unlike == circuit.brought_by.end() ? intent.tow_signal : unlike->second), ground);
  // With the pedal pressed the battery also reaches lamps over the factory's wires, which are no matter of sizes.
  if (scene.signal("car.pedal") != Wave::off) return out;
  if (const PartId battery = circuit.find("BAT")) add(points.at({battery, 0}), points.at({battery, 1}));
  add(outlet_point(circuit, points, "charge"), ground);
  return out;
}

double volts_of(const Phase& phase, int point) { return point < 0 ? 0.0 : phase.volts[static_cast<size_t>(point)]; }

// Against the current from the lamp to the outlet, breadth first: the way with fewest steps.
LampPath walk(const std::vector<Current>& arrows, const Phase& phase, int lamp, int outlet) {
  std::vector<int> came(phase.volts.size(), -1);   // current that leaves the point towards the lamp
  std::vector<std::vector<int>> into(phase.volts.size());
  for (size_t i = 0; i < arrows.size(); ++i) into[static_cast<size_t>(arrows[i].to)].push_back(static_cast<int>(i));
  std::vector<int> queue{lamp};
  for (size_t q = 0; q < queue.size() && queue[q] != outlet; ++q)
    for (const int i : into[static_cast<size_t>(queue[q])]) {
      const int from = arrows[static_cast<size_t>(i)].from;
      if (came[static_cast<size_t>(from)] >= 0 || from == lamp) continue;
      came[static_cast<size_t>(from)] = i;
      queue.push_back(from);
    }
  LampPath out;
  if (outlet < 0 || came[static_cast<size_t>(outlet)] < 0) return out;
  out.found = true;
  for (int at = outlet; at != lamp;) {
    const Current& arrow = arrows[static_cast<size_t>(came[static_cast<size_t>(at)])];
    if (arrow.wire) out.wires.push_back(arrow.wire);
    if (isolates(arrow)) out.drop_v -= volts_of(phase, arrow.from) - volts_of(phase, arrow.to);
    at = arrow.to;
  }
  std::reverse(out.wires.begin(), out.wires.end());
  return out;
}

int terminal_point(const Circuit& circuit, const Points& points, PartId part, const char* name) {
  const auto& terminals = circuit.part(part).terminals;
  const auto at = std::find(terminals.begin(), terminals.end(), name);
  if (at == terminals.end()) return -1;
  return points.at({part, static_cast<int>(at - terminals.begin())});
}

}  // namespace

LampPath find_lamp_path(const Circuit& circuit, const Points& points, const LampIntent& intent, const Scene& scene,
                        const Solved& solved) {
  if (intent.tow_signal.empty() || tow_wave(intent, scene) == Wave::off) return {};
  const int feed = terminal_point(circuit, points, intent.lamp, "feed");
  const int back = terminal_point(circuit, points, intent.lamp, "return");
  if (feed < 0) return {};
  const auto lamp_volts = [&](int p) {
    const Phase& phase = solved.phase[static_cast<size_t>(p)];
    return volts_of(phase, feed) - volts_of(phase, back);
  };
  int best = 0;
  for (int p = 1; p < solved.phases; ++p)
    if (lamp_volts(p) > lamp_volts(best)) best = p;
  const Phase& phase = solved.phase[static_cast<size_t>(best)];
  const std::vector<Current> ways = find_ways(circuit, points, phase);
  for (const Supply& supply : supplies(circuit, points, intent, scene)) {
    LampPath out = walk(ways, phase, feed, supply.plus);
    if (!out.found) continue;
    out.drop_v += volts_of(phase, supply.plus) - volts_of(phase, supply.minus) - lamp_volts(best);
    return out;
  }
  return {};
}

std::vector<double> path_drop(const Circuit& circuit, const Catalogue&, const Scene& scene, const Solved& solved) {
  const Points points = number_points(circuit);
  std::vector<double> out;
  for (const LampIntent& intent : circuit.lamps) {
    const LampPath path = find_lamp_path(circuit, points, intent, scene, solved);
    out.push_back(path.found ? path.drop_v : 0.0);
  }
  return out;
}

}  // namespace towloom
