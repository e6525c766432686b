// Rules about heat in parts.
#include <algorithm>
#include <cmath>

#include "check/heat.hpp"
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

}  // namespace towloom
