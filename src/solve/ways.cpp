#include "solve/ways.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>

namespace towloom {
namespace {

using std::size_t;

constexpr double endless = std::numeric_limits<double>::infinity();
constexpr double highest_v = 50;         // across a filament
constexpr double open_siemens = 2e-12;   // a break

double across(const Branch& b, const std::vector<double>& volts) {
  return (b.a < 0 ? 0.0 : volts[static_cast<size_t>(b.a)]) - (b.b < 0 ? 0.0 : volts[static_cast<size_t>(b.b)]);
}

bool is_joined(const Branch& b) { return b.curve.law != Law::resistor || b.curve.siemens > open_siemens; }

bool drives(const Curve& c) {
  return c.law == Law::source || (c.law == Law::limited && c.volts != 0 && (c.least_a > 0 || c.volts < 0));
}

// What amps astray in it make of its volts, at most, ohm.
double ohm_of_way(const Branch& b, const std::vector<double>& volts) {
  const Curve& c = b.curve;
  switch (c.law) {
    case Law::resistor:
    case Law::source: return c.siemens > open_siemens ? 1 / c.siemens : endless;
    case Law::filament: return 1 / respond(c, highest_v).siemens;   // its slope falls with the volts
    case Law::limited: return is_within_bounds(b, c, volts, 0) ? 1 / c.siemens : endless;
    default: return endless;
  }
}

std::vector<char> find_adrift(const Network& net) {
  const auto n = static_cast<size_t>(net.points);
  std::vector<size_t> group(n + 1);   // the last: body
  for (size_t p = 0; p <= n; ++p) group[p] = p;
  const auto find = [&](size_t p) {
    while (group[p] != p) p = group[p] = group[group[p]];
    return p;
  };
  const auto place = [&](int point) { return point < 0 ? n : static_cast<size_t>(point); };
  for (const Branch& b : net.branches)
    if (is_joined(b)) group[find(place(b.a))] = find(place(b.b));
  std::vector<char> held(n + 1, 0);
  held[find(n)] = 1;
  for (const Branch& b : net.branches)
    if (is_joined(b) && drives(b.curve)) held[find(place(b.a))] = 1;
  std::vector<char> out(n, 0);
  for (size_t p = 0; p < n; ++p) out[p] = held[find(p)] == 0;
  return out;
}

}  // namespace

bool is_within_bounds(const Branch& ends, const Curve& c, const std::vector<double>& volts, double amps) {
  const double now = c.siemens * (across(ends, volts) - c.volts);
  return now > amps - c.least_a && now < c.amps - amps;
}

Ways find_ways(const Network& net, const std::vector<VoltsWatch>& supplies, const std::vector<double>& volts) {
  const auto n = static_cast<size_t>(net.points);
  const auto place = [&](int point) { return point < 0 ? n : static_cast<size_t>(point); };
  Ways out;
  out.branches.assign(net.branches.size(), 0);
  if (supplies.empty()) return out;
  out.adrift = find_adrift(net);
  std::vector<double> ohm_of(net.branches.size());
  std::vector<std::vector<size_t>> at(n + 1);   // branches
  for (size_t b = 0; b < net.branches.size(); ++b) {
    ohm_of[b] = ohm_of_way(net.branches[b], volts);
    if (ohm_of[b] == endless) continue;
    at[place(net.branches[b].a)].push_back(b);
    at[place(net.branches[b].b)].push_back(b);
  }
  std::vector<double> ohms(n + 1, endless);
  std::vector<size_t> by(n + 1, 0);             // the branch towards body
  std::priority_queue<std::pair<double, size_t>, std::vector<std::pair<double, size_t>>, std::greater<>> queue;
  ohms[n] = 0;
  queue.push({0, n});
  while (!queue.empty()) {
    const auto [ohm, from] = queue.top();
    queue.pop();
    if (ohm > ohms[from]) continue;
    for (const size_t b : at[from]) {
      const Branch& branch = net.branches[b];
      const size_t to = place(branch.a) == from ? place(branch.b) : place(branch.a);
      const double there = ohm + ohm_of[b];
      if (there >= ohms[to]) continue;
      ohms[to] = there;
      by[to] = b;
      queue.push({there, to});
    }
  }
  for (const VoltsWatch& w : supplies) {
    double ohm = 0;
    char island = 0;
    for (size_t p : {place(w.plus), place(w.minus)}) {
      if (p != n && out.adrift[p] != 0) {
        island = 1;
        continue;
      }
      ohm += ohms[p];
      while (p != n && ohms[p] < endless) {
        if (out.branches[by[p]] == 0 && net.branches[by[p]].curve.law == Law::limited) out.limited.push_back(by[p]);
        out.branches[by[p]] = 1;
        const Branch& branch = net.branches[by[p]];
        p = place(branch.a) == p ? place(branch.b) : place(branch.a);
      }
    }
    out.ohms.push_back(ohm);
    out.islands.push_back(island);
  }
  return out;
}

}  // namespace towloom
