#include <algorithm>
#include <cmath>

#include "size/parts.hpp"
#include "solve/lamps.hpp"
#include "solve/solver.hpp"

namespace towloom {
namespace {

// Volts and amps are rounded to 1e-6 when solved: a limit is met to that figure.
constexpr double rounding = 1e-6;

bool holds(const SizeGroup& group, WireId wire) {
  return std::find(group.wires.begin(), group.wires.end(), wire) != group.wires.end();
}

// The common return carries every lamp's current.
bool is_on(const LampPath& path, const SizeGroup& group) {
  return group.ground || std::any_of(path.wires.begin(), path.wires.end(), [&](WireId w) { return holds(group, w); });
}

// A ribbon's ground owns no run but lies beside the others; they lie beside it.
int bundle_of(const Wire& wire, const SizeGroup& group) {
  if (group.beside == 0) return wire.bundle;
  if (wire.circuit == "ground") return group.bundle;
  return wire.runs.empty() ? wire.bundle : wire.bundle + group.beside;
}

void weigh_drops(Trial& trial, const Circuit& circuit, const Sizing& sizing, const Scene& scene, const Solved& solved,
                 const Points& points) {
  for (std::size_t l = 0; l < circuit.lamps.size(); ++l) {
    const LampIntent& lamp = circuit.lamps[l];
    const SceneLamp here{scene.name, static_cast<int>(l)};
    if (sizing.unlit.count(here) != 0) continue;
    const LampPath path = find_lamp_path(circuit, points, lamp, scene, solved);
    if (!path.found) continue;
    const Part& part = circuit.part(lamp.lamp);
    const std::string name = scene.name + ": " + (part.group.empty() ? part.id : part.group + " " + part.title);
    if (path.drop_v > trial.worst_drop_v) {
      trial.worst_drop_v = path.drop_v;
      trial.worst = name;
    }
    if (path.drop_v > sizing.drop_limit_v + rounding) {
      if (trial.passes()) {
        for (size_t g = 0; g < sizing.groups.size(); ++g) trial.blamed[g] = is_on(path, sizing.groups[g]);
        trial.too_many = path.drop_v - sizing.drop_limit_v;
      }
      trial.drop_ok = false;
      const Seen seen = lamp_state(circuit, sizing.catalogue, points, lamp.lamp, solved).seen;
      if (seen == Seen::dark || seen == Seen::glow) trial.unlit.insert(here);
    }
    for (size_t g = 0; g < sizing.groups.size(); ++g) {
      if (!is_on(path, sizing.groups[g]) || path.drop_v <= trial.loads[g].drop_v) continue;
      trial.loads[g].drop_v = path.drop_v;
      trial.loads[g].worst = name;
    }
  }
}

void blame(Trial& trial, size_t group, double too_many) {
  trial.blamed[group] = 1;
  trial.too_many = too_many;
}

void weigh_amps(Trial& trial, const Circuit& circuit, const Sizing& sizing, const Solved& solved) {
  for (size_t g = 0; g < sizing.groups.size(); ++g) {
    const SizeGroup& group = sizing.groups[g];
    for (const WireId id : group.wires) {
      const Wire& wire = circuit.wires[static_cast<size_t>(id.v)];
      const FoundSize found = series_row(*wire.size, circuit, sizing.catalogue);
      const double limit = sizing.bears(found, bundle_of(wire, group));
      const double amps = warming_amps(solved, id);
      if (amps > limit + rounding && !group.given) {
        if (trial.passes()) blame(trial, g, amps - limit);
        trial.ampacity_ok = false;
        trial.short_group = group.name;
      }
      GroupLoad& load = trial.loads[g];
      if (load.ampacity_a == 0 || amps * load.ampacity_a > load.amps * limit) load.amps = amps, load.ampacity_a = limit;
    }
  }
}

// A fuse that is known must blow before the wire behind it is too hot.
void weigh_fuses(Trial& trial, const Circuit& circuit, const Sizing& sizing) {
  for (std::size_t g = 0; g < sizing.groups.size(); ++g) {
    const SizeGroup& group = sizing.groups[g];
    GroupLoad& load = trial.loads[g];
    for (std::size_t w = 0; w < group.wires.size(); ++w) {
      const Protection& fuse = group.fuses[w];
      if (fuse.amps <= 0) continue;
      const Wire& wire = circuit.wires[static_cast<size_t>(group.wires[w].v)];
      const FoundSize found = series_row(*wire.size, circuit, sizing.catalogue);
      const double limit = sizing.bears(found, bundle_of(wire, group));
      if (load.fuse.amps <= 0 || fuse.amps * load.bears_a > load.fuse.amps * limit) load.fuse = fuse, load.bears_a = limit;
      // What was given is for the rules to judge.
      if (fuse.amps > limit + rounding && !group.given) {
        if (trial.passes()) blame(trial, g, fuse.amps - limit);
        trial.fuse_ok = false;
        trial.short_group = group.name;
      }
    }
  }
}

}  // namespace

Trial try_sizes(const Circuit& circuit, const Sizing& sizing, bool whole, size_t& first_scene) {
  Trial trial;
  trial.loads.resize(sizing.groups.size());
  trial.blamed.assign(sizing.groups.size(), 0);
  weigh_fuses(trial, circuit, sizing);
  if (!whole && !trial.passes()) return trial;
  const Solver solver(circuit, sizing.catalogue);
  const Points& points = solver.points();
  std::map<std::vector<char>, Phase> phases;   // scenes share networks
  const size_t count = sizing.scenes.size();
  for (size_t i = 0; i < count; ++i) {
    // The scene that failed last is tried first: most assignments fail in the same one.
    const size_t s = (first_scene + i) % count;
    const Solved solved = solver.solve(sizing.scenes[s], {}, {nullptr, &phases});
    if (!solved.converged()) trial.converged = false;
    weigh_drops(trial, circuit, sizing, sizing.scenes[s], solved, points);
    weigh_amps(trial, circuit, sizing, solved);
    if (!whole && !trial.passes()) {
      first_scene = s;
      return trial;
    }
  }
  return trial;
}

}  // namespace towloom
