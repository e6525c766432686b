#include "check/as_drawn.hpp"

#include <algorithm>
#include <map>

namespace towloom {
namespace {

constexpr double broken_ohm = 1e6;   // from here on as good as open: drawn as a break
constexpr double joined_ohm = 1e-9;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

class Hand {
 public:
  Hand(Circuit& c, const Observed& o, std::string letter, const Spec& spec, const Catalogue& catalogue)
      : c_(c), o_(o), letter_(std::move(letter)), spec_(spec), catalogue_(catalogue) {}
  void draw();
  void operator()(const WireInSeries&);
  void operator()(const ElementInSeries& x) { in_part(x.part, x.element, x.ohm, x); }
  void operator()(const ElementBecomes& x);
  void operator()(const ElementReversed& x);
  void operator()(const LeadsExchanged& x) { as_it_is(x); }
  void operator()(const Bridge&);
  void operator()(const ModeForced& x) { as_it_is(x); }

 private:
  Part& part(PartId id) { return c_.parts[at(id.v)]; }
  void as_it_is(const Change& x) { c_ = with_fault(std::move(c_), {"", "", {x}}, catalogue_); }
  std::string name();
  PartId add_resistance(double ohm, TerminalRef beside);
  void before(TerminalRef, double ohm);
  void add_lead(Wire, const std::string& id);
  void in_part(PartId, int element, double ohm, const Change&);
  void lay_loose(const LooseCore&);
  void rename_cores(const Circuit& before);

