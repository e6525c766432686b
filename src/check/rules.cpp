#include "check/readings.hpp"
#include "check/observe.hpp"

#include <algorithm>
#include <cmath>

namespace towloom {

void add(Findings& out, const RuleRow& row, Place place, std::string message, std::string action, std::vector<std::string> about) {
  out.push_back({row.id, row.severity, std::move(message), std::move(action), row.reason, place, std::move(about)});
}

namespace {

const Part& lamp_of(const Asked& q, std::size_t lamp) { return q.circuit().part(q.circuit().lamps[lamp].lamp); }

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
    const Place at = q.circuit().part(probe.at.part).origin.job;
    const auto tow = q.catalogue.tow_signals.find(q.circuit().part(probe.at.part).function);
    add(out, row, at.known() ? at : q.spec.isolation.place,
        std::string(coach ? "the car feeds the coach" : "the coach feeds the car") + " at " + probe.name + ": " +
            format_fixed(worst->loaded_v, 2) + " V with 1 kohm across",
        coach && tow != q.catalogue.tow_signals.end() && tow->second.kind == "supply"
            ? "the plug is live with the cord out: a breaker and a plain wire let the battery back; block it by a diode, a sensing relay, a charger or a field-effect part"
            : "an isolating part is missing, reversed or shorted on this wire",
        {q.circuit().part(probe.at.part).id});
  }
}

// Where most volts of one lamp are lost: its coach feed, its wires and contacts, what isolates it, its return.
std::string costliest(const Asked& q, const LampIntent& lamp, const Solved& solved) {
  const Circuit& c = q.circuit();
  const Points points = number_points(c);
  const Part& own = c.part(lamp.lamp);
  std::string at;
  double most = 0;
  const auto weigh = [&](const std::string& name, TerminalRef a, TerminalRef b) {
    const Span v = volts_between(points, solved, a, b);
    const double lost = std::max(std::fabs(v.least), std::fabs(v.most));
    if (lost <= most) return;
    most = lost;
    at = name + " loses " + format_fixed(lost, 2) + " V";
  };
  const auto on_its_way = [&](const std::string& circuit) { return circuit == lamp.tow_signal || circuit == "ground"; };
  constexpr double carries_a = 0.01;   // an open core loses all volts, and carries nothing to the lamp
  for (std::size_t w = 0; w < c.wires.size(); ++w) {
    const Wire& wire = c.wires[w];
    double amps = 0;
    for (int p = 0; p < solved.phases; ++p) amps = std::max(amps, std::fabs(solved.phase[static_cast<std::size_t>(p)].wire_a[w]));
    if (on_its_way(wire.circuit) && wire.status != Status::factory && amps > carries_a) weigh(wire.id, wire.from, wire.to);
  }
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    const Part& part = c.parts[p];
    const PartId id{static_cast<int>(p)};
    if (lamp.converter == id)
      for (std::size_t t = 0; t < part.terminals.size(); ++t)
        if (part.terminals[t] == "out_" + lamp.tow_signal) weigh(part.id, {id, 0}, {id, static_cast<int>(t)});
    if (part.kind == "contact" && on_its_way(part.function)) weigh("contact " + part.id, {id, 0}, {id, 1});
    const bool beside = part.zone == Zone::pocket && part.status == Status::fitted && part.function == own.function && part.side == own.side;
    if (beside && part.elements.size() > 0 && part.kind != "resistor") weigh(part.id, {id, part.elements[0].a}, {id, part.elements[0].b});
    for (const Element& e : part.elements)
      if (part.kind == "coach-feed" && e.law == Law::source && e.signal == "coach." + lamp.tow_signal) {
        const Span amps = amps_of(solved, id, static_cast<int>(&e - part.elements.data()));
        const double lost = e.ohm * std::max(std::fabs(amps.least), std::fabs(amps.most));
        if (lost > most) at = "the coach's own wiring loses " + format_fixed(most = lost, 2) + " V";
      }
  }
  return at;
}

