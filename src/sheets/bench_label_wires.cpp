// In which order the labels of a page look for their places; what found none looks first in another round.
#include <algorithm>
#include <cstdlib>
#include <optional>

#include "sheets/bench_flags.hpp"
#include "sheets/bench_labels.hpp"

namespace towloom {
namespace {

constexpr int no_name = 16;      // weight of a splice whose name found no room
constexpr int most_rounds = 2;

// New wires first: they are what the fitter makes; the short ones before those that have room to spare.
std::vector<std::size_t> first_order(const BenchDraft& d, const std::vector<Routed>& routed) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < routed.size(); ++i)
    if (d.circuit().wires[i].group != "coach" && d.circuit().wires[i].group != "inside") out.push_back(i);
  const auto rank = [&](std::size_t i) {
    int longest = 0;
    for (std::size_t k = 0; k + 1 < routed[i].path.size(); ++k) longest = std::max(longest, std::abs(routed[i].path[k].x - routed[i].path[k + 1].x));
    return std::pair(d.circuit().wires[i].status == Status::factory, longest);
  };
  std::stable_sort(out.begin(), out.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  return out;
}

struct Labelled {
  Labels labels;
  std::vector<LabelFault> faults = {};
  int total = 0;
  void note(std::size_t wire, int weight, int lamp = -1) {
    total += weight;
    if (weight > 0) faults.push_back({static_cast<int>(wire), weight, lamp});
  }
};

// What bears no wire's name: volts, splices, letters of what was found.
Labelled place_others(const BenchDraft& d, const std::vector<Routed>& routed, const Frame& frame) {
  Labelled out{Labels(d, routed, frame)};
  const auto wire_of = [&](PartId part) {
    for (std::size_t w = 0; w < d.circuit().wires.size(); ++w)
      if (d.circuit().wires[w].to.part == part) return w;
    return std::size_t{0};
  };
  for (std::size_t l = 0; l < d.circuit().lamps.size(); ++l) out.note(wire_of(d.circuit().lamps[l].lamp), out.labels.volts(l), static_cast<int>(l));
  for (const Standing& s : d.place.parts) out.note(wire_of(s.part), out.labels.splice(s) ? 0 : no_name);
  for (const Flag& flag : d.facts.flags)
    if (is_on(d.circuit(), flag) && !is_drawn(d.circuit(), flag)) out.labels.flag(flag);
  return out;
}

}  // namespace

std::optional<std::vector<LabelFault>> label_wires(const BenchDraft& d, const std::vector<Routed>& routed, const Frame& frame, int most) {
  const Labelled others = place_others(d, routed, frame);
  std::vector<std::size_t> order = first_order(d, routed);
  std::optional<Labelled> best;
  for (int round = 0; round < most_rounds && others.total < most; ++round) {
    Labelled now = others;
    std::vector<bool> lacks(routed.size(), false);
    for (const std::size_t i : order) {
      const int weight = now.labels.label(i);
      lacks[i] = weight > 0;
      now.note(i, weight);
      if (now.total >= most) break;
    }
    if (now.total < most) {
      most = now.total;
      best.emplace(std::move(now));
    }
    std::stable_partition(order.begin(), order.end(), [&](std::size_t i) { return lacks[i]; });
  }
  if (!best) return std::nullopt;
  for (const std::size_t i : order) best->labels.ends(i);
  const double x = d.place.columns.run + 6;
  const auto handed = [](const Part& p) { return p.kind == "contact" && without_side(p.function) != p.function; };
  if (!d.circuit().lamps.empty() || std::any_of(d.circuit().parts.begin(), d.circuit().parts.end(), handed)) best->labels.sides(x, 11, 30);
  d.drawing.items.insert(d.drawing.items.end(), best->labels.items().begin(), best->labels.items().end());
  return best->faults;
}

}  // namespace towloom
