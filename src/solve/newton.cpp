#include "solve/newton.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "solve/kirchhoff.hpp"

namespace towloom {
namespace {

constexpr int most_iterations = 300, most_halvings = 60;
constexpr double overshot_share = 0.1;     // of the slope before the step
constexpr double least_secant = 0.3;       // a junction bends the secant too far back
constexpr int most_doublings = 8;
constexpr double slow_step = 1e-3, slow_share = 0.5;   // V; of the step before
constexpr int most_bends = 16;             // then the content alone decides
constexpr double step_limit = 1e-10;       // V
constexpr double noise_limit = 1e-7;       // V, where steps stop shrinking: a tenth of what is printed

void move(const std::vector<double>& from, const std::vector<double>& step, double share, std::vector<double>& to) {
  for (size_t i = 0; i < from.size(); ++i) to[i] = from[i] + share * step[i];
}

// Of the co-content.
template <class Sum>
double slope_along(const std::vector<double>& step, const Picture<Sum>& at) {
  double slope = 0;
  for (size_t p = 0; p < step.size(); ++p) slope -= static_cast<double>(at.into[p]) * step[p];
  return slope;
}

double largest(const std::vector<double>& values) {
  double out = 0;
  for (const double v : values)
    if (std::abs(v) > out) out = std::abs(v);
  return out;
}

// A point held by its leak alone moves a little for ever: rounding of its firm neighbours.
bool settled(double step, double before) {
  return step <= step_limit || (step <= noise_limit && step >= before / 4);
}

// What a search works with. Many are made one after the other: their memory serves again.
template <class Sum>
struct Search {
  Kirchhoff net;
  Picture<Sum> at, next, beyond;
  std::vector<double> now, step, volts, farther;
  double missing() const;
  // Says how it ended: true at the solution, at a step as short as `near_enough` or where it was enough.
  bool run(const std::vector<double>& start, double near_enough, const Enough&);   // of `net`, which is set
  int iterations = 0;
  bool enough = false;
};

template <class Sum>
double Search<Sum>::missing() const {
  double out = 0;
  for (size_t p = 0; p < net.points(); ++p) out += std::abs(static_cast<double>(at.into[p]));
  return out;
}

template <class Sum>
bool Search<Sum>::run(const std::vector<double>& start, double near_enough, const Enough& is_enough) {
  now = start;
  now.resize(net.points(), 0);
  now.push_back(0);   // the reference
  volts.resize(now.size());
  farther.resize(now.size());
  net.look(now, at);
  int bends = 0;
  iterations = 0;
  enough = is_enough && is_enough(now, missing());
  if (enough) return true;
  double moved_before = std::numeric_limits<double>::infinity();
  for (iterations = 1; iterations <= most_iterations; ++iterations) {
    net.newton_step(at, step);
    const double slope = slope_along(step, at);   // downhill
    if (!std::isfinite(slope)) break;
    double share = 1;
    move(now, step, share, volts);
    net.look(volts, next);
    const double rounding = 1e-13 * (1 + std::abs(at.content));
    bool bent = false;
    if (bends < most_bends && !(next.content <= at.content + 1e-4 * slope + rounding)) {
      if (const double bend = net.first_bend(now, step); bend < 1) {
        move(now, step, bend, volts);
        net.look(volts, next);
        bent = next.content <= at.content + rounding;
        if (bent) share = bend;
        ++bends;
      }
    }
    for (int i = 0; i < most_halvings && !bent && !(next.content <= at.content + 1e-4 * share * slope + rounding); ++i) {
      share /= 2;
      move(now, step, share, volts);
      net.look(volts, next);
    }
    if (!std::isfinite(next.content)) break;
    const double moved_by = largest(step);
    // A filament near 0 V throws the step over to the other side, again and again: the secant finds the floor.
    if (const double beyond_slope = slope_along(step, next); !bent && moved_by > slow_step && beyond_slope > -overshot_share * slope) {
      const double floor = share * std::max(least_secant, slope / (slope - beyond_slope));
      move(now, step, floor, farther);
      net.look(farther, beyond);
      if (beyond.content < next.content) {
        share = floor;
        std::swap(volts, farther);
        std::swap(next, beyond);
      }
    }
    // A junction that must stop conducting goes down by one thermal voltage a step: steps that hardly shrink are
    // doubled as long as the content falls.
    if (share == 1 && moved_by > slow_step && moved_by > slow_share * moved_before)
      for (int i = 0; i < most_doublings; ++i) {
        move(now, step, 2 * share, farther);
        net.look(farther, beyond);
        if (!(beyond.content < next.content)) break;
        share *= 2;
        std::swap(volts, farther);
        std::swap(next, beyond);
      }
    std::swap(now, volts);
    std::swap(at, next);
    if (is_enough) {
      enough = is_enough(now, missing());
      if (enough) return true;
    }
    if (share == 1 && (moved_by <= near_enough || (settled(moved_by, moved_before) && net.balanced(now, at)))) return true;
    moved_before = moved_by;
  }
  return false;
}

}  // namespace

// The order of elimination depends on which points are joined only: it is kept for the next network of that shape.
// Faults and scenes of one circuit have few shapes. A memory, not a state: no answer depends on it.
std::shared_ptr<const Mesh> mesh_of(const Network& net) {
  using Shape = std::pair<int, std::vector<std::pair<int, int>>>;
  constexpr size_t most_shapes = 256;
  thread_local std::map<Shape, std::shared_ptr<const Mesh>> known;
  Shape shape{net.points, {}};
  for (const Branch& b : net.branches)
    if (b.a >= 0 && b.b >= 0) shape.second.push_back({b.a, b.b});
  const auto found = known.find(shape);
  if (found != known.end()) return found->second;
  if (known.size() >= most_shapes) known.clear();
  auto mesh = std::make_shared<const Mesh>(shape.first, shape.second);
  return known.emplace(std::move(shape), std::move(mesh)).first->second;
}

Operating find_operating_point(const Network& net, const std::vector<double>& start) { return find_operating_point(net, *mesh_of(net), start); }

Operating find_operating_point(const Network& net, const Mesh& mesh, const std::vector<double>& start) {
  thread_local Search<long double> search;
  Operating out;
  search.net.set(net, mesh);
  out.converged = search.run(start, 0, {});
  out.iterations = search.iterations;
  out.volts.assign(search.now.begin(), search.now.end() - 1);
  out.amps = search.net.amps(out.volts);
  return out;
}

const std::vector<double>& find_nearly(const NetworkSetter& set, const std::vector<double>& start, double near_enough, const Enough& is_enough, Nearly& says) {
  thread_local Search<double> search;
  set(search.net);
  says.converged = search.run(start, near_enough, is_enough);
  says.enough = search.enough;
  return search.now;
}

}  // namespace towloom
