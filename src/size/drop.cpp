#include <algorithm>
#include <cmath>

#include "size/parts.hpp"
#include "solve/currents.hpp"

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
  if (came[static_cast<size_t>(outlet)] < 0) return out;
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
  if (intent.tow_signal.empty() || scene.signal("coach." + intent.tow_signal) == Wave::off) return {};
  const int outlet = outlet_point(circuit, points, intent.tow_signal);
  const int ground = outlet_point(circuit, points, "ground");
  const int feed = terminal_point(circuit, points, intent.lamp, "feed");
  const int back = terminal_point(circuit, points, intent.lamp, "return");
  if (outlet < 0 || feed < 0) return {};
  const auto lamp_volts = [&](int p) {
    const Phase& phase = solved.phase[static_cast<size_t>(p)];
    return volts_of(phase, feed) - volts_of(phase, back);
  };
  const int best = solved.phases == 2 && lamp_volts(1) > lamp_volts(0) ? 1 : 0;
  const Phase& phase = solved.phase[static_cast<size_t>(best)];
  LampPath out = walk(find_ways(circuit, points, phase), phase, feed, outlet);
  out.drop_v += volts_of(phase, outlet) - volts_of(phase, ground) - lamp_volts(best);
  return out;
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
