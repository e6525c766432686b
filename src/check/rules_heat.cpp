// Rules about heat in parts.
#include <algorithm>
#include <cmath>

#include "check/heat.hpp"
#include "check/readings.hpp"
#include "check/rules.hpp"
#include "size/parts.hpp"

namespace towloom {
namespace {

// The share of the way from ambient to the hottest that a part may use up before it is said (common practice).
constexpr double warm_share = 0.8;

void say_hot(const Asked& q, const RuleRow& row, Findings& out, bool over) {
  const double ambient = ambient_c(q.catalogue, q.spec);
  for (const PartHeat& h : find_heat(q.circuit(), q.catalogue, q.states, mounting_of(q.spec, q.catalogue), ambient)) {
    const bool too_hot = h.celsius > h.hottest_c;
    const bool warm = h.celsius > ambient + warm_share * (h.hottest_c - ambient);
    if (over ? !too_hot : !warm || too_hot) continue;
    const Part& part = q.circuit().part(h.part);
    add(out, row, part.origin.job,
        part.id + " reaches " + format_fixed(h.celsius, 0) + " °C inside " + h.mounting + " at " + format_fixed(h.watts, 1) + " W in scene '" +
            q.states.scenes[static_cast<std::size_t>(h.scene)].name + "'; it bears " + format_fixed(h.hottest_c, 0) + " °C" +
            (h.thermal.weak() ? " (thermal figures from memory)" : ""),
        "bolt it to bare body metal, or choose the low-drop kind", {part.id});
  }
}

}  // namespace

void too_hot(const Asked& q, const RuleRow& row, Findings& out) { say_hot(q, row, out, true); }
void hot(const Asked& q, const RuleRow& row, Findings& out) { say_hot(q, row, out, false); }

void mounting_unknown(const Asked& q, const RuleRow& row, Findings& out) {
  const auto choice = q.spec.isolation.choices.find("mounting");
  if (choice == q.spec.isolation.choices.end()) return;
  if (std::find(mountings().begin(), mountings().end(), choice->second.value) != mountings().end()) return;
  std::string list;
  for (const std::string& m : mountings()) list += (list.empty() ? "" : ", ") + m;
  add(out, row, choice->second.place, "'" + choice->second.value + "' is no mounting", "one of: " + list);
}

// What a hot diode leaks: volts at the other vehicle's wires, and lamps that glow where they must be dark.
void hot_leak(const Asked& q, const RuleRow& row, Findings& out) {
  const double limit = q.catalogue.rule("backfeed_limit_v").value;
  const std::string when = "with diodes at " + format_fixed(q.catalogue.rule("hot_diode_c").value, 0) + " °C ";
  const States::Backfeed* worst = nullptr;
  for (const States::Backfeed& b : q.states.backfeed)
    if (std::fabs(b.loaded_v) <= limit && std::fabs(b.hot_v) > limit && (worst == nullptr || std::fabs(b.hot_v) > std::fabs(worst->hot_v))) worst = &b;
  if (worst != nullptr) {
    const BackfeedProbe& probe = q.circuit().probes[static_cast<std::size_t>(worst->probe)];
    add(out, row, q.circuit().part(probe.at.part).origin.job, when + format_fixed(worst->hot_v, 2) + " V arrive at " + probe.name + " with 1 kohm across",
        "harmless to filaments; where a module listens or LEDs glow, take the silicon kind or add bleed resistors", {q.circuit().part(probe.at.part).id});
  }
  for (std::size_t lamp = 0; lamp < q.circuit().lamps.size(); ++lamp)
    for (std::size_t s = 0; s < q.states.hot.size(); ++s) {
      if (q.states.required[s][lamp] != Seen::dark || q.states.lamps[s][lamp].seen != Seen::dark || q.states.hot[s][lamp] == Seen::dark) continue;
      const Part& part = q.circuit().part(q.circuit().lamps[lamp].lamp);
      add(out, row, part.origin.job, when + lamp_name(part) + " glows in scene '" + q.states.scenes[s].name + "'",
          "add bleed resistors, or take the silicon kind", {part.id});
      break;
    }
}

}  // namespace towloom
