#include "solve/split.hpp"

#include <algorithm>
#include <cmath>

#include "solve/meter.hpp"

namespace towloom {
namespace {

constexpr std::size_t most_tried = 6;   // best places whose readings are solved with the meter attached

struct Faulty {                // one fault with what it blows
  int row = 0;
  Circuit circuit;
  Solved solved;
};

struct Work {
  const Catalogue& catalogue;
  const Scene& scene;
  const Points points;
  const std::vector<TerminalRef> places;
  const double apart_v;
};

// Where a fitter can put the probe.
std::vector<TerminalRef> find_places(const Circuit& circuit) {
  std::vector<TerminalRef> out;
  for (std::size_t p = 0; p < circuit.parts.size(); ++p) {
    const Part& part = circuit.parts[p];
    if (part.kind == "coach-feed" || part.kind == "joint") continue;
    for (std::size_t t = 0; t < part.terminals.size(); ++t)
      if (part.terminals[t] != "cord" && part.terminals[t] != "body") out.push_back({PartId{static_cast<int>(p)}, static_cast<int>(t)});
  }
  return out;
}

struct Group {
  double volts = 0;
  std::vector<std::size_t> members;   // positions in `of`
};

// Readings in falling order, apart where the step between neighbours is wide enough.
std::vector<Group> group(const std::vector<double>& readings, double apart_v) {
  std::vector<std::size_t> order(readings.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return readings[a] > readings[b]; });
  std::vector<Group> out;
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (i == 0 || readings[order[i - 1]] - readings[order[i]] > apart_v) out.push_back({});
    out.back().members.push_back(order[i]);
    out.back().volts += readings[order[i]];
  }
  for (Group& g : out) g.volts /= static_cast<double>(g.members.size());
  return out;
}

std::size_t worst(const std::vector<Group>& groups) {
  std::size_t most = 0;
  for (const Group& g : groups) most = std::max(most, g.members.size());
  return most;
}

std::vector<double> readings_at(const Work& work, const std::vector<const Faulty*>& of, TerminalRef at) {
  const Attached meter = attach(work.catalogue.instruments.at("meter"), work.catalogue, at, TerminalRef{});
  std::vector<double> out;
  for (const Faulty* f : of) {
    const auto read = read_between(f->circuit, work.catalogue, work.scene, meter, {&f->solved, nullptr});
    out.push_back(read.empty() ? 0 : read[0].volts);
  }
  return out;
}

// The place that leaves fewest together; solved volts choose, the meter's reading decides.
Split split(const Work& work, const std::vector<const Faulty*>& of) {
  Split out;
  for (const Faulty* f : of) out.faults.push_back(f->row);
  if (of.size() < 2) return out;
  std::vector<std::pair<std::size_t, TerminalRef>> best;
  for (const TerminalRef at : work.places) {
    std::vector<double> volts;
    for (const Faulty* f : of) volts.push_back(f->solved.phase[0].volts[static_cast<std::size_t>(work.points.at(at))]);
    const std::size_t left = worst(group(volts, work.apart_v));
    if (left < of.size()) best.emplace_back(left, at);
  }
  std::stable_sort(best.begin(), best.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<Group> chosen;
  for (std::size_t i = 0; i < best.size() && i < most_tried; ++i) {
    std::vector<Group> groups = group(readings_at(work, of, best[i].second), work.apart_v);
    if (groups.size() < 2 || (!chosen.empty() && worst(groups) >= worst(chosen))) continue;
    chosen = std::move(groups);
    out.at = best[i].second;
  }
  for (const Group& g : chosen) {
    std::vector<const Faulty*> rest;
    for (const std::size_t m : g.members) rest.push_back(of[m]);
    out.next.push_back(split(work, rest));
    out.next.back().volts = g.volts;
  }
  return out;
}

}  // namespace

Split split_class(const Circuit& circuit, const Catalogue& catalogue, const States& states, const FaultTable& table, const FaultClass& asked) {
  if (asked.symptoms.empty()) {
    Split all;
    all.faults = asked.faults;
    return all;
  }
  const auto s = static_cast<std::size_t>(asked.symptoms.front().scene);
  const Work work{catalogue, states.scenes[s], number_points(circuit), find_places(circuit), 2 * catalogue.rule("reading_band_v").value};
  std::vector<Faulty> all;
  for (const int row : asked.faults) {
    Circuit faulty = after_fuses(with_fault(circuit, table.rows[static_cast<std::size_t>(row)].fault, catalogue), catalogue, work.scene,
                                 states.solved[s]);
    Solved solved = solve(faulty, catalogue, work.scene, {}, {&states.solved[s], nullptr});
    all.push_back({row, std::move(faulty), std::move(solved)});
  }
  std::vector<const Faulty*> of;
  for (const Faulty& f : all) of.push_back(&f);
  return split(work, of);
}

}  // namespace towloom
