// Every single fault that a circuit can have, kind by kind.
#include <algorithm>
#include <cmath>

#include "solve/faults.hpp"

namespace towloom {
namespace {

struct Listing {
  const Circuit& c;
  const Catalogue& catalogue;
  std::vector<Fault> out;

  const FaultKind* kind(const char* name) const {
    const auto found = catalogue.faults.find(name);
    return found == catalogue.faults.end() ? nullptr : &found->second;
  }
  void add(const char* name, const std::string& at, std::vector<Change> changes) {
    if (kind(name) != nullptr && !changes.empty()) out.push_back({name, at, std::move(changes)});
  }
  double ohm(const char* name) const { return kind(name) == nullptr ? 0 : kind(name)->ohm; }
  std::vector<Change> open_wires_at(TerminalRef t) const {
    std::vector<Change> changes;
    for (std::size_t w = 0; w < c.wires.size(); ++w)
      if (c.wires[w].from == t || c.wires[w].to == t) changes.push_back(WireInSeries{{static_cast<int>(w)}, open_ohm});
    return changes;
  }
};

PartId id_of(std::size_t part) { return {static_cast<int>(part)}; }

TerminalRef find_body(const Circuit& c) {
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    for (std::size_t t = 0; t < c.parts[p].terminals.size(); ++t)
      if (c.parts[p].joins == "body" && c.parts[p].terminals[t] == "body") return {id_of(p), static_cast<int>(t)};
  return {};
}

// Nets that are ground already: a stud or the return of an outlet hangs on them.
std::vector<char> ground_nets(const Circuit& c, const Points& points) {
  std::vector<char> out(static_cast<std::size_t>(c.nets), 0);
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    for (std::size_t t = 0; t < c.parts[p].terminals.size(); ++t) {
      const bool ground = !c.parts[p].joins.empty() || c.parts[p].function == "ground" || c.parts[p].terminals[t] == "ground";
      const NetId net = c.net_of[static_cast<std::size_t>(points.first[p]) + t];
      if (ground && net) out[static_cast<std::size_t>(net.v)] = 1;
    }
  return out;
}

void list_wires(Listing& l) {
  const Points points = number_points(l.c);
  const std::vector<char> ground = ground_nets(l.c, points);
  const TerminalRef body = find_body(l.c);
  for (std::size_t w = 0; w < l.c.wires.size(); ++w) {
    const Wire& wire = l.c.wires[w];
    l.add("wire-open", wire.id, {WireInSeries{{static_cast<int>(w)}, open_ohm}});
    const NetId net = l.c.net_of[static_cast<std::size_t>(points.at(wire.to))];
    if (body.part && net && ground[static_cast<std::size_t>(net.v)] == 0)
      l.add("wire-to-body", wire.id, {Bridge{wire.to, body, l.ohm("wire-to-body")}});
  }
}

// The mated contacts of each connector, by the group they are drawn in.
std::map<std::string, std::vector<PartId>> find_connectors(const Circuit& c) {
  std::map<std::string, std::vector<PartId>> out;
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (c.parts[p].kind == "contact" && c.parts[p].terminals.size() == 2 && !c.parts[p].elements.empty())
      out[c.parts[p].group].push_back(id_of(p));
  return out;
}

void list_contacts(Listing& l) {
  for (const auto& [connector, contacts] : find_connectors(l.c))
    for (const PartId id : contacts) {
      const std::string& at = l.c.part(id).id;
      l.add("contact-open", at, {ElementBecomes{id, 0, open_ohm}});
      l.add("contact-corroded", at, {ElementInSeries{id, 0, l.ohm("contact-corroded")}});
      l.add("contact-poor", at, {ElementInSeries{id, 0, l.ohm("contact-poor")}});
    }
}

bool sides(const Part& a, const Part& b) {
  return (a.function == "left" && b.function == "right") || (a.function == "right" && b.function == "left");
}

// Wires on the wrong contact, two by two, on each side of each connector; and water between contacts.
void list_crossed(Listing& l) {
  for (const auto& [connector, contacts] : find_connectors(l.c))
    for (std::size_t i = 0; i < contacts.size(); ++i)
      for (std::size_t j = i + 1; j < contacts.size(); ++j) {
        const Part &a = l.c.part(contacts[i]), &b = l.c.part(contacts[j]);
        const std::string both = a.id + " and " + b.id;
        l.add("contacts-bridged", both, {Bridge{{contacts[i], 0}, {contacts[j], 0}, l.ohm("contacts-bridged")}});
        for (int t = 0; t < static_cast<int>(a.terminals.size()); ++t)
          l.add(sides(a, b) ? "sides-swapped" : "cores-crossed", both + " (" + a.terminals[static_cast<std::size_t>(t)] + ")",
                {LeadsExchanged{{contacts[i], t}, {contacts[j], t}}});
      }
}

// The contact that stands in the mirror image of another: nullptr where none does.
const ConnectorContact* mirrored(const Connector& connector, const ConnectorContact& contact) {
  const auto [low, high] = std::minmax_element(connector.contacts.begin(), connector.contacts.end(),
                                               [](const auto& a, const auto& b) { return a.x < b.x; });
  const double x = low->x + high->x - contact.x;
  const ConnectorContact* best = nullptr;
  const auto miss = [&](const ConnectorContact& c) { return std::hypot(c.x - x, c.y - contact.y); };
  for (const ConnectorContact& c : connector.contacts)
    if (best == nullptr || miss(c) < miss(*best)) best = &c;
  return best;
}

// Contacts that the job does not use are taken as dead: a wire that lands there is open.
void list_mirrored(Listing& l) {
  for (const auto& connector : find_connectors(l.c)) {
    const std::string& group = connector.first;
    const std::vector<PartId>& contacts = connector.second;
    const auto form = l.catalogue.connectors.find(l.c.part(contacts[0]).model);
    if (form == l.catalogue.connectors.end()) continue;
    const auto part_of = [&](const std::string& number) {
      const auto at = std::find_if(contacts.begin(), contacts.end(), [&](PartId id) { return l.c.part(id).contact == number; });
      return at == contacts.end() ? PartId{} : *at;
    };
    for (int t = 0; t < 2; ++t) {
      std::vector<Change> changes;
      for (const PartId id : contacts) {
        const ConnectorContact* own = form->second.contact(l.c.part(id).contact);
        const ConnectorContact* other = own == nullptr ? nullptr : mirrored(form->second, *own);
        if (other == nullptr || other == own) continue;
        const PartId there = part_of(other->number);
        if (!there) {
          for (const Change& open : l.open_wires_at({id, t})) changes.push_back(open);
        } else if (id < there) {
          changes.push_back(LeadsExchanged{{id, t}, {there, t}});
        }
      }
      l.add("plug-mirrored", group + " (" + l.c.part(contacts[0]).terminals[static_cast<std::size_t>(t)] + ")", std::move(changes));
    }
  }
}

// Two filaments of one bulb touch: both are fed from either wire.
void list_filaments(Listing& l) {
  const auto bulb_of = [&](const Part& p) { return p.value.substr(0, p.value.rfind(' ')); };
  for (std::size_t i = 0; i < l.c.lamps.size(); ++i)
    for (std::size_t j = i + 1; j < l.c.lamps.size(); ++j) {
      const Part &a = l.c.part(l.c.lamps[i].lamp), &b = l.c.part(l.c.lamps[j].lamp);
      const auto bulb = l.catalogue.bulbs.find(bulb_of(a));
      if (a.group != b.group || bulb_of(a) != bulb_of(b) || a.value == b.value) continue;
      if (bulb == l.catalogue.bulbs.end() || bulb->second.filaments.size() < 2) continue;
      l.add("filaments-shorted", a.id + " and " + b.id,
            {Bridge{{l.c.lamps[i].lamp, 0}, {l.c.lamps[j].lamp, 0}, l.ohm("filaments-shorted")}});
    }
}

void list_diodes(Listing& l, PartId id, const Part& part) {
  for (int e = 0; e < static_cast<int>(part.elements.size()); ++e) {
    const Element& element = part.elements[static_cast<std::size_t>(e)];
    if (element.law != Law::diode) continue;
    const std::string at = part.id + "." + part.terminals[static_cast<std::size_t>(element.a)];
    l.add("diode-shorted", at, {ElementBecomes{id, e, l.ohm("diode-shorted")}});
    if (!part.devices.empty()) continue;   // a transistor's own diode
    l.add("diode-open", at, {ElementBecomes{id, e, open_ohm}});
    l.add("diode-reversed", at, {ElementReversed{id, e}});
    l.add("diode-leaky", at, {Bridge{{id, element.a}, {id, element.b}, l.ohm("diode-leaky")}});
  }
}

// Two wires of a part with three terminals or more on each other's terminal.
void list_exchanged(Listing& l, PartId id, const Part& part) {
  const int count = static_cast<int>(part.terminals.size());
  for (int a = 0; count > 2 && a < count; ++a)
    for (int b = a + 1; b < count; ++b)
      if (!l.open_wires_at({id, a}).empty() && !l.open_wires_at({id, b}).empty())
        l.add("leads-exchanged", l.c.name({id, a}) + " and " + l.c.name({id, b}), {LeadsExchanged{{id, a}, {id, b}}});
}

void list_devices(Listing& l, PartId id, const Part& part) {
  for (int d = 0; d < static_cast<int>(part.devices.size()); ++d) {
    const Device& device = part.devices[static_cast<std::size_t>(d)];
    if (device.name == "supply" && (part.kind == "module" || part.kind == "charger"))
      l.add("supply-lost", part.id, l.open_wires_at({id, device.plus}));
    if (device.name != "coil") continue;
    for (int e = 0; e < static_cast<int>(part.elements.size()); ++e) {
      const Element& coil = part.elements[static_cast<std::size_t>(e)];
      if (coil.gate == Gate::always && coil.a == device.plus && coil.b == device.minus)
        l.add("coil-open", part.id, {ElementBecomes{id, e, open_ohm}, ModeForced{id, d, false}});
    }
    l.add("contact-welded", part.id, {ModeForced{id, d, true}});
    l.add("contact-stuck", part.id, {ModeForced{id, d, false}});
  }
}

void list_parts(Listing& l) {
  for (std::size_t p = 0; p < l.c.parts.size(); ++p) {
    const Part& part = l.c.parts[p];
    const PartId id = id_of(p);
    if (part.elements.empty()) continue;
    if (part.kind == "stud") {
      l.add("ground-open", part.id, {ElementBecomes{id, 0, open_ohm}});
      l.add("ground-poor", part.id, {ElementInSeries{id, 0, l.ohm("ground-poor")}});
    } else if (part.kind == "fuse" || part.kind == "breaker") {
      l.add("fuse-blown", part.id, {ElementBecomes{id, 0, open_ohm}});
    } else if (part.kind == "lamp") {
      l.add("lamp-open", part.id, {ElementBecomes{id, 0, open_ohm}});
    } else if (part.status == Status::fitted && part.kind != "splice") {
      list_diodes(l, id, part);
      list_exchanged(l, id, part);
      list_devices(l, id, part);
    }
  }
}

}  // namespace

std::string describe(const Fault& fault, const Catalogue& catalogue) {
  std::string text = catalogue.faults.at(fault.kind).title;
  const std::size_t at = text.find("{at}");
  return at == std::string::npos ? text : text.replace(at, 4, fault.at);
}

std::vector<Fault> list_faults(const Circuit& circuit, const Catalogue& catalogue) {
  Listing l{circuit, catalogue, {}};
  list_wires(l);
  list_contacts(l);
  list_crossed(l);
  list_mirrored(l);
  list_filaments(l);
  list_parts(l);
  return std::move(l.out);
}

}  // namespace towloom
