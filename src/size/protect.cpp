#include "size/protect.hpp"

#include <limits>
#include <map>
#include <queue>

#include "base/quantity.hpp"

namespace towloom {
namespace {

// More resistance than this is a load: it limits a fault to what a lamp draws (14 V / 1 ohm, common practice, no source).
constexpr double least_load_ohm = 1;
constexpr double no_fuse = std::numeric_limits<double>::infinity();

// A stud that bites in the body: what comes there goes on in the body, not in the other wires on it.
bool is_home(const Part& part) { return part.kind == "stud" && !part.elements.empty() && part.elements[0].ohm < least_load_ohm; }

struct Way {
  int to = 0;
  PartId part;                 // none for a wire
};

struct Reach {                 // the smallest fuse on the way with the largest such one
  double amps = 0;
  std::string fuse;
  Place place;
};

// Ways that a fault current can take: wires, closed or closable contacts, diodes in their direction.
std::vector<std::vector<Way>> find_ways(const Circuit& circuit, const Points& points) {
  std::vector<std::vector<Way>> out(static_cast<std::size_t>(points.count));
  const auto add = [&](int a, int b, PartId part) { out[static_cast<std::size_t>(a)].push_back({b, part}); };
  const auto lay = [&](TerminalRef from, TerminalRef to) {
    if (!is_home(circuit.part(from.part))) add(points.at(from), points.at(to), {});
  };
  for (const Wire& w : circuit.wires) {
    lay(w.from, w.to);
    lay(w.to, w.from);
  }
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const Part& part = circuit.parts[p];
    if (part.kind == "lamp" || part.kind == "coach-feed" || part.kind == "battery" || part.kind == "stud") continue;
    for (const Element& e : part.elements) {
      const int a = points.first[p] + e.a, b = points.first[p] + e.b;
      const PartId id{static_cast<int>(p)};
      if (e.law == Law::diode || e.law == Law::led) add(a, b, id);
      if (part.kind == "load") add(a, b, id);   // a unit that fails inside: its return is as thick as its feed
      if (e.law == Law::limited && part.kind == "charger") add(b, a, id);
      if (e.law != Law::resistor || e.ohm > least_load_ohm) continue;
      add(a, b, id);
      add(b, a, id);
    }
  }
  return out;
}

struct Start {
  int point = 0;
  Reach reach;
};

std::vector<Start> find_sources(const Circuit& circuit, const Spec& spec, const Points& points) {
  std::vector<Start> out;
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const Part& part = circuit.parts[p];
    if (part.kind == "battery") out.push_back({points.first[p], {no_fuse, "", {}}});
    if (part.kind != "coach-feed") continue;
    for (std::size_t t = 1; t < part.terminals.size(); ++t) {
      Reach reach{no_fuse, "", {}};
      for (const FoundContact& found : spec.coach.found)
        if (found.does && found.does->value == part.terminals[t] && found.fuse_a)
          reach = {found.fuse_a->value, "the coach's " + format_plain(found.fuse_a->value) + " A fuse", found.fuse_a->place};
      out.push_back({points.first[p] + static_cast<int>(t), reach});
    }
  }
  return out;
}

// Widest way first: how large a fuse a fault at each point can still pass. A part is passed once from terminal to
// terminal: a change-over contact is never on both its sides at a time. Hence a state is a point with the last part
// passed, whatever wires lie between.
std::vector<Reach> spread(const Circuit& circuit, const Points& points, const std::vector<std::vector<Way>>& ways, const Start& start) {
  using State = std::pair<int, int>;   // point; last part passed, -1 = none yet
  std::map<State, Reach> best{{{start.point, -1}, start.reach}};
  std::priority_queue<std::pair<double, State>> open;
  open.emplace(start.reach.amps, State{start.point, -1});
  while (!open.empty()) {
    const auto [amps, state] = open.top();
    open.pop();
    const Reach here = best.at(state);
    if (amps < here.amps) continue;
    const int from = state.second;
    const auto is_terminal = [&] {
      const int nth = state.first - points.first[static_cast<std::size_t>(from)];
      return nth >= 0 && nth < static_cast<int>(circuit.parts[static_cast<std::size_t>(from)].terminals.size());
    };
    for (const Way& way : ways[static_cast<std::size_t>(state.first)]) {
      if (from >= 0 && way.part.v == from && is_terminal()) continue;
      Reach next = here;
      const auto rating = way.part ? fuse_rating(circuit.part(way.part)) : std::nullopt;
      if (rating && *rating < next.amps)
        next = {*rating, circuit.part(way.part).id + ", " + circuit.part(way.part).value + ",", circuit.part(way.part).origin.job};
      const State to{way.to, way.part ? way.part.v : from};
      Reach& known = best[to];
      if (next.amps <= known.amps) continue;
      known = next;
      open.emplace(next.amps, to);
    }
  }
  std::vector<Reach> out(ways.size());
  for (const auto& [state, reach] : best)
    if (Reach& at = out[static_cast<std::size_t>(state.first)]; reach.amps > at.amps) at = reach;
  return out;
}

}  // namespace

std::optional<double> fuse_rating(const Part& part) {
  if (part.kind != "fuse" && part.kind != "breaker") return std::nullopt;
  const std::size_t unit = part.value.find(" A");   // "15 A" of a fuse, "15 A breaker" of a breaker
  return unit == std::string::npos ? std::nullopt : parse_quantity(part.value.substr(0, unit + 2), Unit::ampere);
}

double next_fuse(const Catalogue& catalogue, double amps) {
  double out = 0;
  for (const FuseRating& f : catalogue.fuses) {
    if (f.amps > out && (out < amps)) out = f.amps;
  }
  return out;
}

std::vector<Protection> find_protection(const Circuit& circuit, const Spec& spec) {
  const Points points = number_points(circuit);
  const auto ways = find_ways(circuit, points);
  std::vector<Protection> out(circuit.wires.size());
  for (const Start& start : find_sources(circuit, spec, points)) {
    const auto best = spread(circuit, points, ways, start);
    for (std::size_t w = 0; w < circuit.wires.size(); ++w) {
      const Wire& wire = circuit.wires[w];
      const Reach& reach = best[static_cast<std::size_t>(points.at(is_home(circuit.part(wire.from.part)) ? wire.to : wire.from))];
      if (reach.amps == no_fuse) out[w].open = true;
      if (reach.amps == no_fuse || reach.amps <= out[w].amps) continue;
      out[w].amps = reach.amps;
      out[w].fuse = reach.fuse;
      out[w].place = reach.place;
    }
  }
  // The lead from a source to its fuse: nothing clears a short in it, and it carries all that the fuse lets pass.
  for (std::size_t w = 0; w < circuit.wires.size(); ++w)
    for (const TerminalRef end : {circuit.wires[w].from, circuit.wires[w].to}) {
      const Part& part = circuit.part(end.part);
      const auto rating = fuse_rating(part);
      if (!out[w].open || !rating || *rating <= out[w].amps) continue;
      out[w].amps = *rating;
      out[w].fuse = part.id + ", " + part.value + ",";
      out[w].place = part.origin.job;
    }
  return out;
}

}  // namespace towloom
