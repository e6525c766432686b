// Rules about places: how far a fuse sits from its source, and runs that no wire takes.
#include <algorithm>
#include <cmath>
#include <queue>

#include "check/rules.hpp"
#include "size/parts.hpp"

namespace towloom {
namespace {

// More resistance than this is a load, behind which a short draws little (14 V / 1 ohm, common practice, no source).
constexpr double least_load_ohm = 1;

struct Reach {                   // how far a point lies from the battery along fitted wire without a fuse
  double metres = 0;
  bool covered = true;           // all of it in a sheath
  int wire = -1;                 // the last one
  bool operator>(const Reach& o) const { return metres > o.metres; }
};

bool covered(const Wire& wire, const Spec& spec) {
  return !wire.runs.empty() && std::all_of(wire.runs.begin(), wire.runs.end(), [&](const std::string& name) {
    return std::any_of(spec.runs.begin(), spec.runs.end(), [&](const RunRow& r) { return r.name.value == name && !r.cover.empty(); });
  });
}

// Along fitted wires from the battery, nearest first, through all that passes a fault current but fuses.
std::vector<std::optional<Reach>> without_fuse(const Asked& q, const Points& points) {
  const Circuit& c = q.circuit();
  std::vector<std::optional<Reach>> out(static_cast<std::size_t>(points.count));
  const PartId battery = c.find("BAT");
  if (!battery) return out;
  using Open = std::pair<Reach, int>;
  const auto later = [](const Open& a, const Open& b) { return a.first > b.first; };
  std::priority_queue<Open, std::vector<Open>, decltype(later)> open(later);
  open.push({{}, points.at({battery, 0})});
  while (!open.empty()) {
    const auto [reach, at] = open.top();
    open.pop();
    if (out[static_cast<std::size_t>(at)]) continue;
    out[static_cast<std::size_t>(at)] = reach;
    for (std::size_t w = 0; w < c.wires.size(); ++w) {
      const Wire& wire = c.wires[w];
      const int from = points.at(wire.from), to = points.at(wire.to);
      if (wire.status != Status::fitted || (from != at && to != at)) continue;
      open.push({{reach.metres + wire.length_m, reach.covered && covered(wire, q.spec), static_cast<int>(w)}, from == at ? to : from});
    }
    for (std::size_t p = 0; p < c.parts.size(); ++p) {
      const Part& part = c.parts[p];
      if (at < points.first[p] || at >= points.first[p] + static_cast<int>(part.terminals.size()) + part.inner_points) continue;
      if (fuse_rating(part) || part.status == Status::factory || part.kind == "stud" || part.kind == "lamp" || part.kind == "load") continue;
      for (const Element& e : part.elements) {
        const int a = points.first[p] + e.a, b = points.first[p] + e.b;
        if (e.law != Law::diode && (e.law != Law::resistor || e.ohm > least_load_ohm)) continue;
        if (a == at) open.push({reach, b});
        if (b == at && e.law != Law::diode) open.push({reach, a});
      }
    }
  }
  return out;
}

double limit_of(const Asked& q, bool in_sheath) { return q.catalogue.rule(in_sheath ? "fuse_place_covered_m" : "fuse_place_m").value; }

std::string limit_text(const Asked& q, bool in_sheath) {
  return format_fixed(100 * limit_of(q, in_sheath), 0) + " cm" + (in_sheath ? " in a sheath" : "") + " (" +
         q.catalogue.rule(in_sheath ? "fuse_place_covered_m" : "fuse_place_m").provenance.source + ")";
}

}  // namespace

void fuse_far(const Asked& q, const RuleRow& row, Findings& out) {
  const Points points = number_points(q.circuit());
  const auto reached = without_fuse(q, points);
  const Reach* first = nullptr;
  for (const auto& r : reached)
    if (r && r->wire >= 0 && r->metres > limit_of(q, r->covered) + 1e-9 && (first == nullptr || r->metres < first->metres)) first = &*r;
  if (first == nullptr) return;
  const Wire& wire = q.circuit().wires[static_cast<std::size_t>(first->wire)];
  add(out, row, wire.origin.job,
      format_fixed(first->metres, 2) + " m of wire from the battery to the end of " + wire.id + " have no fuse; it should sit within " + limit_text(q, first->covered),
      "fit the fuse at the battery", {wire.id});
}

void coach_fuse_far(const Asked& q, const RuleRow& row, Findings& out) {
  for (const FoundContact& f : q.spec.coach.found)
    if (f.fuse_at_m && f.fuse_at_m->value > limit_of(q, f.fuse_covered) + 1e-9)
      add(out, row, f.fuse_at_m->place,
          "the coach's fuse of contact " + f.contact.value + " sits " + format_fixed(f.fuse_at_m->value, 2) + " m from its source; it should sit within " +
              limit_text(q, f.fuse_covered),
          "move it towards the source, or fit one there");
}

void run_unused(const Asked& q, const RuleRow& row, Findings& out) {
  for (const RunRow& run : q.spec.runs) {
    const bool taken = std::any_of(q.circuit().wires.begin(), q.circuit().wires.end(), [&](const Wire& w) {
      return std::find(w.runs.begin(), w.runs.end(), run.name.value) != w.runs.end();
    });
    if (!taken)
      add(out, row, run.name.place, "no wire lies in run '" + run.name.value + "', from " + run.from.value + " to " + run.to.value,
          "compare the names of its ends with those of the other runs, or take the run out");
  }
}

}  // namespace towloom
