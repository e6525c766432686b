#include "check/rules.hpp"

#include <algorithm>
#include <cmath>

namespace towloom {

void add(Findings& out, const RuleRow& row, Place place, std::string message, std::string action, std::vector<std::string> about) {
  out.push_back({row.id, row.severity, std::move(message), std::move(action), row.reason, place, std::move(about)});
}

namespace {

const Part& lamp_of(const Asked& q, std::size_t lamp) { return q.circuit().part(q.circuit().lamps[lamp].lamp); }

std::string name_of(const Part& lamp) {
  return lamp.group == lamp.function || lamp.group.empty() ? lamp.function : lamp.group + " " + lamp.function;
}

// A lamp that does in any scene what survey and method do not want. One finding a lamp and kind of scene.
void lamp_differs(const Asked& q, const RuleRow& row, Findings& out) {
  for (std::size_t lamp = 0; lamp < q.circuit().lamps.size(); ++lamp) {
    std::string scenes;
    int count = 0;
    std::size_t first = 0;
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      const Seen required = q.states.required[s][lamp], seen = q.states.lamps[s][lamp].seen;
      if (required == Seen::may || required == seen) continue;
      if (count++ == 0) first = s;
      if (count <= 3) scenes += (count > 1 ? "; " : "") + q.states.scenes[s].name;
    }
    if (count == 0) continue;
    if (count > 3) scenes += "; and " + std::to_string(count - 3) + " more";
    const Part& part = lamp_of(q, lamp);
    add(out, row, part.origin.job,
        name_of(part) + " is " + to_text(q.states.lamps[first][lamp].seen) + " where it must be " +
            to_text(q.states.required[first][lamp]) + " in: " + scenes,
        "compare the node, the cut and the method of this lamp with the schematic", {part.id});
  }
}

void not_converged(const Asked& q, const RuleRow& row, Findings& out) {
  for (std::size_t s = 0; s < q.states.scenes.size(); ++s)
    if (!q.states.solved[s].converged())
      add(out, row, q.spec.job.title.place, "no solution was found in scene '" + q.states.scenes[s].name + "'",
          "do not build from this; look for a source or a return that is missing");
}

void back_feed(const Asked& q, const RuleRow& row, Findings& out) {
  const double limit = q.catalogue.rule("backfeed_limit_v").value;
  for (std::size_t p = 0; p < q.circuit().probes.size(); ++p) {
    const States::Backfeed* worst = nullptr;
    for (const States::Backfeed& b : q.states.backfeed)
      if (b.probe == static_cast<int>(p) && (worst == nullptr || std::fabs(b.loaded_v) > std::fabs(worst->loaded_v))) worst = &b;
    if (worst == nullptr || std::fabs(worst->loaded_v) <= limit) continue;
    const BackfeedProbe& probe = q.circuit().probes[p];
    const bool coach = probe.towards == BackfeedProbe::Towards::coach;
    add(out, row, q.circuit().part(probe.at.part).origin.job,
        std::string(coach ? "the car feeds the coach" : "the coach feeds the car") + " at " + probe.name + ": " +
            format_fixed(worst->loaded_v, 2) + " V with 1 kohm across",
        "an isolating part is missing, reversed or shorted on this wire", {q.circuit().part(probe.at.part).id});
  }
}

// Lit filaments below the accepted volts, in the worst towing scene.
void low_volts(const Asked& q, const RuleRow& row, Findings& out) {
  const double low = q.catalogue.rule("filament_low_v").value;
  for (std::size_t lamp = 0; lamp < q.circuit().lamps.size(); ++lamp) {
    const Part& part = lamp_of(q, lamp);
    double least = 1e9;
    std::size_t at = 0;
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      const LampState& state = q.states.lamps[s][lamp];
      const bool lit = state.seen == Seen::lit || state.seen == Seen::flash || state.seen == Seen::counterflash;
      const bool asked = q.states.scenes[s].kind == "towing" && q.states.required[s][lamp] != Seen::may;
      if (!asked || !lit || state.volts >= least) continue;
      least = state.volts;
      at = s;
    }
    if (least >= low || part.elements[0].law != Law::filament) continue;
    add(out, row, part.origin.job,
        name_of(part) + " gets only " + format_fixed(least, 2) + " V in scene '" + q.states.scenes[at].name + "'",
        "a thicker wire, a low-drop diode, or a better outlet feed and ground; accept " + format_fixed(low, 1) + " V", {part.id});
  }
}

void drop_over(const Asked& q, const RuleRow& row, Findings& out) {
  for (const SizeChoice& c : q.sized.why)
    if (c.drop_limit_v > 0 && c.drop_v > c.drop_limit_v + 1e-6)
      add(out, row, q.spec.wire.place.known() ? q.spec.wire.place : q.spec.job.title.place,
          c.group + ": " + c.size.text() + " loses " + format_fixed(c.drop_v, 2) + " V of the " +
              format_fixed(c.drop_limit_v, 2) + " V allowed (" + c.worst + ")",
          "write auto for its size, or raise limits: drop");
}

