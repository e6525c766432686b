// Rules about fitted parts: resistors, relays, diodes, splices, grounds, and the two sides of a cut.
#include <algorithm>
#include <set>

#include "check/readings.hpp"
#include "solve/lamps.hpp"

namespace towloom {

void resistor_hot(const Asked& q, const RuleRow& row, Findings& out) {
  const double limit = q.catalogue.rule("resistor_warm_w").value;
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    const Part& part = q.circuit().parts[p];
    if (part.kind != "resistor" || part.status != Status::fitted) continue;
    double most = 0;
    std::size_t at = 0;
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      const Span amps = amps_of(q.states.solved[s], {static_cast<int>(p)}, 0);
      const double watts = std::max(amps.most * amps.most, amps.least * amps.least) * part.elements[0].ohm;
      if (watts <= most) continue;
      most = watts;
      at = s;
    }
    if (most > limit)
      add(out, row, part.origin.job, part.id + ", " + part.value + ", turns " + format_fixed(most, 0) + " W into heat while lit in scene '" + q.states.scenes[at].name + "'",
          "bolt it to bare metal away from plastic, carpet and loom, or take a larger resistance", {part.id});
  }
}

// A relay whose coil gets nothing: does the car still have its own stop lamps?
void rests_open(const Asked& q, const RuleRow& row, Findings& out) {
  const auto braking = std::find_if(q.states.scenes.begin(), q.states.scenes.end(), [](const Scene& s) {
    return s.kind == "car alone" && is_on(s, "car.pedal") && !is_on(s, "car.lamps") && !is_on(s, "car.turn.left") && !is_on(s, "car.turn.right");
  });
  if (braking == q.states.scenes.end()) return;
  const auto scene = static_cast<std::size_t>(braking - q.states.scenes.begin());
  const Points points = number_points(q.circuit());
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    const Part& part = q.circuit().parts[p];
    if (part.status != Status::fitted || part.devices.empty() || part.devices[0].name != "coil") continue;
    const Circuit dead = with_fault(q.circuit(), {"", "", {ModeForced{{static_cast<int>(p)}, 0, false}}}, q.catalogue);
    const Solved solved = solve(dead, q.catalogue, *braking);
    std::string names;
    for (std::size_t l = 0; l < q.circuit().lamps.size(); ++l) {
      if (q.states.required[scene][l] != Seen::lit || q.states.lamps[scene][l].seen != Seen::lit) continue;
      if (lamp_state(dead, q.catalogue, points, q.circuit().lamps[l].lamp, solved, 0).seen == Seen::lit) continue;
      names += (names.empty() ? "" : ", ") + lamp_name(q.circuit().part(q.circuit().lamps[l].lamp));
    }
    if (!names.empty())
      add(out, row, part.origin.job, "with the coil of " + part.id + " dead the driven car has no " + names, "use the contact that rests closed: rests: closed", {part.id});
  }
}

void coil_spike(const Asked& q, const RuleRow& row, Findings& out) {
  const bool electronic_coach = q.spec.coach.detection && q.spec.coach.detection->value != "none";
  const Circuit& c = q.circuit();
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    const auto model = q.catalogue.parts.find(c.parts[p].model);
    if (c.parts[p].kind != "relay" || model == q.catalogue.parts.end() || model->second.suppressed) continue;
    for (const TerminalRef coil : {TerminalRef{{static_cast<int>(p)}, 0}, TerminalRef{{static_cast<int>(p)}, 1}})
      for (std::size_t o = 0; o < c.parts.size(); ++o) {
        const Part& other = c.parts[o];
        const bool contact = electronic_coach && other.kind == "contact" && other.zone == Zone::inlet && q.catalogue.tow_signals.at(other.function).kind == "lamp";
        if (other.kind != "module" && other.kind != "controller-output" && other.kind != "pulsed-output" && !contact) continue;
        for (int t = 0; t < static_cast<int>(other.terminals.size()); ++t) {
          const std::string& name = other.terminals[static_cast<std::size_t>(t)];
          if ((!contact && name.rfind("out", 0) != 0) || c.net(coil) != c.net({{static_cast<int>(o)}, t})) continue;
          add(out, row, c.parts[p].origin.job, "the coil of " + c.parts[p].id + " hangs on the electronic output " + c.name({{static_cast<int>(o)}, t}) + " with nothing across it",
              "take a relay with a diode or resistor across its coil; a diode's band to 86", {c.parts[p].id});
        }
      }
  }
}

