#include "sheets/faces_view.hpp"

#include <algorithm>
#include <set>

#include "catalogue/mating.hpp"

namespace towloom {
namespace {

struct Ends {
  const Connector* connector = nullptr;
  std::string half;
};

const Connector* find_connector(const Catalogue& catalogue, const std::string& form) {
  const auto found = catalogue.connectors.find(form);
  return found == catalogue.connectors.end() ? nullptr : &found->second;
}

Ends outlet_of(const Facts& facts, const Catalogue& catalogue) {
  const Outlet& o = facts.spec.coach.outlet;
  const Connector* c = find_connector(catalogue, o.form.value);
  if (c == nullptr) return {};
  return {c, o.half ? o.half->value : c->outlet_half};
}

Ends inlet_of(const Facts& facts, const Catalogue& catalogue) {
  const Outlet& i = facts.spec.car.inlet;
  const std::string form = i.form.value.empty() ? facts.spec.coach.outlet.form.value : i.form.value;
  const Connector* c = find_connector(catalogue, form);
  if (c == nullptr) return {};
  return {c, i.half ? i.half->value : c->inlet_half};
}

const Part* contact_part(const Circuit& circuit, const std::string& group,
                         const std::string& number) {
  for (const Part& p : circuit.parts)
    if (p.kind == "contact" && p.group == group && p.contact == number) return &p;
  return nullptr;
}

// The wire on the cord's side of a contact, or on the vehicle's side.
const Wire* landing(const Circuit& circuit, const Part& part, bool cord_side) {
  for (const Wire& w : circuit.wires) {
    for (const TerminalRef& end : {w.from, w.to}) {
      if (&circuit.part(end.part) != &part) continue;
      const bool on_cord = part.terminals[static_cast<size_t>(end.index)] == "cord";
      if (on_cord == cord_side) return &w;
    }
  }
  return nullptr;
}

// A contact that was found to carry something else than the catalogue has says what was found.
std::string title_of(const Connector& connector, const ConnectorContact& contact,
                     const std::string& function) {
  if (function.empty() || function == contact.function) return contact.title;
  for (const ConnectorContact& c : connector.contacts)
    if (c.function == function) return c.title + ", as found";
  return function + ", as found";
}

std::string colour_in(const ConnectorContact& contact, const std::string& convention) {
  const auto found = contact.colour.find(convention);
  return found == contact.colour.end() ? "" : found->second;
}

// The short word that the style prints for a function, else the catalogue's.
std::string short_word(const std::string& function, const Catalogue& catalogue, const Style& style) {
  const std::string key = "circuit-" + function, styled = word(style, key);
  if (styled != key) return styled;
  const auto found = catalogue.contact_functions.find(function);
  return found == catalogue.contact_functions.end() ? function : found->second.short_title;
}

FaceContact bare_contact(const FaceView& v, const ConnectorContact& c) {
  FaceContact out;
  out.contact = &c;
  out.x = seen_x(*v.connector, v.half->name, v.view, c.x);
  out.y = c.y;
  const auto gender = c.gender.find(v.half->name);
  if (gender != c.gender.end()) out.gender = gender->second;
  return out;
}

FaceView bare_view(const Connector& connector, const ConnectorHalf& half, View view) {
  FaceView v;
  v.view = view;
  v.connector = &connector;
  v.half = &half;
  v.key_x = seen_x(connector, half.name, view, connector.key_x);
  v.key_y = connector.key_y;
  for (const ConnectorContact& c : connector.contacts) v.weak = v.weak || c.position.weak();
  return v;
}

FaceContact face_contact(const Circuit& circuit, const FaceView& v, const ConnectorContact& c,
                         const Catalogue& catalogue, const Style& style) {
  const bool cord = v.site == Site::cord_at_outlet || v.site == Site::cord_at_inlet;
  const std::string group = v.site == Site::outlet || v.site == Site::cord_at_outlet ? "J1" : "J2";
  FaceContact out = bare_contact(v, c);
  const Part* part = contact_part(circuit, group, c.number);
  out.used = part != nullptr;
  out.function = part != nullptr && !part->function.empty() ? part->function : c.function;
  out.as_found = out.function != c.function;
  out.title = title_of(*v.connector, c, out.function);
  out.circuit = short_word(out.function, catalogue, style);
  const Wire* wire = part == nullptr ? nullptr : landing(circuit, *part, cord);
  out.colour =
      wire != nullptr && !wire->colour.empty() ? wire->colour : colour_in(c, v.connector->default_colours);
  if (wire != nullptr) {
    out.wire = wire->id;
    if (wire->size) out.size = wire->size->text();
  }
  return out;
}

void add_views(std::vector<FaceView>& out, const Facts& facts, const Catalogue& catalogue, const Style& style,
               Site site, const std::string& name, const Connector& connector, const ConnectorHalf* half) {
  if (half == nullptr) return;
  for (View view : {View::mating, View::wire}) {
    FaceView v = bare_view(connector, *half, view);
    v.site = site;
    v.name = name;
    for (const ConnectorContact& c : connector.contacts)
      v.contacts.push_back(face_contact(facts.circuit(), v, c, catalogue, style));
    out.push_back(std::move(v));
  }
}

std::string contact_name(const Connector& connector, const std::string& number) {
  const ConnectorContact* c = connector.contact(number);
  return c == nullptr || c->mark.empty() ? number : number + " " + c->mark;
}

}  // namespace

double seen_x(const Connector& connector, const std::string& half, View view, double x) {
  const bool as_given = (half == connector.view_half) == (view == View::mating);
  return as_given || x == 0 ? x : -x;
}

const ConnectorHalf* mate_of(const Connector& connector, const std::string& half) {
  for (const ConnectorHalf& h : connector.halves)
    if (h.name != half) return &h;
  return nullptr;
}

std::vector<FaceView> face_views(const Facts& facts, const Catalogue& catalogue,
                                 const Style& style) {
  std::vector<FaceView> out;
  const Ends outlet = outlet_of(facts, catalogue), inlet = inlet_of(facts, catalogue);
  if (outlet.connector != nullptr) {
    add_views(out, facts, catalogue, style, Site::outlet, "J1", *outlet.connector,
              outlet.connector->half(outlet.half));
    add_views(out, facts, catalogue, style, Site::cord_at_outlet, "P1", *outlet.connector,
              mate_of(*outlet.connector, outlet.half));
  }
  if (inlet.connector != nullptr) {
    add_views(out, facts, catalogue, style, Site::cord_at_inlet, "P2", *inlet.connector,
              mate_of(*inlet.connector, inlet.half));
    add_views(out, facts, catalogue, style, Site::inlet, "J2", *inlet.connector,
              inlet.connector->half(inlet.half));
  }
  return out;
}

std::vector<FaceView> form_views(const Connector& connector, const std::string& convention,
                                 const Catalogue& catalogue, const Style& style) {
  std::vector<FaceView> out;
  for (const ConnectorHalf& half : connector.halves) {
    for (View view : {View::mating, View::wire}) {
      FaceView v = bare_view(connector, half, view);
      v.site = Site::part;
      v.name = half.name;
      for (const ConnectorContact& c : connector.contacts) {
        FaceContact f = bare_contact(v, c);
        f.used = true;
        f.function = c.function;
        f.title = c.title;
        f.circuit = short_word(c.function, catalogue, style);
        f.colour = colour_in(c, convention);
        if (const auto size = parse_wire_size(c.minimum_size)) f.size = size->text();
        v.contacts.push_back(std::move(f));
      }
      out.push_back(std::move(v));
    }
  }
  return out;
}

std::vector<CoreRow> cord_rows(const Facts& facts, const Catalogue& catalogue, const Style&) {
  std::vector<CoreRow> out;
  const Ends outlet = outlet_of(facts, catalogue), inlet = inlet_of(facts, catalogue);
  if (outlet.connector == nullptr || inlet.connector == nullptr) return out;
  const Circuit& circuit = facts.circuit();
  std::set<std::string> landed;  // contacts of the inlet
  for (const ConnectorContact& c : outlet.connector->contacts) {
    const Part* part = contact_part(circuit, "J1", c.number);
    const Wire* core = part == nullptr ? nullptr : landing(circuit, *part, true);
    CoreRow row;
    row.outlet = contact_name(*outlet.connector, c.number);
    row.function = title_of(*outlet.connector, c, part == nullptr ? "" : part->function);
    if (core != nullptr) {
      const Part &from = circuit.part(core->from.part), &to = circuit.part(core->to.part);
      const Part& far = &from == part ? to : from;
      row.core = core->id;
      row.inlet = contact_name(*inlet.connector, far.contact);
      landed.insert(far.contact);
      const bool as_found = part->function != c.function;
      row.crossed = !as_found && !crossed_cores(*outlet.connector, *inlet.connector, {{c.number, far.contact}}).empty();
      row.colour = core->colour;
      if (core->size) row.size = core->size->text();
    }
    out.push_back(std::move(row));
  }
  if (inlet.connector != outlet.connector)
    for (const ConnectorContact& c : inlet.connector->contacts) {
      if (landed.count(c.number) == 1) continue;
      CoreRow row;
      row.inlet = contact_name(*inlet.connector, c.number);
      row.function = c.title;
      out.push_back(std::move(row));
    }
  return out;
}

}  // namespace towloom
