// The nets that the ports of fragments stand for.
#include <algorithm>

#include "circuit/builder.hpp"

namespace towloom {
namespace {

int named(Builder& b, const std::string& key, const Net& fresh) {
  const auto known = b.named_net.find(key);
  return known != b.named_net.end() ? known->second : b.named_net[key] = b.add_net(fresh);
}

std::string beside(const GroundRow& g) {
  return g.beside ? g.beside->value : g.takes && g.takes->value == "coach white" ? "inlet" : "";
}

// The nearest ground along the runs, of those whose place is known.
int ground_net(Builder& b, const std::string& place) {
  const GroundRow* found = nullptr;
  double nearest = 0;
  for (const GroundRow& g : b.spec.grounds) {
    const double along = beside(g).empty() ? -1 : b.distance(place, beside(g));
    if (along < 0 || (found != nullptr && along >= nearest)) continue;
    found = &g;
    nearest = along;
  }
  if (found == nullptr) return -1;
  const PartId stud = b.add_stud(found->name.value, found->at.value, side_of_place(beside(*found)), Zone::run, Status::fitted, {found->name.place, {}});
  return named(b, "ground " + found->name.value,
               {"local-ground", {stud, 0}, {}, beside(*found), b.rule("ground_lead_m"), true, found->name.place});
}

// The car's line that is live with the ignition on, made when something asks for it.
TerminalRef ignition(Builder& b) {
  if (const TerminalRef old = b.circuit.terminal("IGN.2"); old.part) return old;
  Part p;
  p.id = "IGN";
  p.kind = "switch";
  p.title = "ignition switch";
  p.place = "battery";
  p.zone = Zone::source;
  p.status = Status::factory;
  p.terminals = {"1", "2"};
  p.elements = {gated(resistor(0, 1, b.rule("switch_ohm")), Gate::lit, "car.ignition")};
  p.origin.job = b.spec.car.place;
  const PartId id = b.add(std::move(p));
  b.factory_wire(b.circuit.terminal("BAT.+"), {id, 0}, {}, b.rule("factory_front_m"), {b.spec.car.place, {}});
  return {id, 1};
}

// The contact's own wire, before whatever gives this signal anew.
int contact_net(Builder& b, const std::string& signal) {
  for (std::size_t n = 0; n < b.nets.size(); ++n) {
    const TerminalRef root = b.nets[n].root;
    if (b.nets[n].circuit == signal && root.part && b.circuit.part(root.part).kind == "contact") return static_cast<int>(n);
  }
  return -1;
}

int signal_net(Builder& b, const std::string& signal, const Site& site) {
  const auto known = b.signal_net.find(signal);
  if (known != b.signal_net.end()) return known->second;
  std::string list;
  for (const auto& [name, net] : b.signal_net)
    if (name != "ground") list += (list.empty() ? "" : ", ") + name;
  const auto lost = b.lost.find(signal);
  b.diagnostics.error("no-signal", site.recipe.place,
                      site.recipe.method->title + " wants the coach's " + signal + " signal, and " +
                          (lost == b.lost.end() ? "no contact was found to carry it" : lost->second),
                      "found: " + list + "; see does: under coach: found");
  return -1;
}

}  // namespace

int net_of_port(Builder& b, const PlacedText& port, const std::string& place, const Site& site) {
  const std::string& text = port.value;
  const std::string signal = "signal.";
  if (text == "signal") return signal_net(b, b.circuit.lamps[static_cast<std::size_t>(site.lamp)].tow_signal, site);
  const std::string contact = "coach.";
  if (text.rfind(contact, 0) == 0) {
    const int own = contact_net(b, text.substr(contact.size()));
    return own >= 0 ? own : signal_net(b, text.substr(contact.size()), site);
  }
  if (text.rfind(signal, 0) == 0) return signal_net(b, text.substr(signal.size()), site);
  if (text.rfind("net.", 0) == 0)
    return named(b, site.recipe.method->name + " " + text, {text.substr(4), {}, {}, "", 0, false, site.recipe.place});
  if (text == "battery") return named(b, text, {"battery", b.circuit.terminal("BAT.+"), {}, "battery", 0, true, site.recipe.place});
  if (text == "battery negative") return named(b, text, {"battery-negative", b.circuit.terminal("BAT.-"), {}, "battery", 0, true, site.recipe.place});
  if (text == "ignition") return named(b, text, {"ignition", ignition(b), {}, "battery", 0, true, site.recipe.place});
  if (text == "white") return b.signal_net.at("ground");
  const int ground = text == "ground" ? ground_net(b, place) : -1;
  if (ground < 0) b.diagnostics.error("no-ground", site.recipe.place, "no ground serves '" + place + "'", "add one under grounds: with beside: " + place);
  return ground;
}

}  // namespace towloom
