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

using Lines = std::vector<Kirchhoff::Line>;

std::vector<int> numbers_of(const Network& net, const std::vector<int>& kept) {
  std::vector<int> out(static_cast<size_t>(net.points), -1);
  for (size_t k = 0; k < kept.size(); ++k) out[static_cast<size_t>(kept[k])] = static_cast<int>(k);
  return out;
}

Lines left_pairs(const Mesh& whole, const Network& net, const std::vector<int>& kept) {
  const std::vector<int> numbers = numbers_of(net, kept);
  Lines out;
  for (const Mesh::Pair& pair : whole.left()) out.push_back({numbers[static_cast<size_t>(pair.a)], numbers[static_cast<size_t>(pair.b)], -1});
  return out;
}

Lines bent_lines(const Network& net, const std::vector<char>& bent, const std::vector<int>& kept) {
  const std::vector<int> numbers = numbers_of(net, kept);
  const auto number = [&](int p) { return p < 0 ? -1 : numbers[static_cast<size_t>(p)]; };
  Lines out;
  for (size_t i = 0; i < net.branches.size(); ++i)
    if (bent[i] != 0) out.push_back({number(net.branches[i].a), number(net.branches[i].b), -1});
  return out;
}

Pairs pairs_of(const Lines& pairs, const Lines& bent) {
  Pairs out;
  for (const Lines* lines : {&pairs, &bent})
    for (const Kirchhoff::Line& l : *lines)
      if (l.a >= 0 && l.b >= 0) out.push_back({l.a, l.b});
  return out;
}

}  // namespace

Reduction::Reduction(const Network& shape, const std::vector<char>& bent)
    : whole_(shape.points, straight_pairs(shape, bent), marks(shape, bent)), kept_(whole_.marked()), pairs_(left_pairs(whole_, shape, kept_)),
      lines_(bent_lines(shape, bent, kept_)), small_(static_cast<int>(kept_.size()), pairs_of(pairs_, lines_)) {
  size_t pair = 0;
  for (size_t i = 0; i < shape.branches.size(); ++i) {
    const Branch& b = shape.branches[i];
    if (bent[i] != 0) bent_.push_back(i);
    else straight_.push_back({i, b.a, b.b, within(b) ? whole_.slot(pair++) : -1});
  }
  size_t at = 0;
  for (Lines* lines : {&pairs_, &lines_})
    for (Kirchhoff::Line& l : *lines)
      if (l.a >= 0 && l.b >= 0) l.slot = small_.slot(at++);
}

Nearly Reduction::find_start(const std::vector<const Curve*>& curves, const std::vector<double>& start, const Enough& enough) const {
  thread_local Mesh::Work work;   // its memory serves again
  thread_local Kirchhoff::Left left;
  thread_local std::vector<const Curve*> bent;
  thread_local std::vector<double> from;
  const auto points = static_cast<size_t>(whole_.points());
  work.siemens.assign(static_cast<size_t>(whole_.slots()), 0);
  work.to_reference.assign(points, point_leak);
  work.amps.assign(points, 0);
  for (const Straight& s : straight_) {
    if (curves[s.branch] == nullptr) continue;
    const Curve& c = *curves[s.branch];
    const double forced = c.law == Law::source ? c.siemens * c.volts : 0;
    if (s.a >= 0) work.amps[static_cast<size_t>(s.a)] += forced;
    if (s.b >= 0) work.amps[static_cast<size_t>(s.b)] -= forced;
    if (s.slot >= 0) work.siemens[static_cast<size_t>(s.slot)] += c.siemens;
    else if (s.a >= 0 && s.b < 0) work.to_reference[static_cast<size_t>(s.a)] += c.siemens;
    else if (s.b >= 0 && s.a < 0) work.to_reference[static_cast<size_t>(s.b)] += c.siemens;
  }
  whole_.remove_unmarked(work);
  left.siemens.clear();
  left.to_reference.clear();
  left.forced_a.clear();
  bent.clear();
  from.clear();
  for (const Mesh::Pair& pair : whole_.left()) left.siemens.push_back(work.siemens[static_cast<size_t>(pair.slot)]);
  for (const size_t i : bent_) bent.push_back(curves[i]);
  for (const int p : kept_) {
    const auto point = static_cast<size_t>(p);
    left.to_reference.push_back(work.to_reference[point]);
    left.forced_a.push_back(work.amps[point]);
    if (!start.empty()) from.push_back(start[point]);
  }
  Nearly out;
  out.volts.assign(points, 0);
  const auto put_back = [&](const std::vector<double>& found) {
    for (size_t k = 0; k < kept_.size(); ++k) out.volts[static_cast<size_t>(kept_[k])] = found[k];
    whole_.find_removed(work, out.volts);
  };
  Enough ask;
  if (enough)
    ask = [&](const std::vector<double>& now, double missing) {
      if (!(missing < worth_asking)) return false;
      put_back(now);
      return enough(out.volts, missing);
    };
  const auto set = [&](Kirchhoff& net) { net.set(left, pairs_, lines_, bent, small_); };
  const std::vector<double>& found = find_nearly(set, from, near_enough, ask, out);
  if (!out.enough) put_back(found);
  return out;
}

}  // namespace towloom
