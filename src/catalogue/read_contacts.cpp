// The contacts of a connector, other orders and other uses of them, and what must hold between them.
#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "catalogue/colours.hpp"
#include "catalogue/parts.hpp"

namespace towloom {
namespace {

using Words = std::map<std::string, std::string>;

constexpr double nearest = 0.2;       // units: closer contacts would be drawn on one another
constexpr double ring_reach = 1.2;    // units: a contact of a round face lies inside its shell

Words read_words(const Node* node, const std::string& what, Diagnostics& diagnostics) {
  Words out;
  if (node == nullptr) return out;
  Fields check(*node, what, diagnostics);
  for (const Entry& e : node->entries) {
    if (e.value.kind == Node::Kind::scalar)
      out[e.key] = e.value.text;
    else
      diagnostics.error("not-text", e.value.place, what + " '" + e.key + "' takes one text");
  }
  return out;
}

bool fit(const std::string& a, const std::string& b) {
  const std::set<std::string> inner = {"pin", "blade"}, outer = {"sleeve", "receiver"};
  return (inner.count(a) && outer.count(b)) || (outer.count(a) && inner.count(b));
}

void check_gender(const ConnectorContact& contact, const Connector& c, Place place, Diagnostics& diagnostics) {
  for (const auto& [half, gender] : contact.gender) {
    if (c.half(half) == nullptr)
      diagnostics.error("half", place, "'" + half + "' is no half of " + c.name);
    static const std::vector<std::string> words = {"pin", "sleeve", "blade", "receiver"};
    if (std::find(words.begin(), words.end(), gender) == words.end())
      diagnostics.error("gender", place, "'" + gender + "' is no gender of a contact", "one of: pin, sleeve, blade, receiver");
  }
  for (const ConnectorHalf& half : c.halves)
    if (contact.gender.count(half.name) == 0)
      return diagnostics.error("gender", place, "contact " + contact.number + " has no gender for the " + half.name + " half");
  if (c.halves.size() == 2) {
    const std::string a = contact.gender.at(c.halves[0].name), b = contact.gender.at(c.halves[1].name);
    if (!fit(a, b))
      diagnostics.error("gender", place, "contact " + contact.number + ": a " + a + " cannot mate a " + b,
                        "one half holds a pin or blade, the other a sleeve or receiver");
  }
}

void check_colours(const ConnectorContact& contact, const Connector& c, Place place, Diagnostics& diagnostics) {
  for (const auto& [name, set] : c.colour_sets)
    if (contact.colour.count(name) == 0)
      diagnostics.error("colour", place, "contact " + contact.number + " has no colour in the convention '" + name + "'");
  for (const auto& [name, colour] : contact.colour)
    if (c.colour_sets.count(name) == 0)
      diagnostics.error("convention", place, "'" + name + "' is none of the conventions of " + c.name);
}

void check_places(const std::map<std::string, FacePoint>& at, const Connector& c, Place place, Diagnostics& diagnostics) {
  for (auto a = at.begin(); a != at.end(); ++a) {
    if (c.shell == "round" && std::hypot(a->second.first, a->second.second) > ring_reach)
      diagnostics.error("position", place, "contact " + a->first + " lies outside the shell",
                        "the circle of contacts has the radius 1");
    for (auto b = at.begin(); b != a; ++b)
      if (std::hypot(a->second.first - b->second.first, a->second.second - b->second.second) < nearest)
        diagnostics.error("position", place, "contacts " + b->first + " and " + a->first + " stand in one place");
  }
}

bool flag(Fields& fields, const char* key) {
  const auto word = fields.word(key, {"yes", "no"});
  return word && word->value == "yes";
}

ConnectorContact read_contact(const Entry& entry, const Connector& c, const Words& gender, const Provenance& position,
                              Diagnostics& diagnostics) {
  ConnectorContact out;
  out.number = entry.key;
  out.place = entry.key_place;
  Fields fields(entry.value, "contact " + entry.key, diagnostics);
  if (const auto mark = fields.text("mark")) out.mark = mark->value;
  if (const auto terminal = fields.text("terminal")) out.terminal = terminal->value;
  out.function = fields.need_text("function").value;
  out.title = fields.need_text("title").value;
  if (const auto shape = fields.word("shape", {"bullet", "blade", "pin"}))
    out.shape = shape->value;
  else if (!fields.has("shape"))
    (void)fields.need_text("shape");
  out.larger = flag(fields, "larger");
  out.longer = flag(fields, "longer");
  std::tie(out.x, out.y) = read_face_point(fields.need_node("at"), "contact " + entry.key, diagnostics);
  if (const auto size = fields.text("minimum")) {
    out.minimum_size = size->value;
    if (!parse_wire_size(size->value))
      diagnostics.error("wire-size", size->place, "'" + size->value + "' is not a wire size", "write it like 16 AWG or 1.5 mm2");
  }
  if (const auto amps = fields.quantity("rating", Unit::ampere)) out.rating_a = amps->value;
  out.gender = fields.has("gender") ? read_words(fields.node("gender"), "gender", diagnostics) : gender;
  if (!fields.has("gender")) (void)fields.node("gender");
  out.colour = read_words(fields.need_node("colour"), "colour", diagnostics);
  out.provenance = read_provenance(fields, &c.provenance);
  out.position = position;
  fields.finish();
  check_gender(out, c, entry.key_place, diagnostics);
  check_colours(out, c, entry.key_place, diagnostics);
  return out;
}

}  // namespace

void read_contacts(Fields& fields, Connector& c, Diagnostics& diagnostics) {
  const Words gender = read_words(fields.node("gender"), "gender", diagnostics);
  const Provenance position = read_provenance_node(fields.need_node("positions"), "positions", diagnostics);
  const Node* rows = fields.need_node("contacts");
  if (rows == nullptr) return;
  Fields check(*rows, "contacts", diagnostics);
  std::map<std::string, FacePoint> at;
  std::set<std::string> marks;
  for (const Entry& e : rows->entries) {
    c.contacts.push_back(read_contact(e, c, gender, position, diagnostics));
    const ConnectorContact& last = c.contacts.back();
    at[last.number] = {last.x, last.y};
    if (!last.mark.empty() && !marks.insert(last.mark).second)
      diagnostics.error("twice", e.key_place, "two contacts bear the mark '" + last.mark + "'");
  }
  if (c.contacts.empty()) diagnostics.error("contacts", rows->place, "a connector has at least one contact");
  check_places(at, c, rows->place, diagnostics);
}

ContactLayout read_layout(Fields& row, const Connector& c, Diagnostics& diagnostics) {
  ContactLayout out;
  out.title = row.need_text("title").value;
  if (const Node* at = row.need_node("at")) {
    Fields check(*at, "at", diagnostics);
    for (const ConnectorContact& contact : c.contacts)
      out.at[contact.number] = read_face_point(check.need_node(contact.number), "contact " + contact.number, diagnostics);
    check.finish();
    check_places(out.at, c, at->place, diagnostics);
  }
  out.provenance = read_provenance(row);
  return out;
}

Allocation read_allocation(Fields& row, const Connector& c, Diagnostics& diagnostics) {
  Allocation out;
  out.title = row.need_text("title").value;
  if (const Node* contacts = row.need_node("contacts")) {
    Fields check(*contacts, "contacts", diagnostics);
    for (const Entry& e : contacts->entries) {
      if (c.contact(e.key) == nullptr)
        diagnostics.error("unknown-contact", e.key_place, c.name + " has no contact '" + e.key + "'");
      Fields use(e.value, "contact " + e.key, diagnostics);
      out.contacts[e.key] = {use.need_text("function").value, use.need_text("title").value, e.key_place};
      use.finish();
    }
  }
  out.provenance = read_provenance(row);
  return out;
}

// What only the whole catalogue can tell: functions that exist, other forms that exist.
void check_connectors(const Catalogue& catalogue, Diagnostics& diagnostics) {
  std::vector<std::string> functions, forms;
  for (const auto& [name, f] : catalogue.contact_functions) functions.push_back(name);
  for (const auto& [name, c] : catalogue.connectors) forms.push_back(name);
  const auto check = [&](const std::string& function, Place place) {
    if (function.empty() || catalogue.contact_functions.count(function) != 0) return;
    const std::string near = did_you_mean(function, functions);
    diagnostics.error("function", place, "no contact function '" + function + "' in the catalogue",
                      near.empty() ? "contact-functions.yaml lists them" : "did you mean '" + near + "'?");
  };
  const auto iec = catalogue.colour_conventions.find("iec-60757");
  for (const auto& [name, c] : catalogue.connectors) {
    for (const ConnectorContact& contact : c.contacts) {
      check(contact.function, contact.place);
      for (const auto& [set, colour] : contact.colour)
        if (iec != catalogue.colour_conventions.end() && !read_code(colour, iec->second))
          diagnostics.error("colour", contact.place, "'" + colour + "' is no colour of IEC 60757", "write base/tracer, like WH/BK");
    }
    for (const auto& [key, allocation] : c.allocations)
      for (const auto& [number, use] : allocation.contacts) check(use.function, use.place);
    for (const auto& [form, note] : c.others) {
      if (catalogue.connectors.count(form) != 0) continue;
      const std::string near = did_you_mean(form, forms);
      diagnostics.error("unknown-connector", note.provenance.place, "no connector '" + form + "' in the catalogue",
                        near.empty() ? "" : "did you mean '" + near + "'?");
    }
  }
}

}  // namespace towloom
