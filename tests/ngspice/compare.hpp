// Our solution of one scene and phase against ngspice's, point by point.
#pragma once

#include <cmath>

#include "ngspice/carried_on.hpp"
#include "ngspice/run_deck.hpp"
#include "solve/network.hpp"

namespace towloom::ngspice {

struct Difference {
  double worst = 0;         // in tolerances of 10 uV + 1e-6
  std::size_t where = 0;    // the point
  int points = 0, live = 0; // compared; of them above 10 V
};

struct Tally {
  int networks = 0, carried_on = 0, points = 0, live = 0;
  double moved = 0;         // V, the most that one of those moved
};

inline Difference compare(const Circuit& c, const Catalogue& catalogue, const Scene& scene, const Solved& ours, int p,
                          const std::map<std::string, double>& theirs) {
  Difference out;
  const Phase& phase = ours.phase[static_cast<std::size_t>(p)];
  const Flat flat = flatten(c, catalogue, scene, p % ours.flash_phases(), {}, phase.pulled, p < ours.flash_phases());
  const auto his_volts = [&](std::size_t point) {
    const auto at = theirs.find("p" + std::to_string(flat.point[point]));
    REQUIRE(at != theirs.end());
    return at->second;
  };
  for (std::size_t point = 0; point < phase.volts.size(); ++point) {
    if (flat.point[point] < 0) continue;
    const double his = his_volts(point), off = std::fabs(phase.volts[point] - his) / (10e-6 + 1e-6 * std::fabs(his));
    if (off > out.worst) out.worst = off, out.where = point;
    ++out.points;
    out.live += his > 10;
  }
  return out;
}

// What doubles leave of a piece on leaks of 1 nS: a last digit of some 1e-11 A, at 1e-9 S. Volts.
constexpr double most_noise_v = 0.02;

// Where ngspice's doubles do not hold a loose piece, its answer is carried on to 30 digits first; that this is the same
// operating point is checked as well.
inline void check_against(const std::string& deck, const std::map<std::string, double>& theirs, const Circuit& c, const Catalogue& catalogue,
                          const Scene& scene, const Solved& ours, int p, Tally& tally) {
  Difference d = compare(c, catalogue, scene, ours, p, theirs);
  if (d.worst > 1) {
    const CarriedOn further = carry_on(deck, theirs);
    tally.moved = std::max(tally.moved, further.moved);
    CHECK(further.moved <= most_noise_v);
    d = compare(c, catalogue, scene, ours, p, further.volts);
    ++tally.carried_on;
  }
  CAPTURE(d.where);
  CHECK(d.worst <= 1);
  ++tally.networks;
  tally.points += d.points;
  tally.live += d.live;
}

}  // namespace towloom::ngspice
