#include "solve/reduce.hpp"

#include <algorithm>

namespace towloom {
namespace {

using std::size_t;
using Pairs = std::vector<std::pair<int, int>>;

constexpr double near_enough = 1e-6;   // V; the whole network is solved from there

bool within(const Branch& b) { return b.a >= 0 && b.b >= 0; }

Pairs straight_pairs(const Network& net, const std::vector<char>& bent) {
  Pairs out;
  for (size_t i = 0; i < net.branches.size(); ++i)
    if (bent[i] == 0 && within(net.branches[i])) out.push_back({net.branches[i].a, net.branches[i].b});
  return out;
}

std::vector<char> marks(const Network& net, const std::vector<char>& bent) {
  std::vector<char> out(static_cast<size_t>(net.points), 0);
  for (size_t i = 0; i < net.branches.size(); ++i)
    for (const int p : {net.branches[i].a, net.branches[i].b})
      if (bent[i] != 0 && p >= 0) out[static_cast<size_t>(p)] = 1;
  return out;
}

std::vector<int> numbers(const std::vector<int>& kept, int points) {
  std::vector<int> out(static_cast<size_t>(points), -1);
  for (size_t k = 0; k < kept.size(); ++k) out[static_cast<size_t>(kept[k])] = static_cast<int>(k);
  return out;
}

Pairs small_pairs(const Mesh& whole, const Network& net, const std::vector<char>& bent, const std::vector<int>& number) {
  Pairs out;
  for (const Mesh::Pair& pair : whole.left()) out.push_back({number[static_cast<size_t>(pair.a)], number[static_cast<size_t>(pair.b)]});
  for (size_t i = 0; i < net.branches.size(); ++i)
    if (const Branch& b = net.branches[i]; bent[i] != 0 && within(b)) out.push_back({number[static_cast<size_t>(b.a)], number[static_cast<size_t>(b.b)]});
  return out;
}

}  // namespace

Reduction::Reduction(const Network& shape, std::vector<char> bent)
    : bent_(std::move(bent)), whole_(shape.points, straight_pairs(shape, bent_), marks(shape, bent_)), kept_(whole_.marked()),
      number_(numbers(kept_, shape.points)),
      small_(static_cast<int>(kept_.size()), small_pairs(whole_, shape, bent_, number_)) {}

std::vector<double> Reduction::find_start(const Network& net, const std::vector<double>& start) const {
  std::vector<double> between, to_reference(static_cast<size_t>(net.points), point_leak), amps(static_cast<size_t>(net.points), 0);
  for (size_t i = 0; i < net.branches.size(); ++i) {
    const Branch& b = net.branches[i];
    if (bent_[i] != 0) continue;
    const double g = b.curve.siemens, emf = b.curve.law == Law::source ? b.curve.volts : 0;
    if (within(b)) between.push_back(g);
    for (const auto& [point, other, sign] : {std::tuple{b.a, b.b, 1}, {b.b, b.a, -1}}) {
      if (point < 0) continue;
      if (other < 0) to_reference[static_cast<size_t>(point)] += g;
      amps[static_cast<size_t>(point)] += sign * g * emf;
    }
  }
  const Mesh::Removed removed = whole_.remove_unmarked(between, std::move(to_reference), std::move(amps));
  const auto number = [&](int p) { return p < 0 ? -1 : number_[static_cast<size_t>(p)]; };
  Network small;
  small.points = static_cast<int>(kept_.size());
  const auto add = [&](int a, int b, double siemens) {
    Curve line;
    line.siemens = siemens;
    small.branches.push_back({a, b, line});
  };
  for (const Mesh::Pair& pair : whole_.left()) add(number(pair.a), number(pair.b), removed.siemens[static_cast<size_t>(pair.slot)]);
  for (size_t i = 0; i < net.branches.size(); ++i)
    if (bent_[i] != 0) small.branches.push_back({number(net.branches[i].a), number(net.branches[i].b), net.branches[i].curve});
  std::vector<double> from;
  for (const int p : kept_) {
    add(number(p), -1, removed.to_reference[static_cast<size_t>(p)] - point_leak);   // every point has its leak anyway
    small.forced_a.push_back(removed.amps[static_cast<size_t>(p)]);
    if (!start.empty()) from.push_back(start[static_cast<size_t>(p)]);
  }
  const Operating found = find_operating_point(small, small_, from, near_enough);
  std::vector<double> volts(static_cast<size_t>(net.points), 0);
  for (size_t k = 0; k < kept_.size(); ++k) volts[static_cast<size_t>(kept_[k])] = found.volts[k];
  whole_.find_removed(removed, volts);
  return volts;
}

}  // namespace towloom
