#include <algorithm>
#include <tuple>

#include "catalogue/parts.hpp"

namespace towloom {
namespace {

std::pair<double, double> read_xy(const Node* node, const std::string& what, Diagnostics& diagnostics) {
  if (node == nullptr) return {0, 0};
  if (node->kind == Node::Kind::list && node->items.size() == 2) {
    const auto x = parse_quantity(node->items[0].text, Unit::plain), y = parse_quantity(node->items[1].text, Unit::plain);
    if (x && y) return {*x, *y};
  }
  diagnostics.error("position", node->place, what + " needs a place like [0.5, -0.866]");
  return {0, 0};
}

std::map<std::string, std::string> read_words(const Node* node) {
  std::map<std::string, std::string> out;
  if (node != nullptr)
    for (const Entry& e : node->entries) out[e.key] = e.value.text;
  return out;
}

ConnectorHalf read_half(const Entry& entry, Diagnostics& diagnostics) {
  Fields fields(entry.value, "half '" + entry.key + "'", diagnostics);
  ConnectorHalf half{entry.key, fields.need_text("title").value, fields.need_text("mating").value,
                     fields.need_text("wire").value};
  fields.finish();
  return half;
}

ConnectorContact read_contact(const Entry& entry, const Connector& connector, const Provenance& position,
                              Diagnostics& diagnostics) {
  ConnectorContact out;
  out.number = entry.key;
  Fields fields(entry.value, "contact " + entry.key, diagnostics);
  if (const auto mark = fields.text("mark")) out.mark = mark->value;
  out.function = fields.need_text("function").value;
  out.title = fields.need_text("title").value;
  if (const auto shape = fields.word("shape", {"bullet", "blade", "pin", "centre"})) out.shape = shape->value;
  std::tie(out.x, out.y) = read_xy(fields.need_node("at"), "contact " + entry.key, diagnostics);
  if (const auto size = fields.text("minimum")) out.minimum_size = size->value;
  if (const auto amps = fields.quantity("rating", Unit::ampere)) out.rating_a = amps->value;
  out.gender = read_words(fields.need_node("gender"));
  out.colour = read_words(fields.need_node("colour"));
  out.provenance = read_provenance(fields, &connector.provenance);
  out.position = position;
  fields.finish();
  for (const ConnectorHalf& half : connector.halves)
    if (out.gender.count(half.name) == 0)
      diagnostics.error("gender", entry.key_place, "contact " + entry.key + " has no gender for the " + half.name + " half");
  if (out.colour.count(connector.default_colours) == 0)
    diagnostics.error("colour", entry.key_place,
                      "contact " + entry.key + " has no colour in the convention '" + connector.default_colours + "'");
  return out;
}

void check_half(const Connector& c, const PlacedText& named, Diagnostics& diagnostics) {
  if (c.half(named.value) == nullptr)
    diagnostics.error("half", named.place, "'" + named.value + "' is no half of " + c.name);
}

}  // namespace

void read_connector(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Connector c;
  Fields fields(node, "connector", diagnostics);
  c.name = fields.need_text("connector").value;
  c.title = fields.need_text("title").value;
  if (const auto shell = fields.word("shell", {"round", "flat"})) c.shell = shell->value;
  if (const Node* halves = fields.need_node("halves"))
    for (const Entry& e : halves->entries) c.halves.push_back(read_half(e, diagnostics));
  const PlacedText view = fields.need_text("view half"), outlet = fields.need_text("outlet half"),
                   inlet = fields.need_text("inlet half");
  for (const PlacedText& named : {view, outlet, inlet}) check_half(c, named, diagnostics);
  c.view_half = view.value;
  c.outlet_half = outlet.value;
  c.inlet_half = inlet.value;
  if (c.halves.size() != 2) diagnostics.error("halves", node.place, "a connector has two halves");
  c.default_colours = fields.need_text("colours").value;
  if (const auto key = fields.text("key")) c.key = key->value;
  std::tie(c.key_x, c.key_y) = read_xy(fields.node("key at"), "the key", diagnostics);
  if (const Node* contact = fields.need_node("contact")) {
    Fields row(*contact, "contact", diagnostics);
    if (const auto ohm = row.need_quantity("resistance", Unit::ohm)) c.contact_ohm = ohm->value;
    c.contact_ohm_source = read_provenance(row);
    row.finish();
  }
  if (const auto amps = fields.quantity("rating", Unit::ampere)) c.rating_a = amps->value;
  c.provenance = read_provenance(fields);
  const Provenance position = read_provenance_node(fields.need_node("positions"), "positions", diagnostics);
  if (const Node* contacts = fields.need_node("contacts"))
    for (const Entry& e : contacts->entries) c.contacts.push_back(read_contact(e, c, position, diagnostics));
  for (const ConnectorContact& contact : c.contacts)
    for (const auto& [convention, colour] : contact.colour)
      if (std::find(c.conventions.begin(), c.conventions.end(), convention) == c.conventions.end())
        c.conventions.push_back(convention);
  fields.finish();
  keep(out.connectors, c.name, c, node.entries.front().key_place, "connector", diagnostics);
}

}  // namespace towloom
