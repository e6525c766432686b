#include "solve/reduce.hpp"

namespace towloom {
namespace {

using std::size_t;
using Pairs = std::vector<std::pair<int, int>>;

constexpr double near_enough = 1e-6;   // V; the whole network is solved from there
constexpr double worth_asking = 1;     // A; where more are missing, no lamp is known to be dark or lit

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

Network left_of(const Mesh& whole, const Network& net, const std::vector<char>& bent, const std::vector<int>& kept) {
  std::vector<int> numbers(static_cast<size_t>(net.points), -1);
  for (size_t k = 0; k < kept.size(); ++k) numbers[static_cast<size_t>(kept[k])] = static_cast<int>(k);
  const auto number = [&](int p) { return p < 0 ? -1 : numbers[static_cast<size_t>(p)]; };
  Network out;
  out.points = static_cast<int>(kept.size());
  for (const Mesh::Pair& pair : whole.left()) out.branches.push_back({number(pair.a), number(pair.b), {}});
  for (size_t i = 0; i < net.branches.size(); ++i)
    if (bent[i] != 0) out.branches.push_back({number(net.branches[i].a), number(net.branches[i].b), {}});
  for (const int p : kept) out.branches.push_back({number(p), -1, {}});
  return out;
}

Pairs pairs_of(const Network& net) {
  Pairs out;
  for (const Branch& b : net.branches)
    if (within(b)) out.push_back({b.a, b.b});
  return out;
}

}  // namespace

Reduction::Reduction(const Network& shape, const std::vector<char>& bent)
    : whole_(shape.points, straight_pairs(shape, bent), marks(shape, bent)), kept_(whole_.marked()), shape_(left_of(whole_, shape, bent, kept_)),
      small_(shape_.points, pairs_of(shape_)) {
  size_t pair = 0;
  for (size_t i = 0; i < shape.branches.size(); ++i) {
    const Branch& b = shape.branches[i];
    if (bent[i] != 0) bent_.push_back(i);
    else straight_.push_back({i, b.a, b.b, within(b) ? whole_.slot(pair++) : -1});
  }
}

Nearly Reduction::find_start(const Network& net, const std::vector<double>& start, const Enough& enough) const {
  thread_local Mesh::Work work;   // its memory serves again
  thread_local Network small;
  thread_local std::vector<double> from;
  work.siemens.assign(static_cast<size_t>(whole_.slots()), 0);
  work.to_reference.assign(static_cast<size_t>(net.points), point_leak);
  work.amps.assign(static_cast<size_t>(net.points), 0);
  for (const Straight& s : straight_) {
    const Curve& c = net.branches[s.branch].curve;
    if (c.siemens == 0) continue;
    const double forced = c.law == Law::source ? c.siemens * c.volts : 0;
    if (s.a >= 0) work.amps[static_cast<size_t>(s.a)] += forced;
    if (s.b >= 0) work.amps[static_cast<size_t>(s.b)] -= forced;
    if (s.slot >= 0) work.siemens[static_cast<size_t>(s.slot)] += c.siemens;
    else if (s.a >= 0 && s.b < 0) work.to_reference[static_cast<size_t>(s.a)] += c.siemens;
    else if (s.b >= 0 && s.a < 0) work.to_reference[static_cast<size_t>(s.b)] += c.siemens;
  }
  whole_.remove_unmarked(work);
  small = shape_;
  small.forced_a.clear();
  from.clear();
  size_t at = 0;
  for (const Mesh::Pair& pair : whole_.left()) small.branches[at++].curve.siemens = work.siemens[static_cast<size_t>(pair.slot)];
  for (const size_t i : bent_) small.branches[at++].curve = net.branches[i].curve;
  for (const int p : kept_) {
    const auto point = static_cast<size_t>(p);
    small.branches[at++].curve.siemens = work.to_reference[point] - point_leak;   // every point has its leak anyway
    small.forced_a.push_back(work.amps[point]);
    if (!start.empty()) from.push_back(start[point]);
  }
  Nearly out;
  out.volts.assign(static_cast<size_t>(net.points), 0);
  const auto put_back = [&](const std::vector<double>& found) {
    for (size_t k = 0; k < kept_.size(); ++k) out.volts[static_cast<size_t>(kept_[k])] = found[k];
    whole_.find_removed(work, out.volts);
  };
  if (!enough) {
    put_back(find_nearly(small, small_, from, near_enough, {}).volts);
    return out;
  }
  const auto ask = [&](const std::vector<double>& now, double missing) {
    if (!(missing < worth_asking)) return false;
    put_back(now);
    return enough(out.volts, missing);
  };
  const Nearly found = find_nearly(small, small_, from, near_enough, ask);
  out.enough = found.enough;
  if (!out.enough) put_back(found.volts);
  return out;
}

}  // namespace towloom
