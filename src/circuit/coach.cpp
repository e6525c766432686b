// The motorhome: its sources, its own lamps and its outlet. Cord and inlet are built in cord.cpp.
#include <cmath>

#include "catalogue/settle_parts.hpp"
#include "circuit/builder.hpp"

namespace towloom {
namespace {

// Amps of the smooth filament law (electrical reference: I = Id x (x^2+e^2)^((k-1)/2)).
double filament_amps(const Builder& b, double design_v, double design_a, double volts) {
  const double x = volts / design_v, e = b.rule("filament_epsilon");
  return design_a * x * std::pow(x * x + e * e, (b.rule("filament_exponent") - 1) / 2);
}

}  // namespace

double coach_duty(const Spec& spec, const Catalogue& catalogue) {
  if (!spec.coach.outputs || spec.coach.outputs->value != "pulse-modulated") return 1;
  return spec.coach.duty ? spec.coach.duty->value : catalogue.rule("coach_duty").value;
}

namespace {

struct OwnLamp {
  double volts = 0, amps = 0;
};

OwnLamp coach_lamp(Builder& b, const std::string& signal) {
  const ContactFunction& tow = b.catalogue.tow_signals.at(signal);
  if (tow.own.empty()) return {};
  const std::string bulb = b.spec.coach.lamp ? b.spec.coach.lamp->value : "P21/5W";
  const std::vector<Filament>& filaments = b.catalogue.bulbs.at(bulb).filaments;
  const Filament& f = tow.own == "dim" ? filaments.back() : filaments.front();
  return {f.volts, f.amps * tow.count};
}

// The outlet's open volts and the resistance behind it, from open and loaded readings taken with the
// coach's own lamp lit: E = Vo + Rs Il(Vo), Rs = (Vo - Vl) / (Il(Vl) - Il(Vo) + load). Of a pulse-modulated output a
// meter shows the mean: what is read over the duty is what the pulse gives, and the lamp has the resistance of its
// RMS volts.
Element outlet_source(Builder& b, const std::string& signal, const FoundContact* row, const OwnLamp& own) {
  Element e;
  e.law = Law::source;
  e.gate = Gate::lit;
  e.signal = "coach." + signal;
  if (b.catalogue.tow_signals.at(signal).kind == "lamp") e.duty = coach_duty(b.spec, b.catalogue);
  if (b.catalogue.tow_signals.at(signal).kind == "supply" && (row == nullptr || !row->live))
    b.assume("outlet, " + signal, "not surveyed whether it is live with the coach's engine off: both are solved", nullptr);
  if (row == nullptr || !row->open_v || !row->loaded_v) {
    b.assume("outlet, " + signal, "not measured under load: 12.8 V behind 0.1 ohm", "outlet_v");
    e.volts = row != nullptr && row->open_v ? row->open_v->value / e.duty : b.rule("outlet_v");
    e.ohm = b.rule("outlet_ohm");
    return e;
  }
  const double open = row->open_v->value / e.duty, loaded = row->loaded_v->value / e.duty, root = std::sqrt(e.duty);
  if (!row->load_a) b.assume("outlet, " + signal, "loaded volts read with two 21 W lamps, 4.2 A", "load_a");
  const double load = (row->load_a ? row->load_a->value : b.rule("load_a")) / e.duty;
  const double lit_open = own.amps > 0 ? filament_amps(b, own.volts, own.amps, root * open) / root : 0;
  const double lit_loaded = own.amps > 0 ? filament_amps(b, own.volts, own.amps, root * loaded) / root : 0;
  const double rise = lit_loaded - lit_open + load;
  if (rise <= 0)
    b.diagnostics.error("loaded-volts", row->loaded_v->place, "these readings do not belong together: the load draws nothing");
  e.ohm = rise > 0 ? (open - loaded) / rise : 1;
  e.volts = open + e.ohm * lit_open;
  return e;
}

// What the coach has on a contact that the car feeds or joins: a lamp or sounder, or a sensing input pulled up.
Element listener(Builder& b, const std::string& kind, int terminal) {
  if (kind == "report") return limited(terminal, 0, 0, 1, b.rule("monitor_a"), 0);
  Element e;
  e.law = Law::source;
  e.a = terminal;
  e.b = 0;
  e.volts = b.rule("outlet_v");
  e.ohm = b.rule("sensing_ohm");
  return e;
}

// The contacts of an outlet from which a core leads, or was found to lead, to something that the job wants.
std::set<const ConnectorContact*> needed(const Builder& b, const PlugForms& p, const std::vector<const CordCore*>& wanted) {
  std::set<const ConnectorContact*> out;
  for (const CordCore* core : wanted) out.insert(core->from);
  for (const CordCore& core : job_cord(b.spec, *p.outlet, *p.inlet, Lies::as_metered, p.plug.index).cores)
    if (core.crossed && b.wanted.count(p.cord.meant.at(core.to->number)) != 0) out.insert(core.from);
  return out;
}

// A signal that the job wants comes out of one contact; grounds may share several.
void check_carriers(Builder& b, const std::vector<PlugForms>& all) {
  std::map<std::string, std::pair<std::string, std::string>> carrier;   // signal -> contact, " of the charge plug"
  for (const PlugForms& p : all)
    for (const ConnectorContact& contact : p.outlet->contacts) {
      const std::string& signal = p.cord.carries.at(contact.number);
      const auto known = b.catalogue.tow_signals.find(signal);
      if (known == b.catalogue.tow_signals.end() || known->second.kind == "ground" || b.wanted.count(signal) == 0) continue;
      const auto [twice, first] = carrier.emplace(signal, std::pair{contact.number, p.plug.of()});
      const FoundContact* row = found_row(b.spec.coach, contact, p.plug.index);
      const auto& [other, of] = twice->second;
      const std::string where = p.plug.index > 0 && of.empty() ? " of the main outlet" : of;
      if (!first)
        b.diagnostics.error("signal-twice", row != nullptr ? row->contact.place : p.plug.outlet->form.place,
                            "contacts " + other + where + " and " + contact.number + p.plug.of() + " both carry " + signal,
                            p.plug.index == 0 ? "test the outlet again" : "test both outlets; write does: nothing at the one that this job leaves alone");
    }
}

// A source with the coach's own lamp; the terminal on which it stands.
int add_source(Builder& b, Part& coach, const FoundContact* row, const std::string& signal) {
  const OwnLamp own = coach_lamp(b, signal);
  Element source = outlet_source(b, signal, row, own);
  source.a = static_cast<int>(coach.terminals.size());
  source.b = 0;
  coach.elements.push_back(source);
  if (row != nullptr && row->off_ohm)
    coach.elements.push_back(gated(resistor(source.a, 0, row->off_ohm->value), Gate::idle, source.signal));
  if (own.amps > 0) coach.elements.push_back(filament(source.a, 0, own.volts, own.amps));
  coach.terminals.push_back(signal);
  return source.a;
}

Wire stub_wire(const Builder& b, const PlugForms& p, const ConnectorContact& contact, const std::string& signal, TerminalRef coach, TerminalRef outlet) {
  Wire stub;
  stub.id = core_id(p.plug, contact.number, 'M');
  const bool ground = coach.index == 0;
  stub.from = ground ? outlet : coach;
  stub.to = ground ? coach : outlet;
  stub.circuit = signal;
  stub.colour = contact.colour.at(p.outlet->default_colours);
  stub.fixed_ohm = b.rule("outlet_stub_ohm");
  stub.status = Status::coach;
  stub.group = "coach";
  return stub;
}

}  // namespace

Part contact_part(const Builder& b, const std::string& connector, const Connector& form, const ConnectorContact& contact,
                  const std::string& signal, Place job) {
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
  p.elements = {resistor(0, 1, form.contact_ohm)};
  p.origin = {job, contact.provenance.place};
  return p;
}

namespace {

// The coach's side of one contact: a terminal of its own, or its ground; nothing if the job leaves the contact alone.
std::optional<int> coach_terminal(Builder& b, Part& coach, const PlugForms& p, const ConnectorContact& contact) {
  const std::string& signal = p.cord.carries.at(contact.number);
  const auto known = b.catalogue.tow_signals.find(signal);
  if (known == b.catalogue.tow_signals.end()) return std::nullopt;
  if (known->second.kind == "ground") return 0;
  if (known->second.kind != "report" && known->second.kind != "presence")
    return add_source(b, coach, found_row(b.spec.coach, contact, p.plug.index), signal);
  const int terminal = static_cast<int>(coach.terminals.size());
  coach.elements.push_back(listener(b, known->second.kind, terminal));
  coach.terminals.push_back(signal);
  return terminal;
}

}  // namespace

void build_coach(Builder& b) {
  const std::vector<PlugForms> all = find_plugs(b);
  Part coach;
  coach.id = "COACH";
  coach.kind = "coach-feed";
  coach.title = "motorhome";
  coach.zone = Zone::coach;
  coach.status = Status::coach;
  coach.terminals = {"ground"};
  coach.origin.job = b.spec.coach.place;
  const auto cores = wanted_cores(b, all);
  check_carriers(b, all);
  struct Used {
    const ConnectorContact* contact;
    int terminal;
  };
  std::vector<std::vector<Used>> used(all.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::set<const ConnectorContact*> contacts = needed(b, all[i], cores[i]);
    for (const ConnectorContact& contact : all[i].outlet->contacts)
      if (contacts.count(&contact) != 0)
        if (const auto terminal = coach_terminal(b, coach, all[i], contact)) used[i].push_back({&contact, *terminal});
    if (i > 0 && cores[i].empty())
      b.diagnostics.warning("plug-unused", b.spec.second_plugs[i - 1].name.place, "nothing of this job comes over the " + all[i].plug.name,
                            "name what its contacts do under found:, or take the plug out");
  }
  if (coach_duty(b.spec, b.catalogue) < 1 && !b.spec.coach.duty) b.assume("outlet's pulses", "duty not surveyed", "coach_duty");
  b.assume("coach's own lamps", "one P21/5W bright on each stop/turn wire, two dim on the tail wire", nullptr);
  const PartId coach_id = b.add(std::move(coach));
  for (std::size_t i = 0; i < all.size(); ++i) {
    std::map<std::string, PartId> outlet;   // contact number -> part
    for (const auto& [contact, terminal] : used[i]) {
      const std::string& signal = all[i].cord.carries.at(contact->number);
      Part p = contact_part(b, all[i].plug.outlet_id(), *all[i].outlet, *contact, signal, all[i].plug.outlet->form.place);
      p.terminals = {"coach", "cord"};
      p.zone = Zone::coach;
      const PartId id = outlet[contact->number] = b.add(std::move(p));
      b.add_wire(stub_wire(b, all[i], *contact, signal, {coach_id, terminal}, {id, 0}));
    }
    build_cord(b, all[i], cores[i], outlet);
  }
  note_lost(b, all);
  if (b.circuit.part(coach_id).elements.empty())
    b.diagnostics.error("no-source", b.spec.coach.place, "no contact of the outlet was found to carry a signal that this job needs",
                        "without a source no lamp can light: test again");
}

}  // namespace towloom
