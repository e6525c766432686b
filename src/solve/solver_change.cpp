// A solver of a circuit with something changed: branches are patched, nothing else is worked out again.
#include <algorithm>

#include "solve/change.hpp"
#include "solve/solver.hpp"

namespace towloom {
using std::size_t;

struct Solver::Apply {
  Solver& s;
  bool reshaped = false;       // a branch has other ends, or is a new one
  std::vector<std::pair<TerminalRef, TerminalRef>> ends;   // by wire: they may change places more than once

  explicit Apply(Solver& solver) : s(solver) {
    for (const Wire& w : s.circuit_.wires) ends.emplace_back(w.from, w.to);
  }
  Branch& touch(int branch) const {
    if (std::find(s.changed_.begin(), s.changed_.end(), branch) == s.changed_.end()) s.changed_.push_back(branch);
    return s.all_.branches[static_cast<size_t>(branch)];
  }
  void becomes(PartId part, int element, const Element& e) {
    const int branch = s.branch(part, element);
    Slot& slot = s.slots_[static_cast<size_t>(branch)];
    Branch& b = touch(branch);
    slot.a = s.node({part, e.a});
    slot.b = s.node({part, e.b});
    reshaped = reshaped || slot.a != b.a || slot.b != b.b;
    b.a = slot.a;
    b.b = slot.b;
    slot.gate = e.gate;
    slot.pulsed = e.duty < 1;
    slot.power = e.law == Law::power;
    slot.curve = make_curve(e);
    s.becomes_[branch] = e;
  }
  void operator()(const WireInSeries& x) const {
    Branch& b = touch(s.branch(x.wire));
    b.curve = make_resistor(1 / b.curve.siemens + x.ohm);
  }
  template <OfElement What>
  void operator()(const What& x) {
    becomes(x.part, x.element, after(x, s.element(s.branch(x.part, x.element))));
  }
  void operator()(const LeadsExchanged& x) {
    for (size_t w = 0; w < ends.size(); ++w) {
      const auto before = ends[w];
      for (TerminalRef* end : {&ends[w].first, &ends[w].second}) *end = after(x, *end);
      if (ends[w] == before) continue;
      reshaped = true;
      Branch& b = touch(s.branch(WireId{static_cast<int>(w)}));
      b.a = s.node(ends[w].first);
      b.b = s.node(ends[w].second);
    }
  }
  void operator()(const Bridge& x) {
    reshaped = true;
    s.all_.branches.push_back({s.node(x.a), s.node(x.b), make_resistor(x.ohm)});
  }
  void operator()(const ModeForced&) const {}
};

Solver::Solver(const Solver& sound, const std::vector<Change>& changes, const Circuit* devices) : Solver(sound) {
  devices_of_ = devices;
  Apply apply(*this);
  for (const Change& change : changes) std::visit(apply, change);
  if (!apply.reshaped) return;   // the order of elimination stays
  mesh_ = nullptr;
  reduction_ = nullptr;
}

int Solver::branch(PartId part, int element) const { return first_slot_[static_cast<size_t>(part.v)] + element; }

const Element& Solver::element(int branch) const {
  if (const auto found = becomes_.find(branch); found != becomes_.end()) return found->second;
  const Slot& s = slots_[static_cast<size_t>(branch)];
  return circuit_.parts[static_cast<size_t>(s.part)].elements[static_cast<size_t>(s.element)];
}

bool Solver::has_pulses() const {
  return std::any_of(slots_.begin(), slots_.end(), [](const Slot& s) { return s.pulsed; });
}

}  // namespace towloom
