// The cord's cores and the car's inlet.
#include <algorithm>

#include "circuit/builder.hpp"

namespace towloom {
namespace {

constexpr double open_core_ohm = 1e9;   // as an open wire of specs/faults

// The inlet's contact, as the car uses it; where a wanted signal arrives a net begins.
PartId add_inlet_contact(Builder& b, const ConnectorContact& contact, const std::string& meant) {
  Part p = contact_part(b, "J2", *b.inlet, contact, meant);
  p.terminals = {"cord", "car"};
  p.zone = Zone::inlet;
  p.place = "inlet";
  p.elements[0].gate = Gate::selected;
  p.elements[0].signal = "coupled";
  const PartId id = b.add(std::move(p));
  b.signal_contact[meant] = contact.number;
  b.signal_net[meant] = b.add_net({meant, {id, 1}, {}, "inlet", 0, false, b.spec.isolation.place});
  return id;
}

Wire core_wire(const Spec& spec, const Connector& form, const ConnectorContact& from, const std::string& signal, bool ground,
               TerminalRef outlet, TerminalRef inlet) {
  Wire core;
  core.id = "C" + from.number;
  core.from = ground ? inlet : outlet;
  core.to = ground ? outlet : inlet;
  core.circuit = signal;
  core.colour = from.colour.at(form.default_colours);
  const auto own = std::find_if(spec.cord.cores.begin(), spec.cord.cores.end(), [&](const auto& row) { return row.first.value == signal; });
  core.size = own != spec.cord.cores.end() ? own->second.value : spec.cord.wire ? spec.cord.wire->value : WireSizeName{"16", WireSizeName::System::awg};
  core.size_fixed = true;
  core.group = own != spec.cord.cores.end() ? "cord " + signal : "cord";
  core.length_m = spec.cord.length_m.value;
  core.bundle = static_cast<int>(form.contacts.size());
  core.status = Status::coach;
  core.origin.job = spec.cord.place;
  return core;
}

// One core for several contacts of the inlet: it is parted inside the cord's plug.
void part_core(Builder& b, Wire core, const std::vector<PartId>& ends) {
  const PartId joint = b.add_splice("P2-" + core.id, "inlet", Side::centre, Zone::cord, Status::coach);
  b.circuit.parts[static_cast<std::size_t>(joint.v)].function = core.circuit;
  Wire lead = core;
  core.to = lead.from = {joint, 0};
  lead.length_m = 0;
  lead.size.reset();   // inside the plug
  lead.fixed_ohm = b.rule("unit_wire_ohm");
  b.add_wire(core);
  char letter = 'a';
  for (const PartId& end : ends) {
    lead.id = core.id + letter++;
    lead.to = {end, 0};
    b.add_wire(lead);
  }
}

}  // namespace

std::vector<const CordCore*> wanted_cores(const Builder& b, const JobCord& cord) {
  std::vector<const CordCore*> out;
  std::set<std::string> taken;
  for (const CordCore& core : cord.cores) {
    const std::string& meant = cord.meant.at(core.to->number);
    if (b.wanted.count(meant) != 0 && b.catalogue.tow_signals.count(meant) != 0 && taken.insert(meant).second) out.push_back(&core);
  }
  return out;
}

void build_cord(Builder& b, const JobCord& cord, const std::map<std::string, PartId>& outlet) {
  std::map<const ConnectorContact*, std::vector<PartId>> ends;   // outlet's contact -> parts of the inlet
  for (const CordCore* core : wanted_cores(b, cord)) {
    const std::string &meant = cord.meant.at(core->to->number), &carried = cord.carries.at(core->from->number);
    const PartId id = add_inlet_contact(b, *core->to, meant);
    if (outlet.count(core->from->number) == 0) continue;
    ends[core->from].push_back(id);
    if (carried != meant) b.circuit.brought_by[meant] = carried;
  }
  for (const auto& [from, parts] : ends) {   // in the order of the outlet's contacts
    Wire core = core_wire(b.spec, *b.outlet, *from, cord.carries.at(from->number), b.catalogue.tow_signals.at(cord.carries.at(from->number)).kind == "ground",
                          {outlet.at(from->number), 1}, {parts[0], 0});
    if (parts.size() == 1)
      b.add_wire(std::move(core));
    else
      part_core(b, std::move(core), parts);
  }
  for (const auto& [number, signal] : cord.carries)
    if (b.signal_net.count(signal) == 0 && b.catalogue.tow_signals.count(signal) != 0)
      b.lost[signal] = "contact " + number + " of the outlet carries " + signal + ", but no core of the cord takes it to the " + b.inlet->title;
  if (b.signal_net.count("ground") == 0)
    b.diagnostics.error("no-ground", b.spec.coach.place,
                        b.lost.count("ground") != 0 ? b.lost.at("ground") : "no contact of the outlet was found to be ground",
                        "without a return wire no lamp can light: test again");
}

void lay_as_metered(Circuit& circuit, const Spec& spec, const Catalogue& catalogue) {
  const Connector &outlet = catalogue.connectors.at(spec.coach.outlet.form.value), &inlet = catalogue.connectors.at(spec.car.inlet.form.value);
  const JobCord cord = job_cord(spec, outlet, inlet);
  if (std::none_of(cord.cores.begin(), cord.cores.end(), [](const CordCore& c) { return c.crossed || c.to == nullptr; })) return;
  for (const ConnectorContact& contact : outlet.contacts) {
    const PartId from = circuit.find("J1." + contact.number);
    if (!from) continue;
    PartId to;
    bool as_it_should = false;
    for (const CordCore& core : cord.cores) {
      if (core.from != &contact || core.to == nullptr) continue;
      to = circuit.find("J2." + core.to->number);
      as_it_should = as_it_should || !core.crossed;
    }
    const auto wire = std::find_if(circuit.wires.begin(), circuit.wires.end(), [&](const Wire& w) { return w.id == "C" + contact.number; });
    if (as_it_should) continue;
    if (wire == circuit.wires.end()) {
      if (to) circuit.wires.push_back(core_wire(spec, outlet, contact, circuit.part(from).function, false, {from, 1}, {to, 0}));
    } else if (to) {
      (wire->from.part == from ? wire->to : wire->from) = {to, 0};
    } else {
      wire->size.reset();
      wire->fixed_ohm = open_core_ohm;   // it ends on nothing that the car uses
    }
  }
  number_nets(circuit);
}

}  // namespace towloom
