// Rules about fuses: large enough for the load, small enough for the wire, quick enough in a short.
#include <algorithm>
#include <cmath>

#include "check/rules.hpp"
#include "size/parts.hpp"

namespace towloom {
namespace {

std::string memory_note(const Provenance& p) { return p.weak() ? " (from memory)" : ""; }

// What the wire of a size group bears where it is most crowded; 0 when it is not sized here.
double bears(const Asked& q, WireId wire) {
  for (const SizeChoice& c : q.sized.why)
    if (std::find(c.wires.begin(), c.wires.end(), wire) != c.wires.end()) return c.bears_a > 0 ? c.bears_a : c.ampacity_a;
  return 0;
}

// Everything that can be live at once: the cord in, every coach signal steady, the ignition on.
Scene all_live(const Circuit& circuit) {
  Scene out;
  out.signals = {{"coupled", Wave::on}};
  for (const std::string& signal : circuit.signals)
    if (signal.rfind("coach.", 0) == 0 || signal.rfind("car.ignition", 0) == 0) out.signals[signal] = Wave::on;
  return out;
}

double through(const Circuit& circuit, const Solved& solved, PartId fuse) {
  double most = 0;
  for (int p = 0; p < solved.phases; ++p)
    for (std::size_t e = 0; e < circuit.part(fuse).elements.size(); ++e)
      most = std::max(most, std::fabs(solved.phase[static_cast<std::size_t>(p)].element_a[static_cast<std::size_t>(fuse.v)][e]));
  return most;
}

// The short circuit that draws least of those a fuse must clear.
struct Weakest {
  std::string wire;
  double amps = 0;
};

void say_slow(const Asked& q, const RuleRow& row, Findings& out, const Weakest& least, double rating, const std::string& fuse, Place place) {
  const Rule& opens = q.catalogue.rule("fuse_opens");
  if (least.wire.empty() || least.amps >= opens.value * rating) return;
  add(out, row, place,
      "a short at the end of " + least.wire + " draws " + format_fixed(least.amps, 0) + " A: too little for " + fuse + " to open within 5 s, which needs " +
          format_fixed(opens.value * rating, 0) + " A" + (opens.provenance.weak() ? " (opening current from memory)" : ""),
      "fit a smaller fuse, or thicker wire", {least.wire});
}

}  // namespace

// A fuse protects the wire behind it only if it opens first; an unknown one is said to be unknown.
void fuse_over(const Asked& q, const RuleRow& row, Findings& out) {
  for (const SizeChoice& c : q.sized.why)
    if (c.fuse_a > c.bears_a + 1e-6)
      add(out, row, c.fuse_place, c.fuse + " does not protect the " + c.size.text() + " of '" + c.group + "', good for " +
                                      format_fixed(c.bears_a, 1) + " A here",
          "fit a smaller fuse at the source or a thicker wire");
}

void fuse_unknown(const Asked& q, const RuleRow& row, Findings& out) {
  const bool any = std::any_of(q.spec.coach.found.begin(), q.spec.coach.found.end(),
                               [](const FoundContact& f) { return f.fuse_a.has_value(); });
  double least = 0;
  for (const SizeChoice& c : q.sized.why)
    if (c.ampacity_a > 0 && (least == 0 || c.ampacity_a < least)) least = c.ampacity_a;
  if (!any && least > 0)
    add(out, row, q.spec.coach.outlet.form.place, "no fuse of the coach's outlet is stated",
        "find it within " + format_fixed(100 * q.catalogue.rule("fuse_place_m").value, 0) + " cm of the source along the wire (" +
            format_fixed(100 * q.catalogue.rule("fuse_place_covered_m").value, 0) + " cm in a sheath); it must not exceed " +
            format_fixed(std::floor(least), 0) + " A for these wires");
  if (!any) return;
  // A supply is live whatever the driver does: the other end of a charge line is no excuse.
  for (const Part& part : q.circuit().parts) {
    const auto tow = q.catalogue.tow_signals.find(part.function);
    if (part.kind != "contact" || part.zone != Zone::coach || tow == q.catalogue.tow_signals.end() || tow->second.kind != "supply") continue;
    const auto found = std::find_if(q.spec.coach.found.begin(), q.spec.coach.found.end(),
                                    [&](const FoundContact& f) { return f.does && f.does->value == part.function; });
    if (found == q.spec.coach.found.end() || !found->fuse_a)
      add(out, row, found == q.spec.coach.found.end() ? q.spec.coach.outlet.form.place : found->contact.place,
          "no fuse is stated for the coach's " + part.function + " contact", "two live batteries want a fuse at both ends: find it at the coach's source");
  }
}

// A wire shorted to body at its far end must draw the fuse's opening current, or it stays hot.
void fuse_slow(const Asked& q, const RuleRow& row, Findings& out) {
  const Circuit& circuit = q.circuit();
  const std::vector<Protection> protection = find_protection(circuit, q.spec);
  const Scene live = all_live(circuit);
  std::map<std::string, Weakest> coach;     // by signal
  std::map<int, Weakest> fitted;            // by fuse
  for (const Fault& fault : list_faults(circuit, q.catalogue)) {
    if (fault.kind != "wire-to-body") continue;
    const auto wire = std::find_if(circuit.wires.begin(), circuit.wires.end(), [&](const Wire& w) { return w.id == fault.at; });
    if (wire == circuit.wires.end() || wire->status == Status::factory) continue;
    const std::size_t index = static_cast<std::size_t>(wire - circuit.wires.begin());
    const auto keep = [&](Weakest& least, double amps) {
      if (amps > bears(q, {static_cast<int>(index)}) && (least.wire.empty() || amps < least.amps)) least = {fault.at, amps};
    };
    const bool stated = std::any_of(q.spec.coach.found.begin(), q.spec.coach.found.end(),
                                    [&](const FoundContact& f) { return f.fuse_a && f.does && f.does->value == wire->circuit; });
    if (stated) keep(coach[wire->circuit], shorted_amps(circuit, q.catalogue, fault, wire->circuit));
    const PartId fuse = circuit.find(protection[index].fuse.substr(0, protection[index].fuse.find(',')));
    if (!fuse || circuit.part(fuse).status == Status::factory) continue;
    const Solved solved = solve(with_fault(circuit, fault, q.catalogue), q.catalogue, live);
    if (solved.converged()) keep(fitted[fuse.v], through(circuit, solved, fuse));
  }
  for (const FoundContact& f : q.spec.coach.found)
    if (f.fuse_a && f.does)
      say_slow(q, row, out, coach[f.does->value], f.fuse_a->value, "the coach's " + format_plain(f.fuse_a->value) + " A fuse", f.fuse_a->place);
  for (const auto& [fuse, least] : fitted) {
    const Part& part = circuit.part({fuse});
    if (const auto rating = fuse_rating(part)) say_slow(q, row, out, least, *rating, part.id + ", " + part.value + ",", part.origin.job);
  }
}

// Continuous load at most 80 % of the rating; what flashes warms a fuse half the time only.
void fuse_small(const Asked& q, const RuleRow& row, Findings& out) {
  const Rule& margin = q.catalogue.rule("fuse_margin");
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    const Part& part = q.circuit().parts[p];
    const auto rating = fuse_rating(part);
    if (!rating || part.status == Status::factory) continue;
    double worst = 0;
    std::size_t at = 0;
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      const Solved& solved = q.states.solved[s];
      double square = 0;
      for (int f = 0; f < solved.phases; ++f)
        for (const double a : solved.phase[static_cast<std::size_t>(f)].element_a[p]) square += a * a * solved.weight(f);
      if (std::sqrt(square) <= worst) continue;
      worst = std::sqrt(square);
      at = s;
    }
    if (worst <= margin.value * *rating) continue;
    add(out, row, part.origin.job,
        part.id + ", " + part.value + ", carries " + format_fixed(worst, 1) + " A in scene '" + q.states.scenes[at].name + "', more than " +
            format_fixed(100 * margin.value, 0) + " % of its rating" + memory_note(margin.provenance),
        "fit one of " + format_plain(next_fuse(q.catalogue, worst / margin.value)) + " A, if its wires bear that", {part.id});
  }
}

}  // namespace towloom
