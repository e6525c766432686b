#include "sheets/faces_view.hpp"

#include <algorithm>

#include "catalogue/cord.hpp"

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

Ends outlet_of(const Plug& plug, const Catalogue& catalogue) {
  const Connector* c = find_connector(catalogue, plug.outlet->form.value);
  if (c == nullptr) return {};
  return {c, plug.outlet->half ? plug.outlet->half->value : c->outlet_half};
}

Ends inlet_of(const Plug& plug, const Catalogue& catalogue) {
  const Outlet& i = *plug.inlet;
  const Connector* c = find_connector(catalogue, i.form.value.empty() ? plug.outlet->form.value : i.form.value);
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
  const std::string group = "J" + v.name.substr(1);   // P1 mates J1
  FaceContact out = bare_contact(v, c);
  const Part* part = contact_part(circuit, group, c.number);
  out.used = part != nullptr;
  out.function = part != nullptr && !part->function.empty() ? part->function : c.function;
  out.as_found = out.function != c.function || c.stated;
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
               Site site, const Plug& plug, const std::string& name, const Connector& connector, const ConnectorHalf* half) {
  if (half == nullptr) return;
  for (View view : {View::mating, View::wire}) {
    FaceView v = bare_view(connector, *half, view);
    v.site = site;
    v.name = name;
    v.plug = plug.index;
    for (const ConnectorContact& c : connector.contacts)
      v.contacts.push_back(face_contact(facts.circuit(), v, c, catalogue, style));
    out.push_back(std::move(v));
  }
}

std::string contact_name(const ConnectorContact& c) { return c.mark.empty() ? c.number : c.number + " " + c.mark; }

// The contacts of the inlet on which a core ends, also where it is parted in the plug.
std::vector<const Part*> inlet_ends(const Circuit& circuit, const Plug& plug, const Part& outlet, const Wire& core) {
  const Part& far = &circuit.part(core.from.part) == &outlet ? circuit.part(core.to.part) : circuit.part(core.from.part);
  if (far.kind == "contact") return {&far};
  std::vector<const Part*> out;
  for (const Wire& w : circuit.wires)
    for (const auto& [near, other] : {std::pair{w.from, w.to}, std::pair{w.to, w.from}})
      if (&circuit.part(near.part) == &far && circuit.part(other.part).group == plug.inlet_id()) out.push_back(&circuit.part(other.part));
  return out;
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
  for (const Plug& plug : plugs(facts.spec)) {
    const Ends outlet = outlet_of(plug, catalogue), inlet = inlet_of(plug, catalogue);
    const std::string j1 = plug.outlet_id(), j2 = plug.inlet_id(), p1 = "P" + j1.substr(1), p2 = "P" + j2.substr(1);
    if (outlet.connector != nullptr) {
      add_views(out, facts, catalogue, style, Site::outlet, plug, j1, *outlet.connector, outlet.connector->half(outlet.half));
      add_views(out, facts, catalogue, style, Site::cord_at_outlet, plug, p1, *outlet.connector, mate_of(*outlet.connector, outlet.half));
    }
    if (inlet.connector != nullptr) {
      add_views(out, facts, catalogue, style, Site::cord_at_inlet, plug, p2, *inlet.connector, mate_of(*inlet.connector, inlet.half));
      add_views(out, facts, catalogue, style, Site::inlet, plug, j2, *inlet.connector, inlet.connector->half(inlet.half));
    }
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

std::vector<CoreRow> cord_rows(const Facts& facts, const Catalogue& catalogue, const Plug& plug) {
  std::vector<CoreRow> out;
  const Ends outlet = outlet_of(plug, catalogue), inlet = inlet_of(plug, catalogue);
  if (outlet.connector == nullptr || inlet.connector == nullptr) return out;
  const Circuit& circuit = facts.circuit();
  const JobCord cord = job_cord(facts.spec, *outlet.connector, *inlet.connector, Lies::as_metered, plug.index);
  const auto row_of = [&](const ConnectorContact* from, const ConnectorContact* to) {
    CoreRow row;
    row.from = plug.outlet_id();
    row.to = plug.inlet_id();
    if (from != nullptr) {
      const FoundContact* found = found_row(facts.spec.coach, *from, plug.index);
      row.outlet = contact_name(*from);
      row.function = title_of(*outlet.connector, *from, found != nullptr && found->does ? found->does->value : "");
      row.colour = colour_in(*from, outlet.connector->default_colours);
    } else {
      row.function = to->title;
    }
    if (to != nullptr) row.inlet = contact_name(*to);
    return row;
  };
  for (const CordCore& core : cord.cores) {
    const Part* part = contact_part(circuit, plug.outlet_id(), core.from->number);
    const Wire* wire = part == nullptr ? nullptr : landing(circuit, *part, true);
    const std::vector<const Part*> ends = wire == nullptr ? std::vector<const Part*>{} : inlet_ends(circuit, plug, *part, *wire);
    const bool planned = core.to != nullptr && std::any_of(ends.begin(), ends.end(), [&](const Part* p) { return p->contact == core.to->number; });
    // The circuit may have been changed since: its own end is then the truth.
    const bool moved = core.to != nullptr && !planned && ends.size() == 1;
    const ConnectorContact* to = moved ? inlet.connector->contact(ends[0]->contact) : core.to;
    CoreRow row = row_of(core.from, to);
    row.core = core_id(plug, core.from->number);
    row.used = planned || moved;
    row.open = to == nullptr;
    row.crossed = to != nullptr && !carries_nothing(cord.carries.at(core.from->number)) && !cord.right(*core.from, *to);
    row.note = core.note;
    for (const AsFoundRow& seen : facts.spec.as_found)
      if (seen.what.value == (plug.name.empty() ? "cord" : plug.name))
        for (const auto& [from, end] : seen.cores)
          if (outlet.connector->contact(from.value) == core.from && inlet.connector->contact(end.value) != to) row.found = end.value;
    if (wire != nullptr) row.colour = wire->colour;
    if (wire != nullptr && wire->size) row.size = wire->size->text();
    out.push_back(std::move(row));
  }
  for (const ConnectorContact* c : cord.only_outlet) out.push_back(row_of(c, nullptr));
  for (const ConnectorContact* c : cord.only_inlet) out.push_back(row_of(nullptr, c));
  return out;
}

}  // namespace towloom
