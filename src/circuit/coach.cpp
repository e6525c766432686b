// The motorhome's outlet, the cord and the car's inlet.
#include <algorithm>
#include <cmath>

#include "circuit/builder.hpp"

namespace towloom {
namespace {

// What a contact carries: as found by test, else as the catalogue has it.
std::string function_of(const Builder& b, const ConnectorContact& contact, const FoundContact** row) {
  *row = nullptr;
  for (const FoundContact& f : b.spec.coach.found)
    if (f.contact.value == contact.number || (!contact.mark.empty() && f.contact.value == contact.mark)) *row = &f;
  return *row != nullptr && (*row)->does ? (*row)->does->value : contact.function;
}

// Amps of the smooth filament law (electrical reference: I = Id x (x^2+e^2)^((k-1)/2)).
double filament_amps(const Builder& b, double design_v, double design_a, double volts) {
  const double x = volts / design_v, e = b.rule("filament_epsilon");
  return design_a * x * std::pow(x * x + e * e, (b.rule("filament_exponent") - 1) / 2);
}

struct OwnLamp {
  double volts = 0, amps = 0;
};

OwnLamp coach_lamp(Builder& b, const std::string& signal) {
  if (b.catalogue.tow_signals.at(signal).own.empty()) return {};
  const std::string bulb = b.spec.coach.lamp ? b.spec.coach.lamp->value : "P21/5W";
  const TowSignal& tow = b.catalogue.tow_signals.at(signal);
  const std::vector<Filament>& filaments = b.catalogue.bulbs.at(bulb).filaments;
  const Filament& f = tow.own == "dim" ? filaments.back() : filaments.front();
  return {f.volts, f.amps * tow.count};
}

// The outlet's open volts and the resistance behind it, from open and loaded readings taken with the
// coach's own lamp lit: E = Vo + Rs Il(Vo), Rs = (Vo - Vl) / (Il(Vl) - Il(Vo) + load).
Element outlet_source(Builder& b, const std::string& signal, const FoundContact* row, const OwnLamp& own) {
  Element e;
  e.law = Law::source;
  e.gate = Gate::lit;
  e.signal = "coach." + signal;
  if (row == nullptr || !row->open_v || !row->loaded_v) {
    b.assume("outlet, " + signal, "not measured under load: 12.8 V behind 0.1 ohm", "outlet_v");
    e.volts = row != nullptr && row->open_v ? row->open_v->value : b.rule("outlet_v");
    e.ohm = b.rule("outlet_ohm");
    return e;
  }
  const double open = row->open_v->value, loaded = row->loaded_v->value;
  if (!row->load_a) b.assume("outlet, " + signal, "loaded volts read with two 21 W lamps, 4.2 A", "load_a");
  const double load = row->load_a ? row->load_a->value : b.rule("load_a");
  const double lit_open = own.amps > 0 ? filament_amps(b, own.volts, own.amps, open) : 0;
  const double lit_loaded = own.amps > 0 ? filament_amps(b, own.volts, own.amps, loaded) : 0;
  const double rise = lit_loaded - lit_open + load;
  if (rise <= 0)
    b.diagnostics.error("loaded-volts", row->loaded_v->place, "these readings do not belong together: the load draws nothing");
  e.ohm = rise > 0 ? (open - loaded) / rise : 1;
  e.volts = open + e.ohm * lit_open;
  return e;
}

Part contact_part(const Builder& b, const std::string& connector, const Connector& form, const ConnectorContact& contact,
                  const std::string& signal, const std::string& first, const std::string& second) {
  Part p;
  p.id = connector + "." + contact.number;
  p.kind = "contact";
  p.group = connector;
  p.contact = contact.number;
  p.model = form.name;
  p.function = signal;
  p.title = contact.mark.empty() ? contact.number : contact.mark;
  p.status = Status::coach;
  p.side = signal.rfind("right", 0) == 0 ? Side::right : b.catalogue.tow_signals.at(signal).kind == "lamp" ? Side::left : Side::centre;
  p.terminals = {first, second};
  p.elements = {resistor(0, 1, form.contact_ohm)};
  p.origin = {b.spec.coach.outlet.form.place, contact.provenance.place};
  return p;
}

void build_cord(Builder& b, const ConnectorContact& at_outlet, const std::string& signal, TerminalRef from) {
  const ConnectorContact* at_inlet = nullptr;
  for (const ConnectorContact& c : b.inlet->contacts)
    if (c.function == at_outlet.function) at_inlet = &c;
  if (at_inlet == nullptr) {
    b.diagnostics.error("cord", b.spec.cord.place,
                        "the " + b.inlet->title + " has no contact for " + at_outlet.title + " of the outlet, which this job needs");
    return;
  }
  Part p = contact_part(b, "J2", *b.inlet, *at_inlet, signal, "cord", "car");
  p.zone = Zone::inlet;
  p.place = "inlet";
  p.elements[0].gate = Gate::selected;
  p.elements[0].signal = "coupled";
  const PartId id = b.add(std::move(p));
  b.signal_contact[signal] = at_inlet->number;
  b.signal_net[signal] = b.add_net({signal, {id, 1}, {}, "inlet", 0, false, b.spec.isolation.place});
  Wire core;
  core.id = "C" + at_outlet.number;
  const bool ground = b.catalogue.tow_signals.at(signal).kind == "ground";
  core.from = ground ? TerminalRef{id, 0} : from;
  core.to = ground ? from : TerminalRef{id, 0};
  core.circuit = signal;
  core.colour = at_outlet.colour.at(b.outlet->default_colours);
  core.size = b.spec.cord.wire ? b.spec.cord.wire->value : WireSizeName{"16", WireSizeName::System::awg};
  core.size_fixed = true;
  core.group = "cord";
  core.length_m = b.spec.cord.length_m.value;
  core.bundle = static_cast<int>(b.outlet->contacts.size());
  core.status = Status::coach;
  core.origin.job = b.spec.cord.place;
  b.add_wire(std::move(core));
}

}  // namespace

void build_coach(Builder& b) {
  Part coach;
  coach.id = "COACH";
  coach.kind = "coach-feed";
  coach.title = "motorhome";
  coach.zone = Zone::coach;
  coach.status = Status::coach;
  coach.terminals = {"ground"};
  coach.origin.job = b.spec.coach.place;
  struct Used {
    const ConnectorContact* contact;
    std::string signal;
    int terminal;
  };
  std::vector<Used> used;
  for (const ConnectorContact& contact : b.outlet->contacts) {
    const FoundContact* row = nullptr;
    const std::string signal = function_of(b, contact, &row);
    const auto known = b.catalogue.tow_signals.find(signal);
    if (known == b.catalogue.tow_signals.end() || b.wanted.count(signal) == 0) continue;
    if (known->second.kind == "ground") {
      used.push_back({&contact, signal, 0});
    } else {
      const auto twice = std::find_if(used.begin(), used.end(), [&](const Used& u) { return u.signal == signal; });
      if (twice != used.end()) {
        b.diagnostics.error("signal-twice", row != nullptr ? row->contact.place : b.spec.coach.place,
                            "contacts " + twice->contact->number + " and " + contact.number + " both carry " + signal);
        continue;
      }
      const OwnLamp own = coach_lamp(b, signal);
      Element source = outlet_source(b, signal, row, own);
      source.a = static_cast<int>(coach.terminals.size());
      source.b = 0;
      coach.elements.push_back(source);
      if (row != nullptr && row->off_ohm)
        coach.elements.push_back(gated(resistor(source.a, 0, row->off_ohm->value), Gate::idle, source.signal));
      if (own.amps > 0) coach.elements.push_back(filament(source.a, 0, own.volts, own.amps));
      used.push_back({&contact, signal, source.a});
      coach.terminals.push_back(signal);
    }
  }
  b.assume("coach's own lamps", "one P21/5W bright on each stop/turn wire, two dim on the tail wire", nullptr);
  const PartId coach_id = b.add(std::move(coach));
  for (const Used& u : used) {
    Part p = contact_part(b, "J1", *b.outlet, *u.contact, u.signal, "coach", "cord");
    p.zone = Zone::coach;
    const PartId id = b.add(std::move(p));
    Wire stub;
    stub.id = "M" + u.contact->number;
    const bool ground = u.terminal == 0;
    stub.from = ground ? TerminalRef{id, 0} : TerminalRef{coach_id, u.terminal};
    stub.to = ground ? TerminalRef{coach_id, u.terminal} : TerminalRef{id, 0};
    stub.circuit = u.signal;
    stub.colour = u.contact->colour.at(b.outlet->default_colours);
    stub.fixed_ohm = b.rule("outlet_stub_ohm");
    stub.status = Status::coach;
    stub.group = "coach";
    b.add_wire(std::move(stub));
    build_cord(b, *u.contact, u.signal, {id, 1});
  }
  if (b.circuit.part(coach_id).elements.empty())
    b.diagnostics.error("no-source", b.spec.coach.place, "no contact of the outlet was found to carry a signal that this job needs",
                        "without a source no lamp can light: test again");
  if (b.signal_net.count("ground") == 0)
    b.diagnostics.error("no-ground", b.spec.coach.place, "no contact of the outlet was found to be ground",
                        "without a return wire no lamp can light: test again");
}

}  // namespace towloom
