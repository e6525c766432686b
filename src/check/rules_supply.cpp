// Rules about supplies: the car's battery, its charge line, brake units, and what hangs on a post without a fuse.
#include <algorithm>
#include <cmath>

#include "check/readings.hpp"

namespace towloom {
namespace {

const ExtraRow* find_extra(const Asked& q, bool Method::* says) {
  for (const ExtraRow& e : q.spec.extras)
    if (const auto extra = q.catalogue.extras.find(e.name.value); extra != q.catalogue.extras.end() && extra->second.*says) return &e;
  return nullptr;
}

// Amps into the battery, mean over the flash; the battery's element counts from plus to minus inside it.
double into_battery(const Asked& q, std::size_t scene) { return mean_amps(q.states.solved[scene], q.circuit().find("BAT"), 0); }

}  // namespace

void charge_none(const Asked& q, const RuleRow& row, Findings& out) {
  const ExtraRow* line = find_extra(q, &Method::charges_battery);
  if (line == nullptr) return;
  double best = -1e9;
  std::size_t at = 0;
  for (std::size_t s = 0; s < q.states.scenes.size(); ++s)
    if (on_the_road(q.states.scenes[s]) && into_battery(q, s) > best) {
      best = into_battery(q, s);
      at = s;
    }
  if (best >= q.catalogue.rule("charge_least_a").value) return;
  const Points points = number_points(q.circuit());
  const Span volts = volts_between(points, q.states.solved[at], q.circuit().terminal("BAT.+"), q.circuit().terminal("BAT.-"));
  const bool open = find_extra(q, &Method::opens_battery) != nullptr;
  add(out, row, line->name.place,
      "in tow the charge line brings " + format_fixed(std::max(0.0, best), 2) + " A to the car's battery, which stands at " + format_fixed(volts.most, 2) + " V" +
          (open ? ": the battery's negative is open, so the current has no way back" : ""),
      open ? "charging in tow and an open battery exclude each other: leave one out"
           : "look for a blown fuse or a dead contact; else thicker wire, a limiter that loses less, or a charger");
}

void battery_flat(const Asked& q, const RuleRow& row, Findings& out) {
  const double standing = q.spec.car.standing_draw_a && find_extra(q, &Method::opens_battery) == nullptr ? q.spec.car.standing_draw_a->value : 0;
  double worst = 0;
  std::string at;
  for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
    const Scene& scene = q.states.scenes[s];
    const bool rests = on_the_road(scene) && !is_on(scene, "driver.stop") && !is_on(scene, "driver.left") && !is_on(scene, "driver.right") && !is_on(scene, "car.pedal");
    const double amps = standing - into_battery(q, s);
    if (!rests || amps <= worst) continue;
    worst = amps;
    at = scene.name;
  }
  if (worst <= 0) return;
  const double hours = q.catalogue.rule("battery_ah").value / 2 / worst;
  if (hours >= q.catalogue.rule("tow_day_h").value) return;
  add(out, row, q.spec.car.standing_draw_a ? q.spec.car.standing_draw_a->place : q.spec.car.place,
      "in scene '" + at + "' the car's battery gives " + format_fixed(worst, 1) + " A: flat in about " + format_fixed(hours, 0) + " hours" +
          (q.catalogue.rule("battery_ah").provenance.weak() ? " (50 Ah, half of it usable, from memory)" : ""),
      "add: charge line, or take the fuse of what draws out of the car's tow state");
}

namespace {

struct Load {
  PartId id;
  const Part& part;
  std::string live_in;
};
std::vector<Load> watched_loads(const Asked& q) {
  std::vector<Load> out;
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    const Part& part = q.circuit().parts[p];
    const auto model = q.catalogue.parts.find(part.model);
    if (part.kind == "load" && model != q.catalogue.parts.end() && !model->second.live_in.empty())
      out.push_back({{static_cast<int>(p)}, part, model->second.live_in});
  }
  return out;
}

}  // namespace

void load_dead(const Asked& q, const RuleRow& row, Findings& out) {
  const double works = q.catalogue.rule("load_works_v").value;
  const Points points = number_points(q.circuit());
  for (const Load& load : watched_loads(q)) {
    const auto look = [&](const Scene& scene, const Solved& solved) {
      const Span volts = volts_between(points, solved, {load.id, 0}, {load.id, 1});
      if (volts.least >= works) return false;
      add(out, row, load.part.origin.job,
          load.part.id + ", " + load.part.value + ", has only " + format_fixed(volts.least, 1) + " V in scene '" + scene.name + "'; it needs " + format_fixed(works, 0) + " V",
          "its supply and its return must both hang on the battery's own side of whatever opens in tow, and its signal needs a common return with them", {load.part.id});
      return true;
    };
    if (load.live_in == "parted") {
      const Scene parted{"pin out", "parted", "the car has parted from the coach", {{"car.break-away", Wave::on}, {"towed", Wave::on}}};
      look(parted, solve(q.circuit(), q.catalogue, parted));
      continue;
    }
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s)
      if (on_the_road(q.states.scenes[s]) && (load.live_in == "tow" || only(q.states.scenes[s], "driver.stop")) && look(q.states.scenes[s], q.states.solved[s])) break;
  }
}

