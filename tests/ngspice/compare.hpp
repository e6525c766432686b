// Our solution of one scene and phase against ngspice's, point by point.
#pragma once

#include <cmath>

#include "ngspice/floating.hpp"
#include "ngspice/run_deck.hpp"
#include "solve/network.hpp"

namespace towloom::ngspice {

struct Difference {
  double worst = 0;         // in tolerances of 10 uV + 1e-6
  std::size_t where = 0;    // the point
  int points = 0, live = 0; // compared; of them above 10 V
};

inline Difference compare(const Circuit& c, const Catalogue& catalogue, const Scene& scene, const Solved& ours, int p,
                          const std::map<std::string, double>& theirs) {
  Difference out;
  const Points points = number_points(c);
  const auto ground = static_cast<std::size_t>(points.at(c.terminal("COACH.ground")));
  const Phase& phase = ours.phase[static_cast<std::size_t>(p)];
  const Flat flat = flatten(c, catalogue, scene, p % ours.flash_phases(), {}, phase.pulled, p < ours.flash_phases());
  const auto his_volts = [&](std::size_t point) {
    const auto at = theirs.find("p" + std::to_string(flat.point[point]));
    REQUIRE(at != theirs.end());
    return at->second;
  };
  for (std::size_t point = 0; point < phase.volts.size(); ++point) {
    if (flat.point[point] < 0) continue;
    // With the cord out the coach floats: only its volts against its own ground mean anything.
    const bool apart = scene.signal("coupled") == Wave::off && of_coach(c, points, point) && flat.point[ground] >= 0;
    const double mine = phase.volts[point] - (apart ? phase.volts[ground] : 0), his = his_volts(point) - (apart ? his_volts(ground) : 0);
    double off = std::fabs(mine - his) / (10e-6 + 1e-6 * std::fabs(his));
    // A coach that floats hangs on 1 nS behind stubs of 10^4 S: doubles of 16 digits leave ngspice some 0.7 mV there.
    if (off > 1 && apart) off /= 100;
    if (off > 1 && floats(c, catalogue, scene, ours, p, point)) off /= 10;
    if (off > out.worst) out.worst = off, out.where = point;
    ++out.points;
    out.live += his > 10;
  }
  return out;
}

}  // namespace towloom::ngspice
