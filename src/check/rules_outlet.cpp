// Rules about what the coach's outlet is asked to give, and about the sensor of the car's battery.
#include <algorithm>
#include <cmath>

#include "check/readings.hpp"

namespace towloom {

void outlet_overloaded(const Asked& q, const RuleRow& row, Findings& out) {
  if (!q.spec.coach.limit_a) return;
  const double limit = q.spec.coach.limit_a->value;
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    const Part& part = q.circuit().parts[p];
    const auto tow = q.catalogue.tow_signals.find(part.function);
    if (part.kind != "contact" || part.zone != Zone::inlet || tow == q.catalogue.tow_signals.end() || tow->second.kind != "lamp") continue;
    double most = 0;
    std::string scene;
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      if (!on_the_road(q.states.scenes[s])) continue;
      const Span amps = amps_of(q.states.solved[s], {static_cast<int>(p)}, 0);
      const double here = std::max(std::fabs(amps.least), std::fabs(amps.most));
      if (here <= most) continue;
      most = here;
      scene = q.states.scenes[s].name;
    }
    if (most > limit)
      add(out, row, q.spec.coach.limit_a->place,
          "contact " + part.id + ", " + part.function + ", gives the car " + format_fixed(most, 2) + " A in scene '" + scene + "'; the coach's outlet bears " + format_fixed(limit, 1) + " A",
          "LED lamps of their own, relays fed from the battery, or a powered module", {part.id});
  }
}

void sensor_bypassed(const Asked& q, const RuleRow& row, Findings& out) {
  if (!q.spec.car.battery_sensor) return;
  const TerminalRef post = q.circuit().terminal("BAT.-");
  for (const Wire& w : q.circuit().wires) {
    if (w.status != Status::fitted || w.circuit != "battery-negative" || (w.from != post && w.to != post)) continue;
    const Part& end = q.circuit().part(w.from == post ? w.to.part : w.from.part);
    add(out, row, w.origin.job, w.id + " returns " + end.id + " to the battery's negative post, past the sensor on it",
        "land it on the body, if the battery's negative is not opened in tow", {w.id});
  }
}

}  // namespace towloom
