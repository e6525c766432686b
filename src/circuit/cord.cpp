// The cord's cores and the car's inlet.
#include <algorithm>

#include "circuit/builder.hpp"

namespace towloom {
namespace {

constexpr double open_core_ohm = 1e9;   // as an open wire of specs/faults

// The inlet's contact, as the car uses it; where a wanted signal arrives a net begins.
PartId add_inlet_contact(Builder& b, const PlugForms& plug, const ConnectorContact& contact, const std::string& meant) {
  Part p = contact_part(b, plug.plug.inlet_id(), *plug.inlet, contact, meant, plug.plug.inlet->form.place);
  p.terminals = {"cord", "car"};
  p.zone = Zone::inlet;
  p.place = "inlet";
  p.elements[0].gate = Gate::selected;
  p.elements[0].signal = "coupled";
  const PartId id = b.add(std::move(p));
  const auto colour = contact.colour.find(plug.inlet->default_colours);
  if (colour != contact.colour.end()) b.signal_colour.emplace(meant, colour->second);
  b.signal_net.emplace(meant, b.add_net({meant, {id, 1}, {}, "inlet", 0, false, b.spec.isolation.place}));
  return id;
}

Wire core_wire(const Plug& plug, const Connector& form, const ConnectorContact& from, const std::string& signal, bool ground,
               TerminalRef outlet, TerminalRef inlet) {
  const Cord& cord = *plug.cord;
  const std::string group = "cord" + plug.of();
  Wire core;
  core.id = core_id(plug, from.number);
  core.from = ground ? inlet : outlet;
  core.to = ground ? outlet : inlet;
  core.circuit = signal;
  core.colour = from.colour.at(form.default_colours);
  const auto own = std::find_if(cord.cores.begin(), cord.cores.end(), [&](const auto& row) { return row.first.value == signal; });
  core.size = own != cord.cores.end() ? own->second.value : cord.wire ? cord.wire->value : WireSizeName{"16", WireSizeName::System::awg};
  core.size_fixed = true;
  core.group = own != cord.cores.end() ? group + " " + signal : group;
  core.length_m = cord.length_m.value;
  core.bundle = static_cast<int>(form.contacts.size());
  core.status = Status::coach;
  core.origin.job = cord.place;
  return core;
}

// One core for several contacts of the inlet: it is parted inside the cord's plug.
void part_core(Builder& b, const Plug& plug, Wire core, const std::vector<PartId>& ends) {
  const PartId joint = b.add_splice("P" + plug.inlet_id().substr(1) + "-" + core.id, "inlet", Side::centre, Zone::cord, Status::coach);
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

std::string core_id(const Plug& plug, const std::string& contact, char letter) {
  return letter + (plug.index == 0 ? "" : plug.outlet_id().substr(1) + ".") + contact;
}

std::vector<PlugForms> find_plugs(const Builder& b) {
  std::vector<PlugForms> out;
  for (const Plug& plug : plugs(b.spec)) {
    const Connector *outlet = &b.catalogue.connectors.at(plug.outlet->form.value), *inlet = &b.catalogue.connectors.at(plug.inlet->form.value);
    out.push_back({plug, outlet, inlet, job_cord(b.spec, *outlet, *inlet, Lies::as_it_should, plug.index)});
  }
  return out;
}

std::vector<std::vector<const CordCore*>> wanted_cores(const Builder& b, const std::vector<PlugForms>& all) {
  std::vector<std::vector<const CordCore*>> out;
  std::set<std::string> everywhere;   // signals that a plug brings
  for (const PlugForms& p : all) {
    std::set<std::string> here;
    const auto meant = [&](const CordCore& core) -> const std::string& { return p.cord.meant.at(core.to->number); };
    const auto is_return = [&](const std::string& signal) { return b.catalogue.tow_signals.at(signal).kind == "ground"; };
    const auto wanted = [&](const std::string& signal) { return b.wanted.count(signal) != 0 && b.catalogue.tow_signals.count(signal) != 0; };
    for (const CordCore& core : p.cord.cores)
      if (wanted(meant(core)) && !is_return(meant(core)) && everywhere.count(meant(core)) == 0) here.insert(meant(core));
    // A second plug brings its ground if it brings anything; a supply's own return comes with the supply.
    const auto comes = [&](const std::string& signal) {
      if (!is_return(signal)) return here.count(signal) != 0;
      return signal == "ground" ? p.plug.index == 0 || !here.empty() : here.count(signal.substr(0, signal.find("-return"))) != 0;
    };
    std::set<std::string> taken;
    out.emplace_back();
    for (const CordCore& core : p.cord.cores)
      if (wanted(meant(core)) && comes(meant(core)) && taken.insert(meant(core)).second) out.back().push_back(&core);
    everywhere.insert(here.begin(), here.end());
  }
  return out;
}

void build_cord(Builder& b, const PlugForms& p, const std::vector<const CordCore*>& wanted, const std::map<std::string, PartId>& outlet) {
  std::map<const ConnectorContact*, std::vector<PartId>> ends;   // outlet's contact -> parts of the inlet
  for (const CordCore* core : wanted) {
    const std::string &meant = p.cord.meant.at(core->to->number), &carried = p.cord.carries.at(core->from->number);
    const PartId id = add_inlet_contact(b, p, *core->to, meant);
    if (outlet.count(core->from->number) == 0) continue;
    ends[core->from].push_back(id);
    if (carried != meant) b.circuit.brought_by[meant] = carried;
  }
  for (const auto& [from, parts] : ends) {   // in the order of the outlet's contacts
    const std::string& carried = p.cord.carries.at(from->number);
    Wire core = core_wire(p.plug, *p.outlet, *from, carried, b.catalogue.tow_signals.at(carried).kind == "ground", {outlet.at(from->number), 1}, {parts[0], 0});
    if (parts.size() == 1)
      b.add_wire(std::move(core));
    else
      part_core(b, p.plug, std::move(core), parts);
  }
}

void note_lost(Builder& b, const std::vector<PlugForms>& all) {
  for (const PlugForms& p : all)
    for (const auto& [number, signal] : p.cord.carries)
      if (b.signal_net.count(signal) == 0 && b.catalogue.tow_signals.count(signal) != 0)
        b.lost[signal] = "contact " + number + " of the outlet" + p.plug.of() + " carries " + signal + ", but no core of the cord takes it to the " + p.inlet->title;
  if (b.signal_net.count("ground") == 0)
    b.diagnostics.error("no-ground", b.spec.coach.place,
                        b.lost.count("ground") != 0 ? b.lost.at("ground") : "no contact of the outlet was found to be ground",
                        "without a return wire no lamp can light: test again");
}

namespace {

void lay_cord_as_metered(Circuit& circuit, const Spec& spec, const Catalogue& catalogue, const Plug& plug) {
  const Connector &outlet = catalogue.connectors.at(plug.outlet->form.value), &inlet = catalogue.connectors.at(plug.inlet->form.value);
  const JobCord cord = job_cord(spec, outlet, inlet, Lies::as_metered, plug.index);
  if (std::none_of(cord.cores.begin(), cord.cores.end(), [](const CordCore& c) { return c.crossed || c.to == nullptr; })) return;
  for (const ConnectorContact& contact : outlet.contacts) {
    const PartId from = circuit.find(plug.outlet_id() + "." + contact.number);
    if (!from) continue;
    PartId to;
    bool as_it_should = false;
    for (const CordCore& core : cord.cores) {
      if (core.from != &contact || core.to == nullptr) continue;
      to = circuit.find(plug.inlet_id() + "." + core.to->number);
      as_it_should = as_it_should || !core.crossed;
    }
    const auto wire = std::find_if(circuit.wires.begin(), circuit.wires.end(), [&](const Wire& w) { return w.id == core_id(plug, contact.number); });
    if (as_it_should) continue;
    if (wire == circuit.wires.end()) {
      if (to) circuit.wires.push_back(core_wire(plug, outlet, contact, circuit.part(from).function, false, {from, 1}, {to, 0}));
    } else if (to) {
      (wire->from.part == from ? wire->to : wire->from) = {to, 0};
    } else {
      wire->size.reset();
      wire->fixed_ohm = open_core_ohm;   // it ends on nothing that the car uses
    }
  }
}

}  // namespace

void lay_as_metered(Circuit& circuit, const Spec& spec, const Catalogue& catalogue) {
  for (const Plug& plug : plugs(spec)) lay_cord_as_metered(circuit, spec, catalogue, plug);
  number_nets(circuit);
}

}  // namespace towloom