void ampacity_over(const Asked& q, const RuleRow& row, Findings& out) {
  for (const SizeChoice& c : q.sized.why)
    if (c.ampacity_a > 0 && c.amps > c.ampacity_a)
      add(out, row, q.spec.wire.place, c.group + ": " + c.size.text() + " carries " + format_fixed(c.amps, 1) + " A of " +
                                           format_fixed(c.ampacity_a, 1) + " A", "use a thicker wire");
}

void plate_dark(const Asked& q, const RuleRow& row, Findings& out) {
  const auto& lamps = q.circuit().lamps;
  const auto plate = std::find_if(lamps.begin(), lamps.end(), [](const LampIntent& l) { return l.car_function == "plate"; });
  if (plate == lamps.end())
    add(out, row, q.spec.car.place, "the survey lists no plate lamp", "look for it: it usually leaves the tail wire before the lamp plug");
  else if (plate->tow_signal.empty())
    add(out, row, q.circuit().part(plate->lamp).origin.job, "the plate lamp stays dark in tow", "re-feed it: plate: with left tail");
}

void thin_ground(const Asked& q, const RuleRow& row, Findings& out) {
  double ground = 0, signal = 0;
  Place place;
  for (const Wire& w : q.circuit().wires) {
    if (w.status != Status::fitted || !w.size) continue;
    const WireSize* size = find_size(*w.size, q.circuit().wire_series, q.catalogue);
    if (size == nullptr) continue;
    if (w.circuit == "ground") {
      ground = std::max(ground, size->area_mm2);
      place = w.origin.job;
    } else if (const auto tow = q.catalogue.tow_signals.find(w.circuit); tow != q.catalogue.tow_signals.end() && tow->second.kind == "lamp") {
      signal = std::max(signal, size->area_mm2);
    }
  }
  if (ground > 0 && ground < signal)
    add(out, row, place, "the ground wire is thinner than the thickest signal wire", "it carries the sum of all lamps: make it at least as thick");
}

}  // namespace

const std::vector<RuleRow>& rule_table() {
  static const std::vector<RuleRow> table = {
      {"not-solved", Severity::error, "numbers without a solution must not be printed", not_converged},
      {"chatter", Severity::error, "a buzzing relay burns its contacts and lights nothing reliably", chatter},
      {"depends-on-before", Severity::warning, "a circuit must do the same whatever was on before", depends_on_before},
      {"lamp-differs", Severity::error, "every signal must light its own lamps and nothing else", lamp_differs},
      {"back-feed", Severity::error, "neither vehicle may feed the other", back_feed},
      {"low-volts", Severity::warning, "a filament gives about two thirds of its light at 11.3 V", low_volts},
      {"drop-over", Severity::error, "what is lost in wire is missing at the lamp", drop_over},
      {"ampacity-over", Severity::error, "a wire that runs hot melts its neighbours", ampacity_over},
      {"fuse-over", Severity::error, "the fuse must open before the wire burns", fuse_over},
      {"fuse-unknown", Severity::warning, "a wire without a known fuse at its source is not protected", fuse_unknown},
      {"contact-differs", Severity::warning, "the next fitter will trust the catalogue's contact", contact_differs},
      {"stop-apart", Severity::warning, "stop and turn in one lamp cannot be told apart by a wire", signals_apart},
      {"plate-dark", Severity::warning, "the plate lamp is the function most often forgotten", plate_dark},
      {"fuse-slow", Severity::warning, "a short that the fuse does not clear heats the wire", fuse_slow},
      {"fuse-small", Severity::warning, "a fuse that runs near its rating opens one day without a fault", fuse_small},
      {"fuse-far", Severity::error, "nothing opens when the wire between source and fuse chafes through", fuse_far},
      {"coach-fuse-far", Severity::warning, "nothing opens when the wire between source and fuse chafes through", coach_fuse_far},
      {"run-unused", Severity::warning, "a run that no wire takes is mostly a place with another name", run_unused},
      {"too-hot", Severity::error, "a part beyond its hottest temperature fails", too_hot},
      {"hot", Severity::warning, "a hot diode leaks, then fails", hot},
      {"mounting", Severity::error, "how a part is mounted decides how hot it gets", mounting_unknown},
      {"method-unsuited", Severity::error, "not every method fits every car", method_unsuited},
      {"extra-missing", Severity::warning, "some cars need more than the method alone", extra_missing},
      {"thin-ground", Severity::warning, "ground is half the circuit and the commonest fault", thin_ground},
  };
  return table;
}

std::vector<Finding> check(const Spec& spec, const Catalogue& catalogue, const Sized& sized, const States& states) {
  std::vector<Finding> out;
  const Asked asked{spec, catalogue, sized, states};
  for (const RuleRow& row : rule_table()) row.look(asked, row, out);
  return out;
}

std::optional<Facts> find_facts(const Spec& spec, const Catalogue& catalogue, Diagnostics& diagnostics) {
  auto circuit = build(spec, catalogue, diagnostics);
  if (!circuit) return std::nullopt;
  auto sized = size(std::move(*circuit), catalogue, spec, diagnostics);
  if (!sized) return std::nullopt;
  States states = solve_all(sized->circuit, catalogue, spec);
  std::vector<Finding> findings = check(spec, catalogue, *sized, states);
  return Facts{spec, std::move(*sized), std::move(states), std::move(findings)};
}

}  // namespace towloom
