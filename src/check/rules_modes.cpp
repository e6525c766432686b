// Rules about relays and modules.
#include "check/rules.hpp"

namespace towloom {

// Relays and modules that find no rest, or that rest where the scene before left them.
void chatter(const Asked& q, const RuleRow& row, Findings& out) {
  for (std::size_t s = 0; s < q.states.solved.size(); ++s) {
    std::string names;
    std::vector<std::string> about;
    for (const PartId id : q.states.solved[s].chatter) {
      names += (names.empty() ? "" : ", ") + q.circuit().part(id).id;
      about.push_back(q.circuit().part(id).id);
    }
    if (names.empty()) continue;
    add(out, row, q.circuit().part(q.states.solved[s].chatter[0]).origin.job,
        names + " never comes to rest in scene '" + q.states.scenes[s].name + "'",
        "something feeds its own coil or input through its own contact: break that loop", std::move(about));
  }
}

void depends_on_before(const Asked& q, const RuleRow& row, Findings& out) {
  for (std::size_t s = 0; s < q.states.solved.size(); ++s) {
    if (!q.states.solved[s].depends_on_before) continue;
    add(out, row, q.spec.isolation.place, "scene '" + q.states.scenes[s].name + "' can end in two ways: a relay may stay as it was",
        "look whether a relay can hold itself, for one through a charge line without a blocking part");
  }
}

}  // namespace towloom
