#include <algorithm>
#include <numeric>
#include <queue>

#include "circuit/builder.hpp"

namespace towloom {

bool lit_in_phase(Wave wave, int phase) {
  return wave == Wave::on || (wave == Wave::flash && phase == 0) || (wave == Wave::counterflash && phase == 1);
}

PartId Circuit::find(std::string_view id) const {
  for (std::size_t i = 0; i < parts.size(); ++i)
    if (parts[i].id == id) return PartId{static_cast<int>(i)};
  return {};
}

// The part's id may itself hold a dot ("J1.3"): the terminal stands behind the last one.
TerminalRef Circuit::terminal(std::string_view reference) const {
  const std::size_t dot = reference.rfind('.');
  const PartId id = find(reference.substr(0, dot));
  if (!id || dot == std::string_view::npos) return {};
  const auto& names = part(id).terminals;
  const auto at = std::find(names.begin(), names.end(), reference.substr(dot + 1));
  return at == names.end() ? TerminalRef{} : TerminalRef{id, static_cast<int>(at - names.begin())};
}

std::string Circuit::name(TerminalRef t) const {
  return part(t.part).id + "." + part(t.part).terminals[static_cast<std::size_t>(t.index)];
}

Points number_points(const Circuit& circuit) {
  Points out;
  for (const Part& p : circuit.parts) {
    out.first.push_back(out.count);
    out.count += static_cast<int>(p.terminals.size()) + p.inner_points;
  }
  return out;
}

NetId Circuit::net(TerminalRef t) const {
  return net_of[static_cast<std::size_t>(number_points(*this).at(t))];
}

void number_nets(Circuit& circuit) {
  const Points points = number_points(circuit);
  std::vector<int> root(static_cast<std::size_t>(points.count));
  std::iota(root.begin(), root.end(), 0);
  const auto find = [&](int i) {
    while (root[static_cast<std::size_t>(i)] != i) i = root[static_cast<std::size_t>(i)];
    return i;
  };
  const auto join = [&](int a, int b) { root[static_cast<std::size_t>(std::max(find(a), find(b)))] = std::min(find(a), find(b)); };
  for (const Wire& w : circuit.wires) join(points.at(w.from), points.at(w.to));
  std::map<std::string, int> places;  // parts that are one net without a drawn wire
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const Part& part = circuit.parts[p];
    if (part.joins.empty()) continue;
    const auto at = std::find(part.terminals.begin(), part.terminals.end(), part.joins);
    if (at == part.terminals.end()) continue;
    const int point = points.first[p] + static_cast<int>(at - part.terminals.begin());
    const auto [known, first] = places.emplace(part.joins, point);
    if (!first) join(known->second, point);
  }
  std::map<int, int> number;
  circuit.net_of.assign(static_cast<std::size_t>(points.count), {});
  for (int i = 0; i < points.count; ++i)
    circuit.net_of[static_cast<std::size_t>(i)] = NetId{number.emplace(find(i), static_cast<int>(number.size())).first->second};
  circuit.nets = static_cast<int>(number.size());
}

double wire_ohm(const Wire& wire, const Circuit& circuit, const Catalogue& catalogue) {
  if (wire.fixed_ohm >= 0) return wire.fixed_ohm;
  const WireSize* size = wire.size ? find_size(*wire.size, circuit.wire_series, catalogue) : nullptr;
  if (size == nullptr) return 0;
  constexpr double alpha = 0.00393;  // per kelvin at 20 °C, IEC 60028
  return size->ohm_per_m * wire.length_m * (1 + alpha * (circuit.wire_celsius - 20));
}

}  // namespace towloom