  Circuit& c_;
  const Observed& o_;
  std::string letter_;
  const Spec& spec_;
  const Catalogue& catalogue_;
  int added_ = 0;
};

// "A"; what one observation adds besides: "A2".
std::string Hand::name() {
  std::string out = letter_ + (added_ == 0 ? "" : std::to_string(added_ + 1));
  ++added_;
  while (c_.find(out)) out += "'";
  return out;
}

PartId Hand::add_resistance(double ohm, TerminalRef at_end) {
  const Part& beside = part(at_end.part);
  Part p;
  p.id = name();
  p.kind = ohm >= broken_ohm ? "break" : "resistor";
  p.title = p.id;
  p.value = ohm >= broken_ohm ? "" : ohm_text(ohm);
  p.place = beside.place;
  p.side = beside.side;
  p.zone = beside.kind == "contact" && beside.zone == Zone::inlet && at_end.index == 0 ? Zone::cord : beside.zone;
  p.terminals = {"1", "2"};
  p.elements.resize(1);
  p.elements[0].b = 1;
  p.elements[0].ohm = ohm;
  p.found = "added";
  p.origin.job = o_.row->what.place;
  c_.parts.push_back(std::move(p));
  return {static_cast<int>(c_.parts.size()) - 1};
}

// Between a terminal and all wires that end there; its terminal 1 lies where the current comes from.
void Hand::before(TerminalRef t, double ohm) {
  const PartId id = add_resistance(ohm, t);
  const bool feeds = std::any_of(c_.wires.begin(), c_.wires.end(), [&](const Wire& w) { return w.from == t; });
  Wire lead;
  for (Wire& w : c_.wires)
    for (TerminalRef* end : {&w.from, &w.to})
      if (*end == t) {
        lead = w;
        *end = {id, feeds ? 1 : 0};
      }
  lead.from = feeds ? t : TerminalRef{id, 1};
  lead.to = feeds ? TerminalRef{id, 0} : t;
  add_lead(std::move(lead), part(id).id + "-lead");
}

// A stretch of the wire that goes on behind it: no label of its own.
void Hand::add_lead(Wire lead, const std::string& id) {
  lead.id = id;
  lead.length_m = 0;
  lead.size.reset();
  lead.fixed_ohm = joined_ohm;
  lead.group = "inside";
  c_.wires.push_back(std::move(lead));
}

void Hand::operator()(const WireInSeries& x) {
  if (std::any_of(o_.loose.begin(), o_.loose.end(), [&](const LooseCore& l) { return l.core == x.wire; })) return;   // ends elsewhere
  Wire& wire = c_.wires[at(x.wire.v)];
  const auto is_stud = [&](TerminalRef t) { return part(t.part).kind == "stud"; };   // has no room before it
  // At the part that the row names, else at the far end.
  const bool near_from = (part(wire.from.part).id == o_.about && !is_stud(wire.from)) || is_stud(wire.to);
  const TerminalRef end = near_from ? wire.from : wire.to;
  const PartId id = add_resistance(x.ohm, end);
  Wire& cut = c_.wires[at(x.wire.v)];
  Wire lead = cut;
  if (near_from) {
    lead.to = {id, 0};
    cut.from = {id, 1};
  } else {
    cut.to = {id, 0};
    lead.from = {id, 1};
  }
  add_lead(std::move(lead), part(id).id + "-lead");
}

// A part that current passes gets what is in series beside it; a ground symbol shows it itself.
void Hand::in_part(PartId id, int element, double ohm, const Change& change) {
  const Part& p = part(id);
  const Element& e = p.elements[at(element)];
  const bool passes = p.terminals.size() == 2 && p.kind != "lamp" && p.kind != "load" && p.kind != "stud" && std::max(e.a, e.b) < 2;
  const auto wired = [&](TerminalRef t) { return std::any_of(c_.wires.begin(), c_.wires.end(), [&](const Wire& w) { return w.from == t || w.to == t; }); };
  for (const int side : {1, 0})
    if (passes && wired({id, side})) return before({id, side}, ohm);
  as_it_is(change);
  part(id).found = ohm >= broken_ohm ? "open" : "poor";
}

void Hand::operator()(const ElementBecomes& x) {
  if (x.ohm >= broken_ohm && o_.missing != x.part && part(x.part).elements[at(x.element)].law == Law::resistor) return in_part(x.part, x.element, x.ohm, x);
  as_it_is(x);
  if (o_.missing == x.part) part(x.part).value.clear();
  part(x.part).found = o_.missing == x.part ? "missing" : x.ohm >= broken_ohm ? "open" : "joined";
}

void Hand::operator()(const ElementReversed& x) {
  Part& p = part(x.part);
  const int anode = p.elements[at(x.element)].a;   // of the sound one
  as_it_is(x);
  std::string& found = part(x.part).found;
  if (anode < static_cast<int>(p.terminals.size())) found = (found.empty() ? "reversed" : found) + "-" + part(x.part).terminals[at(anode)];
}

void Hand::operator()(const Bridge& x) {
  const auto outer = [&](TerminalRef t) {   // the car's body itself is drawn as a ground symbol
    if (part(t.part).kind != "stud" || t.index == 0) return t;
    Part body = part(t.part);
    body.id = body.title = "BODY";
    body.elements[0].ohm = joined_ohm;
    if (const PartId old = c_.find(body.id)) return TerminalRef{old, 0};
    c_.parts.push_back(std::move(body));
    return TerminalRef{{static_cast<int>(c_.parts.size()) - 1}, 0};
  };
  const TerminalRef a = outer(x.a), b = outer(x.b);
  const PartId id = add_resistance(x.ohm, part(a.part).kind == "coach-feed" ? a : b);
  if (part(a.part).kind == "coach-feed") part(id).zone = Zone::inlet;
  for (const auto& [from, to] : {std::pair{a, TerminalRef{id, 0}}, {TerminalRef{id, 1}, b}}) {
    Wire w;
    w.from = from;
    w.to = to;
    w.status = Status::factory;
    add_lead(std::move(w), part(id).id + (to.part == id ? "-1" : "-2"));
  }
}

// On the contact where it was found, behind which this job has nothing; else it hangs.
void Hand::lay_loose(const LooseCore& loose) {
  const std::vector<Plug> all = plugs(spec_);
  const auto plug = std::find_if(all.begin(), all.end(), [&](const Plug& p) { return p.inlet_id() == loose.inlet; });
  const auto like = std::find_if(c_.parts.begin(), c_.parts.end(), [&](const Part& p) { return p.kind == "contact" && p.group == loose.inlet; });
  if (like == c_.parts.end() || plug == all.end()) return;
  Part end = *like;
  end.function.clear();
  end.side = Side::centre;
  bool known = false;
  for (const ConnectorContact& c : catalogue_.connectors.at(plug->inlet->form.value).contacts) {
    if (c.number != loose.on && c.mark != loose.on) continue;
    known = true;
    end.id = loose.inlet + "." + c.number;
    end.contact = c.number;
    end.title = c.mark.empty() ? c.number : c.mark;
  }
  if (!known) {
    end.kind = "loose-end";
    end.id = end.title = name();
    end.terminals = {"1"};
    end.elements.clear();
    end.found = "added";
  }
  PartId id = c_.find(end.id);
  if (!id) {
    c_.parts.push_back(end);
    id = {static_cast<int>(c_.parts.size()) - 1};
  }
  Wire& w = c_.wires[at(loose.core.v)];
  (part(w.from.part).group == loose.inlet ? w.from : w.to) = {id, 0};
}

// A core has the mark and the colour of the outlet's contact from which it leads, wherever it was found to end.
void Hand::rename_cores(const Circuit& before) {
  struct Name { std::string id, circuit, colour; };
  std::map<TerminalRef, Name> at_outlet;
  const auto outer = [](const Circuit& c, const Wire& w) { return c.part(w.from.part).zone == Zone::coach ? w.from : w.to; };
  for (const Wire& w : before.wires)
    if (is_core(w)) at_outlet[outer(before, w)] = {w.id, w.circuit, w.colour};
  for (Wire& w : c_.wires) {
    const auto name = is_core(w) ? at_outlet.find(outer(c_, w)) : at_outlet.end();
    if (name == at_outlet.end()) continue;
    w.id = name->second.id;
    w.circuit = name->second.circuit;
    w.colour = name->second.colour;
  }
}

void Hand::draw() {
  const Circuit before = o_.row->cores.empty() ? Circuit{} : c_;
  for (const Change& x : o_.fault.changes) std::visit(*this, x);
  rename_cores(before);
  for (const LooseCore& l : o_.loose) lay_loose(l);
}

}  // namespace

Circuit as_drawn(Circuit circuit, const std::vector<Observed>& all, const Spec& spec, const Catalogue& catalogue) {
  for (std::size_t i = 0; i < all.size(); ++i) Hand(circuit, all[i], flag_letter(static_cast<int>(i) + 1), spec, catalogue).draw();
  number_nets(circuit);
  return circuit;
}

std::optional<Facts> facts_as_found(const Facts& facts, const Catalogue& catalogue) {
  if (facts.spec.as_found.empty()) return std::nullopt;
  Diagnostics diagnostics;
  const std::vector<Observed> all = read_observations(facts.spec, facts.circuit(), catalogue, diagnostics);
  if (all.size() != facts.spec.as_found.size()) return std::nullopt;
  Facts out = facts;
  out.found = true;
  out.sized.circuit = as_drawn(facts.circuit(), all, facts.spec, catalogue);
  for (Flag& flag : out.flags)   // what is drawn as a part bears its letter itself
    if (const PartId drawn = out.circuit().find(flag_letter(flag.number)); drawn && out.circuit().part(drawn).found == "added") flag.about = flag_letter(flag.number);
  out.states = solve_all(out.sized.circuit, catalogue, facts.spec);
  out.findings = check(facts.spec, catalogue, out.sized, out.states);
  return out;
}

}  // namespace towloom
