#include "check/live.hpp"

#include <algorithm>
#include <cmath>

#include "solve/currents.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

constexpr double least_a = 0.001;      // below this a branch only leaks, as in trace
constexpr double least_share = 0.05;   // of the lamp's own current: what is less belongs to another path

enum class Way { back, on };           // against the current to its source; with it to ground

class Walk {
 public:
  Walk(const Circuit& circuit, const Phase& phase, LivePath& path)
      : c_(circuit), points_(number_points(circuit)), currents_(find_currents(circuit, points_, phase, least_a)), path_(path) {
    for (std::size_t p = 0; p < c_.parts.size(); ++p)
      for (std::size_t t = 0; t < c_.parts[p].terminals.size() + at(c_.parts[p].inner_points); ++t) part_of_.push_back(static_cast<int>(p));
  }

  int point(TerminalRef t) const { return points_.at(t); }

  void go(int from, Way way, double least) {
    std::vector<int> open{from};
    std::vector<char> seen(part_of_.size(), 0);
    while (!open.empty()) {
      const int here = open.back();
      open.pop_back();
      if (seen[at(here)] != 0) continue;
      seen[at(here)] = 1;
      const int part = part_of_[at(here)];
      path_.parts[at(part)] = 1;
      if (way == Way::on) common_place(here, open);
      if (way == Way::back && c_.parts[at(part)].logic) inputs(part, open);
      for (const Current& current : currents_) {
        if ((way == Way::back ? current.to : current.from) != here || current.amps < least) continue;
        if (current.wire) path_.wires[at(current.wire.v)] = 1;
        const bool source = current.element != nullptr && current.element->law == Law::source;
        if (!source) open.push_back(way == Way::back ? current.from : current.to);
      }
    }
  }

 private:
  // Body and chassis: one place without a drawn wire, at the last terminal of each part that joins it.
  void common_place(int here, std::vector<int>& open) const {
    const Part& part = c_.parts[at(part_of_[at(here)])];
    const auto last = [&](std::size_t p) { return points_.first[p] + static_cast<int>(c_.parts[p].terminals.size()) - 1; };
    if (part.joins.empty() || here != last(at(part_of_[at(here)]))) return;
    for (std::size_t p = 0; p < c_.parts.size(); ++p)
      if (c_.parts[p].joins == part.joins && carries(last(p))) open.push_back(last(p));
  }
  bool carries(int from) const {
    return std::any_of(currents_.begin(), currents_.end(), [&](const Current& c) { return c.from == from; });
  }
  // A module gives out what its inputs tell it: they belong to the path.
  void inputs(int part, std::vector<int>& open) const {
    const Part& module = c_.parts[at(part)];
    for (std::size_t t = 0; t < module.terminals.size(); ++t)
      if (std::find(module.logic->inputs.begin(), module.logic->inputs.end(), module.terminals[t]) != module.logic->inputs.end())
        open.push_back(points_.first[at(part)] + static_cast<int>(t));
  }

  const Circuit& c_;
  Points points_;
  std::vector<Current> currents_;
  LivePath& path_;
  std::vector<int> part_of_;   // by point
};

LivePath empty_path(const Facts& facts, std::size_t scene) {
  const Circuit& c = facts.circuit();
  return {facts.states.scenes[scene].name, std::vector<char>(c.wires.size(), 0), std::vector<char>(c.parts.size(), 0), std::vector<char>(c.lamps.size(), 0)};
}

bool is_lit(Seen seen) { return seen != Seen::dark; }

// The way of one lamp's current, in the phase in which it is brightest.
void add_lamp(const Facts& facts, std::size_t scene, std::size_t lamp, LivePath& path) {
  const Circuit& c = facts.circuit();
  const Solved& solved = facts.states.solved[scene];
  const PartId id = c.lamps[lamp].lamp;
  const auto amps = [&](int p) { return solved.phase[at(p)].element_a[at(id.v)][0]; };
  int brightest = 0;
  for (int p = 1; p < solved.phases; ++p)
    if (std::fabs(amps(p)) > std::fabs(amps(brightest))) brightest = p;
  const double own = amps(brightest), least = std::max(least_a, least_share * std::fabs(own));
  Walk walk(c, solved.phase[at(brightest)], path);
  walk.go(walk.point({id, own < 0 ? 1 : 0}), Way::back, least);
  walk.go(walk.point({id, own < 0 ? 0 : 1}), Way::on, least);
  path.lamps[lamp] = 1;
}