void ground_surface(const Asked& q, const RuleRow& row, Findings& out) {
  for (const GroundRow& g : q.spec.grounds) {
    const auto surface = g.on ? q.catalogue.surfaces.find(g.on->value) : q.catalogue.surfaces.end();
    if (surface == q.catalogue.surfaces.end() || surface->second.says.empty()) continue;
    add(out, row, g.on->place, "ground " + g.name.value + " sits on " + g.on->value + ": " + surface->second.says,
        "clean bare steel of the body, a toothed ring, a sealed screw; the stud that the car maker names where there is one", {g.name.value});
  }
}

void splice_full(const Asked& q, const RuleRow& row, Findings& out) {
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    const Part& part = q.circuit().parts[p];
    if (part.kind != "splice" || part.status != Status::fitted) continue;
    int wires = 0;
    for (const Wire& w : q.circuit().wires) wires += (w.from.part.v == static_cast<int>(p)) + (w.to.part.v == static_cast<int>(p));
    if (wires > 3)
      add(out, row, part.origin.job.known() ? part.origin.job : q.spec.isolation.place, part.id + " at the " + part.place + " joins " + std::to_string(wires) + " wires in one sleeve",
          "a sealed sleeve takes two wires on each side at most: make two splices, 40 mm apart or more", {part.id});
  }
}

// A diode that never carries anything although the lamp that it stands at lights: reversed, or its wire is dead, and
// the lamp is fed another way.
void diode_idle(const Asked& q, const RuleRow& row, Findings& out) {
  constexpr double carries_a = 0.001;
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    const Part& part = q.circuit().parts[p];
    if (part.status != Status::fitted || part.zone != Zone::pocket || !part.devices.empty()) continue;
    for (std::size_t e = 0; e < part.elements.size(); ++e) {
      if (part.elements[e].law != Law::diode) continue;
      const auto used = [&](const Solved& s) { return amps_of(s, {static_cast<int>(p)}, static_cast<int>(e)).most > carries_a; };
      if (std::any_of(q.states.solved.begin(), q.states.solved.end(), used)) continue;
      const int feed = std::min(part.elements[e].a, part.elements[e].b);   // its wire's end, whichever way it was fitted
      add(out, row, part.origin.job, part.id + "." + part.terminals[static_cast<std::size_t>(feed)] + " at the " + part.place + " " + part.function +
              " lamp carries nothing in any scene",
          "look at its band, which belongs towards the lamp, and for volts before it", {part.id});
    }
  }
}

void sides_joined(const Asked& q, const RuleRow& row, Findings& out) {
  const Circuit& c = q.circuit();
  std::set<NetId> car;
  for (const CutPoint& cut : c.cuts) {
    const Wire& w = c.wires[static_cast<std::size_t>(cut.car_side.v)];
    car.insert(c.net(w.from));
    car.insert(c.net(w.to));
  }
  for (const CutPoint& cut : c.cuts) {
    // A trunk's cut has the legs of its lamps behind it, and they are car sides themselves.
    const bool of_lamp = std::any_of(c.lamps.begin(), c.lamps.end(), [&](const LampIntent& l) { return c.part(l.lamp).origin.job == cut.origin.job; });
    if (!cut.lamp_side || !of_lamp) continue;
    const Wire& w = c.wires[static_cast<std::size_t>(cut.lamp_side.v)];
    if (car.count(c.net(w.from)) == 0) continue;
    add(out, row, cut.origin.job, "the lamp side of the cut in " + (cut.label.empty() ? "a factory wire" : cut.label) + " is joined to a car side",
        "take that join off: a jumper between lamps belongs on the coach's side of the isolating parts", {w.id});
  }
}

}  // namespace towloom