void brake_pulsed(const Asked& q, const RuleRow& row, Findings& out) {
  const double quiet = q.catalogue.rule("load_quiet_v").value;
  const Points points = number_points(q.circuit());
  for (const Load& load : watched_loads(q)) {
    if (load.live_in != "stop") continue;
    for (std::size_t s = 0; s < q.states.scenes.size(); ++s) {
      const Scene& scene = q.states.scenes[s];
      const bool alone = only(scene, "driver.left") || only(scene, "driver.right") || only(scene, "driver.tail");
      const Span volts = volts_between(points, q.states.solved[s], {load.id, 0}, {load.id, 1});
      if (!alone || volts.most <= quiet) continue;
      add(out, row, load.part.origin.job,
          load.part.id + ", " + load.part.value + ", gets " + format_fixed(volts.most, 1) + " V in scene '" + scene.name + "', while nobody brakes",
          "take the coach's brake contact or a true stop wire; of combined signals left AND right: add brake signal from left and right", {load.part.id});
      break;
    }
  }
}

namespace {

// From this terminal to a supply contact of the inlet by wires, fuses and limiters, without the battery's own post.
bool taps_coach(const Asked& q, TerminalRef from) {
  const Circuit& c = q.circuit();
  const NetId post = c.net(c.terminal("BAT.+"));
  std::vector<NetId> reached = {c.net(from)};
  for (std::size_t at = 0; at < reached.size(); ++at)
    for (std::size_t p = 0; p < c.parts.size(); ++p) {
      const Part& part = c.parts[p];
      const bool contact = part.kind == "contact" && part.zone == Zone::inlet && q.catalogue.tow_signals.at(part.function).kind == "supply";
      const bool line = part.kind == "fuse" || part.kind == "breaker" || part.kind == "diode" || part.kind == "ideal-diode" || part.kind == "sensing-relay" || part.kind == "charger";
      for (int t = 0; t < 2 && t < static_cast<int>(part.terminals.size()); ++t) {
        if (c.net({{static_cast<int>(p)}, t}) != reached[at]) continue;
        if (contact) return true;
        const NetId beyond = line ? c.net({{static_cast<int>(p)}, 1 - t}) : NetId{};
        if (beyond && beyond != post && std::find(reached.begin(), reached.end(), beyond) == reached.end()) reached.push_back(beyond);
      }
    }
  return false;
}

}  // namespace

// What takes its supply from the coach, and goes on working with the cord out and everything off.
void live_unplugged(const Asked& q, const RuleRow& row, Findings& out) {
  const PartId battery = q.circuit().find("BAT");
  const auto at_rest = std::find_if(q.states.scenes.begin(), q.states.scenes.end(), [](const Scene& s) {
    return on_the_road(s) && !is_on(s, "driver.left") && !is_on(s, "driver.right") && !is_on(s, "driver.stop") && !is_on(s, "driver.tail") && !is_on(s, "car.pedal");
  });
  if (!battery || at_rest == q.states.scenes.end()) return;
  const Circuit without = with_fault(q.circuit(), {"", "", {ElementBecomes{battery, 0, open_ohm}}}, q.catalogue);
  const Solved coach_only = solve(without, q.catalogue, *at_rest);
  const Solved parked = solve(q.circuit(), q.catalogue, {"parked", "parked", "the cord is out, all is off", {}});
  for (std::size_t p = 0; p < q.circuit().parts.size(); ++p) {
    const Part& part = q.circuit().parts[p];
    for (std::size_t d = 0; d < part.devices.size(); ++d) {
      const std::string& name = part.devices[d].name;
      if (part.status != Status::fitted || (name != "coil" && name != "supply")) continue;
      // A module on the battery's own fuse is meant to stay live; a transistor pair lives from what it feeds.
      if (name == "supply" && (part.kind != "module" || !taps_coach(q, {{static_cast<int>(p)}, part.devices[d].plus}))) continue;
      if (!coach_only.phase[0].pulled[p][d] || !parked.phase[0].pulled[p][d]) continue;
      add(out, row, part.origin.job, part.id + " takes its supply from the coach, and still works with the cord out: the car's battery feeds it back",
          "tap the supply on the coach's side of the charge line's blocking part", {part.id});
    }
  }
}

void no_fuse(const Asked& q, const RuleRow& row, Findings& out) {
  const TerminalRef post = q.circuit().terminal("BAT.+");
  const double limit = q.catalogue.rule("fuse_place_covered_m").value;
  for (const Wire& w : q.circuit().wires) {
    if (w.status != Status::fitted || (w.from != post && w.to != post)) continue;
    const Part& end = q.circuit().part(w.from == post ? w.to.part : w.from.part);
    const bool fused = end.kind == "fuse" || end.kind == "breaker";
    if (fused && w.length_m <= limit) continue;
    add(out, row, w.origin.job,
        w.id + " runs from the battery's post to " + end.id + (fused ? ", " + format_fixed(w.length_m, 1) + " m before its fuse" : " without a fuse"),
        "a fuse within " + format_fixed(100 * q.catalogue.rule("fuse_place_m").value, 0) + " cm of the post, " + format_fixed(100 * limit, 0) + " cm in a sheath", {w.id});
  }
}

}  // namespace towloom
