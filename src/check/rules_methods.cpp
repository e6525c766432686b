// Rules about the choice of a method.
#include <algorithm>
#include <cmath>
#include <set>

#include "check/rules.hpp"
#include "check/suit.hpp"

namespace towloom {
namespace {

// Calls `say` once for each reason that a row of this verdict gives: for each towed lamp of its method, for the converter.
template <class Say>
void each_reason(const Asked& q, const std::string& verdict, const Say& say) {
  std::set<std::string> said;
  const auto ask = [&](const PlacedText& name, const LampRow& lamp) {
    const auto method = q.catalogue.methods.find(name.value);
    if (method == q.catalogue.methods.end()) return;
    for (const SuitRow* suit : find_suits(method->second, q.spec, lamp, q.catalogue))
      if (suit->verdict == verdict && said.insert(name.value + suit->why).second) say(name.place, method->second, *suit);
  };
  for (const LampIntent& lamp : q.circuit().lamps) {
    const auto row = std::find_if(q.spec.car.lamps.begin(), q.spec.car.lamps.end(),
                                  [&](const LampRow& r) { return r.place == q.circuit().part(lamp.lamp).origin.job; });
    if (lamp.tow_signal.empty() || row == q.spec.car.lamps.end()) continue;
    const auto own = q.spec.isolation.by_function.find(lamp.car_function);
    ask(own != q.spec.isolation.by_function.end() ? own->second : q.spec.isolation.method, *row);
    if (q.spec.isolation.converter) ask(*q.spec.isolation.converter, *row);
  }
}

bool has_extra(const Asked& q, const std::string& name) {
  return std::any_of(q.spec.extras.begin(), q.spec.extras.end(), [&](const ExtraRow& e) { return e.name.value == name; });
}

}  // namespace

namespace {

// A rule of thumb never overrules the solution: what is solved is said beside it.
bool solved_clean(const Asked& q) {
  for (std::size_t s = 0; s < q.states.scenes.size(); ++s)
    for (std::size_t l = 0; l < q.states.required[s].size(); ++l)
      if (q.states.required[s][l] != Seen::may && q.states.required[s][l] != q.states.lamps[s][l].seen) return false;
  const double limit = q.catalogue.rule("backfeed_limit_v").value;
  return std::all_of(q.states.backfeed.begin(), q.states.backfeed.end(), [&](const States::Backfeed& b) { return std::fabs(b.loaded_v) <= limit; });
}

}  // namespace

void method_unsuited(const Asked& q, const RuleRow& row, Findings& out) {
  const char* solved = solved_clean(q) ? "; solved, this circuit shows no wrong lamp and no back-feed: the survey may miss what else hangs there" : "";
  each_reason(q, "unsuited", [&](Place place, const Method& method, const SuitRow& suit) {
    add(out, row, place, method.title + ": " + suit.why + solved, "choose another method; towloom advise ranks them");
  });
}

void extra_missing(const Asked& q, const RuleRow& row, Findings& out) {
  each_reason(q, "with-extra", [&](Place place, const Method& method, const SuitRow& suit) {
    if (!has_extra(q, suit.extra)) add(out, row, place, method.title + ": " + suit.why, "add: " + suit.extra);
  });
}

void method_doubtful(const Asked& q, const RuleRow& row, Findings& out) {
  each_reason(q, "doubtful", [&](Place place, const Method& method, const SuitRow& suit) {
    if (suit.extra.empty() || !has_extra(q, suit.extra))
      add(out, row, place, method.title + ": " + suit.why, suit.extra.empty() ? "prove it at the car; towloom advise ranks the others" : "prove it at the car; it may want: " + suit.extra);
  });
}

}  // namespace towloom
