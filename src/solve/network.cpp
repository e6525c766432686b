#include "solve/network.hpp"

#include <algorithm>
#include <map>

namespace towloom {

std::vector<int> number_nodes(const Circuit& circuit, const Points& points, int& count) {
  std::vector<int> out(static_cast<size_t>(points.count), -2);
  std::map<std::string, int> common;   // place -> first point that stands for it
  for (size_t p = 0; p < circuit.parts.size(); ++p) {
    const Part& part = circuit.parts[p];
    if (part.joins.empty() || part.terminals.empty()) continue;
    if (part.joins == "body") {
      for (size_t t = 0; t < part.terminals.size(); ++t)
        if (part.terminals[t] == "body") out[static_cast<size_t>(points.first[p]) + t] = -1;
      continue;
    }
    const auto last = static_cast<size_t>(points.first[p]) + part.terminals.size() - 1;
    const auto [at, fresh] = common.try_emplace(part.joins, count);
    if (fresh) ++count;
    out[last] = at->second;
  }
  for (int& n : out)
    if (n == -2) n = count++;
  return out;
}

bool gate_open(Gate gate, Wave wave, int phase, bool in) {
  switch (gate) {
    case Gate::always: return true;
    case Gate::lit: return lit_in_phase(wave, phase);
    case Gate::selected: return wave != Wave::off;
    case Gate::idle: return wave == Wave::off;
    case Gate::pulled: return in;
    case Gate::rest: return !in;
  }
  return false;
}

bool conducts(const Element& e, const Scene& scene, int phase, const std::vector<char>& pulled, bool pulse) {
  if (e.duty < 1 && !pulse) return false;
  const bool in = e.device >= 0 && static_cast<size_t>(e.device) < pulled.size() && pulled[static_cast<size_t>(e.device)] != 0;
  return gate_open(e.gate, e.signal.empty() ? Wave::off : scene.signal(e.signal), phase, in);
}

std::vector<char> conducting(const Circuit& circuit, const Scene& scene, int phase, const Pulled& pulled, bool pulse) {
  std::vector<char> out;
  for (size_t p = 0; p < circuit.parts.size(); ++p)
    for (const Element& e : circuit.parts[p].elements) out.push_back(conducts(e, scene, phase, pulled[p], pulse) ? 1 : 0);
  return out;
}

Curve curve_of(const Attached& load) { return load.load ? make_curve(*load.load) : make_resistor(load.ohm); }

double ohm_of(const Wire& wire, const Circuit& circuit, const Catalogue& catalogue) {
  const double ohm = wire.fixed_ohm >= 0 ? wire.fixed_ohm : wire_ohm(wire, circuit, catalogue);
  return std::max(ohm, least_ohm);
}

Flat flatten(const Circuit& circuit, const Catalogue& catalogue, const Scene& scene, int phase,
             const std::vector<Attached>& attached, const Pulled& pulled, bool pulse) {
  Flat out;
  const Points points = number_points(circuit);
  out.point = number_nodes(circuit, points, out.network.points);
  const auto add = [&](int a, int b, const Curve& curve) {
    const auto n = [&](int p) { return p < 0 ? -1 : out.point[static_cast<size_t>(p)]; };
    out.network.branches.push_back({n(a), n(b), curve});
    return static_cast<int>(out.network.branches.size()) - 1;
  };
  const std::vector<char> at_rest;
  for (size_t p = 0; p < circuit.parts.size(); ++p) {
    std::vector<int> branches;
    const std::vector<char>& devices = p < pulled.size() ? pulled[p] : at_rest;
    for (const Element& e : circuit.parts[p].elements) {
      const int first = points.first[p];
      branches.push_back(conducts(e, scene, phase, devices, pulse) ? add(first + e.a, first + e.b, make_curve(e)) : -1);
    }
    out.branch_of.push_back(std::move(branches));
  }
  for (const Wire& w : circuit.wires)
    out.branch_of_wire.push_back(add(points.at(w.from), points.at(w.to), make_resistor(ohm_of(w, circuit, catalogue))));
  for (const Attached& load : attached)
    add(load.from.part ? points.at(load.from) : -1, load.to.part ? points.at(load.to) : -1, curve_of(load));
  return out;
}

}  // namespace towloom
