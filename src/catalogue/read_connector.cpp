// A file of one connector. Its contacts are read in read_contacts.cpp.
#include <algorithm>
#include <tuple>

#include "catalogue/parts.hpp"

namespace towloom {
namespace {

ConnectorHalf read_half(const Entry& entry, Diagnostics& diagnostics) {
  Fields fields(entry.value, "half '" + entry.key + "'", diagnostics);
  ConnectorHalf half{entry.key, fields.need_text("title").value, fields.need_text("mating").value,
                     fields.need_text("wire").value};
  fields.finish();
  return half;
}

std::string read_half_name(Fields& fields, const char* key, const Connector& c, Diagnostics& diagnostics) {
  const PlacedText named = fields.need_text(key);
  if (fields.has(key) && c.half(named.value) == nullptr)
    diagnostics.error("half", named.place, "'" + named.value + "' is no half of " + c.name);
  return named.value;
}

// Reads the rows of a map whose keys are names: layouts, allocations, colour sets, other forms.
template <class Value, class Read>
void read_named(const Node* node, const char* what, std::map<std::string, Value>& into, Diagnostics& diagnostics,
                const Read& read) {
  if (node == nullptr) return;
  Fields check(*node, what, diagnostics);
  for (const Entry& e : node->entries) {
    Fields row(e.value, std::string(what) + " '" + e.key + "'", diagnostics);
    into[e.key] = read(row);
    row.finish();
  }
}

void read_colour_sets(Fields& fields, Connector& c, Diagnostics& diagnostics) {
  const PlacedText usual = fields.need_text("colours");
  c.default_colours = usual.value;
  const Node* sets = fields.need_node("conventions");
  read_named(sets, "conventions", c.colour_sets, diagnostics, [](Fields& row) {
    ColourSet set;
    set.title = row.need_text("title").value;
    set.provenance = read_provenance(row);
    return set;
  });
  for (const auto& [name, set] : c.colour_sets) c.conventions.push_back(name);
  if (sets != nullptr && fields.has("colours") && c.colour_sets.count(usual.value) == 0)
    diagnostics.error("convention", usual.place, "'" + usual.value + "' is none of the conventions of " + c.name);
}

void read_shell(Fields& fields, Connector& c, Diagnostics& diagnostics) {
  if (const auto shell = fields.word("shell", {"round", "flat"}))
    c.shell = shell->value;
  else if (!fields.has("shell"))
    (void)fields.need_text("shell");
  if (const Node* unit = fields.node("unit")) {
    Fields row(*unit, "unit", diagnostics);
    if (const auto length = row.need_quantity("length", Unit::metre)) c.unit_mm = length->value * 1000;
    c.unit_source = read_provenance(row);
    row.finish();
  }
  if (const auto key = fields.text("key")) c.key = key->value;
  if (!c.key.empty()) std::tie(c.key_x, c.key_y) = read_face_point(fields.need_node("key at"), "the key", diagnostics);
  if (const Node* node = fields.node("lid")) {
    Fields row(*node, "lid", diagnostics);
    Lid lid;
    lid.half = read_half_name(row, "half", c, diagnostics);
    lid.at = read_face_point(row.need_node("at"), "the lid", diagnostics);
    lid.provenance = read_provenance(row);
    row.finish();
    c.lid = lid;
  }
}

// Where each kind of fact comes from. A fact that the file states and does not source is an error.
void read_evidence(Fields& fields, Connector& c, bool has_sizes, bool has_ratings, Diagnostics& diagnostics) {
  const Node* node = fields.need_node("evidence");
  if (node == nullptr) return;
  Fields rows(*node, "evidence", diagnostics);
  const auto row = [&](const char* key, Provenance& into, bool stated) {
    if (const Node* n = stated ? rows.need_node(key) : rows.node(key)) into = read_provenance_node(n, key, diagnostics);
    if (!stated && rows.has(key))
      diagnostics.error("evidence", rows.key_place(key), std::string("'") + key + "' has a source, but the file states none");
  };
  row("sizes", c.sizes, has_sizes);
  row("ratings", c.ratings, has_ratings);
  row("gender", c.genders, true);
  row("shapes", c.shapes, true);
  row("key", c.key_source, !c.key.empty());
  rows.finish();
}

void read_others(Fields& fields, Connector& c, Diagnostics& diagnostics) {
  const auto read = [&](const char* key, const char* words, bool mates) {
    std::map<std::string, MatingNote> notes;
    read_named(fields.node(key), key, notes, diagnostics, [&](Fields& row) {
      MatingNote note{mates, row.need_text(words).value, {}};
      note.provenance = read_provenance(row);
      return note;
    });
    for (const auto& [form, note] : notes)
      if (!c.others.emplace(form, note).second)
        diagnostics.error("twice", note.provenance.place, c.name + " both mates and refuses '" + form + "'");
  };
  read("mates", "says", true);
  read("refuses", "why", false);
}

}  // namespace

FacePoint read_face_point(const Node* node, const std::string& what, Diagnostics& diagnostics) {
  if (node == nullptr) return {0, 0};
  if (node->kind == Node::Kind::list && node->items.size() == 2) {
    const auto x = parse_quantity(node->items[0].text, Unit::plain), y = parse_quantity(node->items[1].text, Unit::plain);
    constexpr double farthest = 20;   // units; catches slips of the pen
    if (x && y && *x >= -farthest && *x <= farthest && *y >= -farthest && *y <= farthest) return {*x, *y};
  }
  diagnostics.error("position", node->place, what + " needs a place like [0.5, -0.866]");
  return {0, 0};
}

void read_connector(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Connector c;
  c.place = node.entries.front().key_place;
  Fields fields(node, "connector", diagnostics);
  const PlacedText name = fields.need_text("connector");
  c.name = c.form = name.value;
  check_file_word(name, "a connector", diagnostics);
  c.title = fields.need_text("title").value;
  if (const Node* halves = fields.need_node("halves"))
    for (const Entry& e : halves->entries) c.halves.push_back(read_half(e, diagnostics));
  if (c.halves.size() != 2) diagnostics.error("halves", node.place, "a connector has two halves");
  c.view_half = read_half_name(fields, "view half", c, diagnostics);
  c.outlet_half = read_half_name(fields, "outlet half", c, diagnostics);
  c.inlet_half = read_half_name(fields, "inlet half", c, diagnostics);
  read_shell(fields, c, diagnostics);
  read_colour_sets(fields, c, diagnostics);
  if (const Node* contact = fields.need_node("contact")) {
    Fields row(*contact, "contact", diagnostics);
    if (const auto ohm = row.need_quantity("resistance", Unit::ohm)) c.contact_ohm = ohm->value;
    c.contact_ohm_source = read_provenance(row);
    row.finish();
  }
  const auto rating = fields.quantity("rating", Unit::ampere);
  if (rating) c.rating_a = rating->value;
  c.provenance = read_provenance(fields);
  read_contacts(fields, c, diagnostics);
  const auto any = [&](const auto& stated) { return std::any_of(c.contacts.begin(), c.contacts.end(), stated); };
  read_evidence(fields, c, any([](const ConnectorContact& k) { return !k.minimum_size.empty(); }),
                rating || any([](const ConnectorContact& k) { return k.rating_a.has_value(); }), diagnostics);
  read_named(fields.node("layouts"), "layouts", c.layouts, diagnostics,
             [&](Fields& row) { return read_layout(row, c, diagnostics); });
  read_named(fields.node("allocations"), "allocations", c.allocations, diagnostics,
             [&](Fields& row) { return read_allocation(row, c, diagnostics); });
  for (const PlacedText& number : fields.texts("separate")) {
    if (c.contact(number.value) == nullptr)
      diagnostics.error("unknown-contact", number.place, c.name + " has no contact '" + number.value + "'");
    c.separate_returns.push_back(number.value);
  }
  read_others(fields, c, diagnostics);
  for (const PlacedText& caution : fields.texts("cautions")) c.cautions.push_back(caution.value);
  fields.finish();
  keep(out.connectors, c.name, c, c.place, "connector", diagnostics);
}

void read_contact_functions(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "contact functions", diagnostics);
  each_row(file, "contact functions", "contact function", [&](Fields& row, const Entry& e) {
    ContactFunction f;
    f.title = row.need_text("title").value;
    f.short_title = row.need_text("short").value;
    if (const auto kind = row.word("kind", {"lamp", "supply", "brake", "ground", "report", "presence"})) f.kind = kind->value;
    const auto with = row.text("with");
    f.with = with ? *with : Placed<std::string>{f.kind == "supply" ? "always" : e.key, e.key_place};
    if (const auto beside = row.text("combined with")) f.beside = beside->value;
    if (const auto own = row.word("own", {"bright", "dim"})) f.own = own->value;
    if (const auto count = row.number("count")) f.count = static_cast<int>(count->value);
    if (f.kind.empty() && (with || !f.own.empty() || row.has("count")))
      diagnostics.error("contact-function", e.key_place, "'" + e.key + "' carries nothing: it can have no 'with', 'own' or 'count'", "state its kind");
    if (!f.kind.empty()) out.tow_signals[e.key] = f;
    keep(out.contact_functions, e.key, f, e.key_place, "contact function", diagnostics);
  });
  read_provenance(file);
  file.finish();
}

}  // namespace towloom
