#include "check/loop.hpp"

#include <algorithm>
#include <set>

namespace towloom {
namespace {

bool moves(const Element& e) { return e.gate == Gate::pulled || e.gate == Gate::rest; }

// What a current passes without much loss: plugs, fuses, resistors of a few ohm, diodes.
bool leads_on(const Part& part, const Element& e) {
  constexpr double most_ohm = 10;   // below every coil
  return part.kind != "stud" && e.gate == Gate::always && ((e.law == Law::resistor && e.ohm < most_ohm) || e.law == Law::diode);
}

struct Walk {
  const Circuit& circuit;
  Points points = number_points(circuit);
  NetId net(std::size_t part, int point) const { return circuit.net_of[static_cast<std::size_t>(points.first[part] + point)]; }

  // All nets of the ground studs: through them everything reaches everything.
  std::set<NetId> grounds() const {
    std::set<NetId> out;
    for (std::size_t p = 0; p < circuit.parts.size(); ++p)
      if (circuit.parts[p].kind == "stud")
        for (int t = 0; t < static_cast<int>(circuit.parts[p].terminals.size()); ++t) out.insert(net(p, t));
    return out;
  }

  // The nearest contact of one of the parts, by nets passed; its terminal's name or nothing.
  std::string contact_at(NetId start, const std::vector<int>& parts, const std::set<NetId>& grounds) const {
    std::vector<NetId> reached{start};
    for (std::size_t i = 0; i < reached.size(); ++i) {
      if (grounds.count(reached[i]) != 0) continue;
      for (const int v : parts) {
        const auto p = static_cast<std::size_t>(v);
        for (const Element& e : circuit.parts[p].elements)
          for (const int end : {e.a, e.b})
            if (moves(e) && net(p, end) == reached[i] && end < static_cast<int>(circuit.parts[p].terminals.size())) return circuit.name({{v}, end});
      }
      for (std::size_t p = 0; p < circuit.parts.size(); ++p)
        for (const Element& e : circuit.parts[p].elements) {
          if (!leads_on(circuit.parts[p], e)) continue;
          for (const auto& [from, to] : {std::pair{e.a, e.b}, std::pair{e.b, e.a}})
            if (net(p, from) == reached[i] && std::find(reached.begin(), reached.end(), net(p, to)) == reached.end()) reached.push_back(net(p, to));
        }
    }
    return "";
  }
};

}  // namespace

std::string coil_loop(const Circuit& circuit, const std::vector<int>& parts) {
  const Walk walk{circuit};
  const std::set<NetId> grounds = walk.grounds();
  std::string out;
  for (const int v : parts) {
    const Part& part = circuit.part({v});
    for (const Device& device : part.devices) {
      if (device.output >= 0) continue;
      for (const int end : {device.plus, device.minus}) {
        if (end >= static_cast<int>(part.terminals.size())) continue;
        const std::string contact = walk.contact_at(walk.net(static_cast<std::size_t>(v), end), parts, grounds);
        if (contact.empty()) continue;
        out += (out.empty() ? "" : ", ") + circuit.name({{v}, end}) + (out.empty() ? " hangs on " : " on ") + contact;
        break;
      }
    }
  }
  return out;
}

std::string chatter_text(const Circuit& circuit, const std::vector<PartId>& parts) {
  std::string names;
  std::vector<int> numbers;
  for (const PartId id : parts) {
    names += (names.empty() ? "" : ", ") + circuit.part(id).id;
    numbers.push_back(id.v);
  }
  const std::string loop = coil_loop(circuit, numbers);
  return names + (parts.size() > 1 ? " find no rest" : " finds no rest") + (loop.empty() ? "" : ": " + loop);
}

}  // namespace towloom