// Lit lamps below the accepted volts, in the worst towing scene.
void low_volts(const Asked& q, const RuleRow& row, Findings& out) {
  for (std::size_t lamp = 0; lamp < q.circuit().lamps.size(); ++lamp) {
    const Part& part = lamp_of(q, lamp);
    const double low = q.catalogue.rule(part.elements[0].law == Law::filament ? "filament_low_v" : "led_low_v").value;
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
    if (least >= low) continue;
    const std::string worst = costliest(q, q.circuit().lamps[lamp], q.states.solved[at]);
    add(out, row, part.origin.job,
        lamp_name(part) + " gets only " + format_fixed(least, 2) + " V in scene '" + q.states.scenes[at].name + "'" + (worst.empty() ? "" : "; most of it: " + worst),
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
    add(out, row, q.circuit().part(plate->lamp).origin.job, "the plate lamp stays dark in tow",
        std::any_of(lamps.begin(), lamps.end(), [&](const LampIntent& l) { return q.circuit().part(l.lamp).status == Status::fitted; })
            ? "give the added lamps one: a row with plate: under isolation: lamps:"
            : "re-feed it: plate: with left tail");
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
      {"pulsed-coil", Severity::error, "a relay that follows pulses buzzes and burns its contacts", pulsed_coil},
      {"pulsed-isolator", Severity::warning, "a module that wakes too late passes each pulse through its body diode", pulsed_isolator},
      {"depends-on-before", Severity::warning, "a circuit must do the same whatever was on before", depends_on_before},
      {"engine-off", Severity::warning, "a coach that stands with its hazard lamps on still wants them repeated", engine_off},
      {"lamp-differs", Severity::error, "every signal must light its own lamps and nothing else", lamp_differs},
      {"brake-conflict", Severity::error, "a pedal that the auxiliary brake presses must not undo the coach's signals", brake_conflict},
      {"signal-lost", Severity::error, "each signal of the coach must show on the car", signal_lost},
      {"lamp-colour", Severity::error, "stop is red: a stop signal in amber misleads", lamp_colour},
      {"sides-joined", Severity::error, "a lamp side joined to a car side undoes the isolation", sides_joined},
      {"back-feed", Severity::error, "neither vehicle may feed the other", back_feed},
      {"hot-leak", Severity::warning, "a hot diode lets through what a cold one holds", hot_leak},
      {"low-volts", Severity::warning, "a filament gives about two thirds of its light at 11.3 V", low_volts},
      {"drop-over", Severity::error, "what is lost in wire is missing at the lamp", drop_over},
      {"ampacity-over", Severity::error, "a wire that runs hot melts its neighbours", ampacity_over},
      {"fuse-over", Severity::error, "the fuse must open before the wire burns", fuse_over},
      {"fuse-unknown", Severity::warning, "a wire without a known fuse at its source is not protected", fuse_unknown},
      {"contact-differs", Severity::warning, "the next fitter will trust the catalogue's contact", contact_differs},
      {"crossed-core", Severity::error, "what arrives at the wrong contact lights the wrong lamp", crossed_cores},
      {"pins-differ", Severity::warning, "the next fitter will trust the catalogue's face", pins_differ},
      {"half-unusual", Severity::warning, "the half with bare contacts belongs where nothing is live", half_unusual},
      {"flash-rate", Severity::warning, "a rate outside the range tells of a lamp that is out, or breaks the rule for turn signals", flash_rate_off},
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
      {"method-doubtful", Severity::warning, "some cars and coaches upset a method that works elsewhere", method_doubtful},
      {"outlet-overloaded", Severity::warning, "an output that limits its current shuts its lamps off", outlet_overloaded},
      {"sensor-bypassed", Severity::warning, "what returns to the post itself is never counted by the battery's sensor", sensor_bypassed},
      {"load-dead", Severity::error, "a brake, a break-away or a steering lock without its supply does not work in tow", load_dead},
      {"brake-pulsed", Severity::warning, "a brake that follows a turn signal drags and heats the wheels", brake_pulsed},
      {"no-fuse", Severity::error, "a battery post can melt any wire: each wants its fuse close to it", no_fuse},
      {"live-unplugged", Severity::warning, "what still works with the cord out empties the car's battery or takes its lamps away", live_unplugged},
      {"charge-none", Severity::warning, "a charge line that brings nothing lets the car's battery go flat on the way", charge_none},
      {"battery-flat", Severity::warning, "a flat battery is found on arrival", battery_flat},
      {"stop-asleep", Severity::warning, "it works in the shop and fails on the road after an hour, or the reverse", stop_asleep},
      {"converter-limit", Severity::warning, "the owner must know what this converter cannot tell apart", converter_limit},
      {"monitor-current", Severity::warning, "a car that measures its lamps may report one that is whole", monitor_current},
      {"output-loaded", Severity::warning, "a controller shuts an overloaded output off, some for good", output_loaded},
      {"not-detected", Severity::warning, "a coach that finds no load may not work the contact, or ticks it", not_detected},
      {"resistor-hot", Severity::warning, "a load resistor can burn the trim", resistor_hot},
      {"rests-open", Severity::warning, "a failed relay must leave the car its own stop lamps", rests_open},
      {"coil-spike", Severity::warning, "a coil let go can kill the electronics that worked it", coil_spike},
      {"diode-idle", Severity::warning, "a diode that carries nothing is reversed or hangs on a dead wire", diode_idle},
      {"ground-surface", Severity::warning, "a ground screw is as good as what it bites in", ground_surface},
      {"splice-full", Severity::warning, "wires stacked in one sleeve seal badly", splice_full},
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
  lay_as_metered(sized->circuit, spec, catalogue);
  States states = solve_all(sized->circuit, catalogue, spec);
  std::vector<Finding> findings = check(spec, catalogue, *sized, states);
  Facts facts{spec, std::move(*sized), std::move(states), std::move(findings), {}};
  Diagnostics later;   // solve_as_found reports what cannot be
  for (const Observed& o : read_observations(facts.spec, facts.circuit(), catalogue, later))
    facts.flags.push_back({static_cast<int>(facts.flags.size()) + 1, o.about, o.row->what.value == o.seen ? o.about : o.row->what.value, o.seen, o.should, o.row->why.value,
                           o.row->date.value});
  return facts;
}

}  // namespace towloom