bool towing(const Facts& facts, std::size_t scene) { return facts.states.scenes[scene].kind == "towing"; }

// The way of the current through the contacts of a function, where no lamp takes it.
std::optional<LivePath> contact_path(const Facts& facts, const std::string& function) {
  const Circuit& c = facts.circuit();
  for (std::size_t s = 0; s < facts.states.scenes.size(); ++s) {
    if (!towing(facts, s)) continue;
    const Phase& phase = facts.states.solved[s].phase[0];
    LivePath path = empty_path(facts, s);
    bool any = false;
    for (std::size_t p = 0; p < c.parts.size(); ++p) {
      const Part& part = c.parts[p];
      if (part.kind != "contact" || part.function != function || part.elements.empty()) continue;
      const double amps = phase.element_a[p][0];
      if (std::fabs(amps) < least_a) continue;
      any = true;
      Walk walk(c, phase, path);
      const double least = std::max(least_a, least_share * std::fabs(amps));
      const Element& e = part.elements[0];
      walk.go(walk.point({{static_cast<int>(p)}, amps < 0 ? e.b : e.a}), Way::back, least);
      walk.go(walk.point({{static_cast<int>(p)}, amps < 0 ? e.a : e.b}), Way::on, least);
    }
    if (any) return path;
  }
  return std::nullopt;
}

// The first towing scene that lights a lamp of this function, and only its lamps.
std::optional<LivePath> lamp_path(const Facts& facts, const std::string& function) {
  const Circuit& c = facts.circuit();
  for (std::size_t s = 0; s < facts.states.scenes.size(); ++s) {
    if (!towing(facts, s)) continue;
    LivePath path = empty_path(facts, s);
    bool any = false;
    for (std::size_t l = 0; l < c.lamps.size(); ++l) {
      if (c.part(c.lamps[l].lamp).function != function || !is_lit(facts.states.lamps[s][l].seen)) continue;
      add_lamp(facts, s, l, path);
      any = true;
    }
    if (any) return path;
  }
  return std::nullopt;
}

}  // namespace

LivePath live_in_scene(const Facts& facts, std::size_t scene) {
  LivePath path = empty_path(facts, scene);
  for (std::size_t l = 0; l < facts.circuit().lamps.size(); ++l)
    if (is_lit(facts.states.lamps[scene][l].seen)) add_lamp(facts, scene, l, path);
  return path;
}

LivePath live_of_lamp(const Facts& facts, std::size_t scene, std::size_t lamp) {
  LivePath path = empty_path(facts, scene);
  if (is_lit(facts.states.lamps[scene][lamp].seen)) add_lamp(facts, scene, lamp, path);
  return path;
}

std::optional<LivePath> live_path(const Facts& facts, const std::string& function) {
  for (std::size_t s = 0; s < facts.states.scenes.size(); ++s) {
    if (facts.states.scenes[s].name != function) continue;
    LivePath path = live_in_scene(facts, s);
    if (std::count(path.lamps.begin(), path.lamps.end(), 1) > 0) return path;
  }
  if (auto path = lamp_path(facts, function)) return path;
  return contact_path(facts, function);
}

std::vector<std::string> live_functions(const Facts& facts) {
  std::vector<std::string> names;
  for (const Scene& scene : facts.states.scenes) names.push_back(scene.name);
  for (const LampIntent& lamp : facts.circuit().lamps) names.push_back(facts.circuit().part(lamp.lamp).function);
  for (const Part& part : facts.circuit().parts)
    if (part.kind == "contact") names.push_back(part.function);
  std::vector<std::string> out;
  for (const std::string& name : names)
    if (!name.empty() && std::find(out.begin(), out.end(), name) == out.end() && live_path(facts, name)) out.push_back(name);
  return out;
}

}  // namespace towloom
