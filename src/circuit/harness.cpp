// Fitted wires: each net with its places becomes a tree over the runs; a wire a stretch, a splice where three
// ends meet.
#include <algorithm>
#include <tuple>

#include "circuit/builder.hpp"

namespace towloom {
namespace {

bool is_pocket(const Builder& b, const std::string& place) {
  return std::any_of(b.spec.car.lamps.begin(), b.spec.car.lamps.end(), [&](const LampRow& r) { return r.unit == place || (r.at && r.at->value == place); });
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

bool returns(const Builder& b, const std::string& circuit) {
  const auto known = b.catalogue.circuits.find(circuit);
  const auto tow = b.catalogue.tow_signals.find(circuit);
  return (known != b.catalogue.circuits.end() && known->second.returns) || (tow != b.catalogue.tow_signals.end() && tow->second.kind == "ground");
}

// As the inlet's convention has it, else the catalogue's own for this circuit.
std::string colour_of(const Builder& b, const std::string& circuit) {
  if (const auto own = b.signal_colour.find(circuit); own != b.signal_colour.end()) return own->second;
  const auto found = b.catalogue.circuits.find(circuit);
  return found != b.catalogue.circuits.end() ? found->second.colour : b.catalogue.circuits.at("other").colour;
}

// Wires that lie in the ribbon, or that share the size given for the lamps.
std::string size_group(const Builder& b, const std::string& circuit) {
  if (b.spec.wire.size.count(circuit) != 0) return circuit;
  const auto tow = b.catalogue.tow_signals.find(circuit);
  const bool lamps = tow != b.catalogue.tow_signals.end() && (tow->second.kind == "lamp" || circuit == "ground");
  return lamps && (b.spec.wire.ribbon || b.spec.wire.size.count("lamps") != 0) ? "lamps" : circuit;
}

Wire fitted(const Builder& b, const std::string& circuit, TerminalRef from, TerminalRef to, Origin origin) {
  Wire w;
  w.from = returns(b, circuit) ? to : from;   // the current of a ground runs to its root
  w.to = returns(b, circuit) ? from : to;
  w.circuit = circuit;
  w.colour = colour_of(b, circuit);
  w.status = Status::fitted;
  w.origin = origin;
  w.group = size_group(b, circuit);
  // The return of a unit bears what its fuse lets pass; those of coils and modules need not be as thick.
  const auto unit = [&](TerminalRef t) { return b.circuit.part(t.part).kind == "load"; };
  if (w.group == "local-ground" && (unit(from) || unit(to))) w.group = "unit-ground";
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
  return p.zone == Zone::inlet ? b.rule("inlet_loop_m") : p.zone == Zone::pocket || p.zone == Zone::lamp ? b.rule("lamp_loop_m") : 0;
}

void lay(Builder& b, const Net& net, TerminalRef from, TerminalRef to, const std::vector<const RunRow*>& runs) {
  Wire w = fitted(b, net.circuit, from, to, {net.job, {}});
  w.length_m = from == net.root ? net.lead_m : 0;
  for (const RunRow* run : runs) {
    w.runs.push_back(run->name.value);
    w.length_m += run->length_m.value;
    if (is_pocket(b, run->from.value) && is_pocket(b, run->to.value)) w.length_m += b.rule("cross_spare_m");
  }
  w.length_m += spare(b, from) + spare(b, to);
  if (w.length_m <= 0) w.length_m = b.rule("part_lead_m");   // from part to part at one place
  b.add_wire(std::move(w));
}

// From the root outwards: at each place the ends there are served; several make a splice.
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

void grow(Builder& b, const Net& net, TerminalRef from, std::vector<const RunRow*> runs, const Branch& at) {
  if (at.ends.empty() && at.next.size() == 1) {  // passes through
    runs.insert(runs.end(), at.next[0].runs.begin(), at.next[0].runs.end());
    return grow(b, net, from, runs, at.next[0]);
  }
  if (at.ends.size() == 1 && at.next.empty()) return lay(b, net, from, at.ends[0], runs);
  TerminalRef hub = from;
  if (b.circuit.part(from.part).kind != "splice" || !runs.empty()) {
    hub = {b.add_fitted_splice(at.place, net.circuit), 0};
    lay(b, net, from, hub, runs);
  }
  for (const TerminalRef& end : at.ends) lay(b, net, hub, end, {});
  for (const Branch& next : at.next) grow(b, net, hub, next.runs, next);
}

// False after an error: no run leads there.
bool reach(Builder& b, const Net& net, const TerminalRef& user, std::vector<const RunRow*>& runs) {
  const std::string& place = b.circuit.part(user.part).place;
  if (place != net.place && b.distance(net.place, place) < 0) {
    b.diagnostics.error("unreachable", net.job, "no run leads from the " + net.place + " to '" + place + "'", "add the missing stretch under runs:");
    return false;
  }
  runs = path(b, net.place, place);
  return true;
}

void lay_net(Builder& b, const Net& net) {
  if (!net.root.part || net.users.empty()) return;
  Branch root{net.place, {}, {}, {}};
  for (const TerminalRef& user : net.users) {
    std::vector<const RunRow*> runs;
    if (!reach(b, net, user, runs)) return;
    if (net.star)
      lay(b, net, net.root, user, runs);
    else
      insert(root, runs, user);
  }
  if (!net.star) grow(b, net, net.root, {}, root);
}

// The coach's white wire to its stud; what else returns on it hangs on it as on any net.
void lay_white(Builder& b) {
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
  std::multimap<std::string, std::size_t> whites;   // by signal; several plugs may bring a ground
  for (std::size_t n = 0; n < b.nets.size(); ++n)
    if (const TerminalRef root = b.nets[n].root; root.part && b.circuit.part(root.part).kind == "contact" && b.catalogue.tow_signals.at(b.nets[n].circuit).kind == "ground")
      whites.emplace(b.nets[n].circuit, n);
  for (const auto& [signal, index] : whites) {
    Net& net = b.nets[index];
    net.job = white->name.place;
    net.lead_m = 0;
    Wire w = fitted(b, signal, net.root, {stud, 0}, {white->name.place, {}});
    w.from = {stud, 0};
    w.to = net.root;
    w.length_m = (along >= 0 ? along : b.rule("ground_lead_m")) + b.rule("inlet_loop_m");
    b.add_wire(std::move(w));
  }
  if (along < 0) b.assume("white wire", "0.3 m from the inlet to " + white->at.value + ", plus the loop", "ground_lead_m");
}

// Lamps that hang on the lamp side of another's cut: its lamp-side wire gets a splice.
void lay_refed(Builder& b) {
  for (const auto& [host, users] : b.lamp_side_users) {
    const LampIntent& lamp = b.circuit.lamps[static_cast<std::size_t>(host)];
    bool found = false;
    for (CutPoint& cut : b.circuit.cuts) {
      if (!cut.lamp_side || b.circuit.wires[static_cast<std::size_t>(cut.lamp_side.v)].to.part != lamp.lamp) continue;
      found = true;
      const std::string place = b.circuit.part(lamp.lamp).place;
      const PartId splice = b.add_fitted_splice(place, lamp.tow_signal);
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
    if (!found)
      b.diagnostics.error("refeed", b.spec.isolation.plate->place, "the wire of that lamp is not cut: the plate lamp has no lamp side to hang on",
                          "leave plate: out, or feed the plate lamp by a method of its own");
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
  lay_white(b);
  if (b.diagnostics.has_errors()) return;
  std::vector<std::tuple<std::size_t, std::string, int>> order;  // by contact number; what has no contact comes last
  for (std::size_t n = 0; n < b.nets.size(); ++n) {
    std::string contact = "~";
    const Part& root = b.circuit.part(b.nets[n].root.part ? b.nets[n].root.part : PartId{0});
    if (b.nets[n].root.part && root.kind == "contact") contact = root.contact;
    order.emplace_back(contact == "~" ? 99 : contact.size(), contact, static_cast<int>(n));
  }
  std::sort(order.begin(), order.end());
  for (const auto& [digits, contact, net] : order) lay_net(b, Net(b.nets[static_cast<std::size_t>(net)]));
  lay_refed(b);
  count_bundles(b);
}

}  // namespace towloom
