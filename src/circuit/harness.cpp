// Fitted wires: each net with its places becomes a tree over the runs; a wire a stretch, a splice where three
// ends meet.
#include <algorithm>
#include <set>

#include "circuit/builder.hpp"

namespace towloom {
namespace {


bool is_pocket(const Builder& b, const std::string& place) {
  return std::any_of(b.spec.car.lamps.begin(), b.spec.car.lamps.end(), [&](const LampRow& r) { return r.unit == place; });
}

// Runs from place to place by fewest metres.
std::vector<const RunRow*> path(const Builder& b, const std::string& from, const std::string& to) {
  std::vector<const RunRow*> out;
  for (std::string at = from; at != to;) {
    const double rest = b.distance(at, to);
    const RunRow* next = nullptr;
    for (const RunRow& run : b.spec.runs) {
      if (run.from.value != at && run.to.value != at) continue;
      const std::string& far = run.from.value == at ? run.to.value : run.from.value;
      const double beyond = b.distance(far, to);
      if (beyond >= 0 && beyond + run.length_m.value <= rest + 1e-9) next = &run;
    }
    if (next == nullptr) return {};
    out.push_back(next);
    at = next->from.value == at ? next->to.value : next->from.value;
  }
  return out;
}

Wire fitted(const Builder& b, const std::string& circuit, TerminalRef from, TerminalRef to, Origin origin) {
  Wire w;
  w.from = from;
  w.to = to;
  w.circuit = circuit;
  const ConnectorContact* contact = b.inlet->contact(b.signal_contact.at(circuit));
  w.colour = contact->colour.at(b.inlet->default_colours);
  w.status = Status::fitted;
  w.origin = origin;
  const auto own = b.spec.wire.size.find(circuit);
  const auto lamps = b.spec.wire.size.find("lamps");
  w.group = own != b.spec.wire.size.end() ? circuit : b.spec.wire.ribbon || lamps != b.spec.wire.size.end() ? "lamps" : circuit;
  const auto given = b.spec.wire.size.find(w.group);
  if (given != b.spec.wire.size.end() && given->second) {
    w.size = given->second->value;
    w.size_fixed = true;
  }
  return w;
}

double spare(const Builder& b, TerminalRef end) {
  const Part& p = b.circuit.part(end.part);
  if (p.kind == "splice") return b.rule("splice_loop_m");
  return p.zone == Zone::inlet ? b.rule("inlet_loop_m") : p.zone == Zone::pocket ? b.rule("lamp_loop_m") : 0;
}

void lay(Builder& b, const std::string& circuit, TerminalRef from, TerminalRef to, const std::vector<const RunRow*>& runs, Place job) {
  Wire w = fitted(b, circuit, from, to, {job, {}});
  for (const RunRow* run : runs) {
    w.runs.push_back(run->name.value);
    w.length_m += run->length_m.value;
    if (is_pocket(b, run->from.value) && is_pocket(b, run->to.value)) w.length_m += b.rule("cross_spare_m");
  }
  w.length_m += spare(b, from) + spare(b, to);
  b.add_wire(std::move(w));
}

// From the inlet outwards: at each place the ends there are served; several make a splice.
struct Branch {
  std::string place;
  std::vector<const RunRow*> runs;   // from the parent's place
  std::vector<TerminalRef> ends;
  std::vector<Branch> next;
};

void insert(Branch& root, const std::vector<const RunRow*>& runs, const TerminalRef& end) {
  Branch* at = &root;
  for (const RunRow* run : runs) {
    const std::string far = run->from.value == at->place ? run->to.value : run->from.value;
    auto child = std::find_if(at->next.begin(), at->next.end(), [&](const Branch& c) { return c.place == far; });
    if (child == at->next.end()) {
      at->next.push_back({far, {run}, {}, {}});
      child = at->next.end() - 1;
    }
    at = &*child;
  }
  at->ends.push_back(end);
}

void grow(Builder& b, const std::string& circuit, TerminalRef from, std::vector<const RunRow*> runs, const Branch& at, Place job) {
  if (at.ends.empty() && at.next.size() == 1) {  // passes through
    runs.insert(runs.end(), at.next[0].runs.begin(), at.next[0].runs.end());
    return grow(b, circuit, from, runs, at.next[0], job);
  }
  if (at.ends.size() == 1 && at.next.empty()) return lay(b, circuit, from, at.ends[0], runs, job);
  const PartId splice = b.add_splice("S" + std::to_string(++b.splices), at.place, side_of_place(at.place), Zone::pocket, Status::fitted);
  b.circuit.parts[static_cast<std::size_t>(splice.v)].function = circuit;
  lay(b, circuit, from, {splice, 0}, runs, job);
  for (const TerminalRef& end : at.ends) lay(b, circuit, {splice, 0}, end, {}, job);
  for (const Branch& next : at.next) grow(b, circuit, {splice, 0}, next.runs, next, job);
}

void lay_signal(Builder& b, const std::string& signal, const std::vector<TerminalRef>& users) {
  Branch root{"inlet", {}, {}, {}};
  for (const TerminalRef& user : users) {
    const std::string place = b.circuit.part(user.part).place;
    if (b.distance("inlet", place) < 0) {
      b.diagnostics.error("unreachable", b.spec.isolation.place, "no run leads from the inlet to '" + place + "'",
                          "add the missing stretch under runs:");
      return;
    }
    insert(root, path(b, "inlet", place), user);
  }
  grow(b, signal, b.signal_port.at(signal), {}, root, b.spec.isolation.place);
}

void lay_ground(Builder& b) {
  const GroundRow* white = nullptr;
  for (const GroundRow& g : b.spec.grounds)
    if (g.takes && g.takes->value == "coach white") white = &g;
  if (white == nullptr) {
    b.diagnostics.error("no-ground", b.spec.grounds.empty() ? b.spec.car.place : b.spec.grounds[0].name.place,
                        "no ground takes the coach's white wire", "write takes: coach white at one of the grounds");
    return;
  }
  const PartId stud = b.add_stud(white->name.value, white->at.value, Side::centre, Zone::run, Status::fitted, {white->name.place, {}});
  const double along = b.distance("inlet", white->at.value);
  Wire w = fitted(b, "ground", {stud, 0}, b.signal_port.at("ground"), {white->name.place, {}});
  w.length_m = (along >= 0 ? along : b.rule("ground_lead_m")) + b.rule("inlet_loop_m");
  if (along < 0) b.assume("white wire", "0.3 m from the inlet to " + white->at.value + ", plus the loop", "ground_lead_m");
  b.add_wire(std::move(w));
}

// Lamps that hang on the lamp side of another's cut: its lamp-side wire gets a splice.
void lay_refed(Builder& b) {
  for (const auto& [host, users] : b.lamp_side_users) {
    const LampIntent& lamp = b.circuit.lamps[static_cast<std::size_t>(host)];
    for (CutPoint& cut : b.circuit.cuts) {
      if (!cut.lamp_side || b.circuit.wires[static_cast<std::size_t>(cut.lamp_side.v)].to.part != lamp.lamp) continue;
      const Part& host_part = b.circuit.part(lamp.lamp);
      const Side side = host_part.side;
      const std::string place = host_part.place;
      const PartId splice = b.add_splice("S" + std::to_string(++b.splices), place, side, Zone::pocket, Status::fitted);
      b.circuit.parts[static_cast<std::size_t>(splice.v)].function = lamp.tow_signal;
      Wire& first = b.circuit.wires[static_cast<std::size_t>(cut.lamp_side.v)];
      Wire second = first;
      first.to = {splice, 0};
      second.id.clear();
      second.from = {splice, 0};
      b.add_wire(std::move(second));
      for (const TerminalRef& user : users) {
        Wire w = fitted(b, lamp.tow_signal, {splice, 0}, user, {b.spec.isolation.place, {}});
        const double along = b.distance(place, b.circuit.part(user.part).place);
        w.length_m = (along >= 0 ? along : b.rule("plate_lead_m")) + b.rule("splice_loop_m");
        if (along < 0) b.assume("plate lamp lead", "0.8 m from the pocket, no run given", "plate_lead_m");
        b.add_wire(std::move(w));
      }
    }
  }
}

// Loaded conductors that lie together in the fullest run of a wire.
void count_bundles(Builder& b) {
  std::map<std::string, int> in_run;
  for (const Wire& w : b.circuit.wires)
    for (const std::string& run : w.runs) ++in_run[run];
  for (Wire& w : b.circuit.wires)
    for (const std::string& run : w.runs) w.bundle = std::max(w.bundle, in_run[run]);
}

}  // namespace

void build_harness(Builder& b) {
  lay_ground(b);
  std::vector<std::pair<std::string, std::string>> order;  // contact number, signal
  for (const auto& [signal, users] : b.signal_users) order.emplace_back(b.signal_contact[signal], signal);
  std::sort(order.begin(), order.end());
  for (const auto& [contact, signal] : order) lay_signal(b, signal, b.signal_users[signal]);
  lay_refed(b);
  count_bundles(b);
}

void add_probes(Builder& b) {
  for (const auto& [signal, port] : b.signal_port)
    if (signal != "ground")
      b.circuit.probes.push_back({port, "J2 contact " + b.signal_contact[signal], BackfeedProbe::Towards::coach});
  for (const CutPoint& cut : b.circuit.cuts)
    if (cut.lamp_side)
      b.circuit.probes.push_back({b.circuit.wires[static_cast<std::size_t>(cut.car_side.v)].to,
                                  "car side of cut " + cut.label, BackfeedProbe::Towards::car});
}

}  // namespace towloom
