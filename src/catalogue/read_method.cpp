// Methods of isolation and extras.
#include <algorithm>

#include "catalogue/parts.hpp"

namespace towloom {
namespace {

const std::vector<std::string>& choice_tables() {
  static const std::vector<std::string> tables = {"diodes", "parts", "modules", "mountings", "places", "signals", "amps", "ohms"};
  return tables;
}

// Ports of each scope, besides those that every scope has.
std::vector<std::string> ports_of(const Fragment& fragment) {
  std::vector<std::string> out = {"signal.", "coach.", "net.", "battery", "battery negative", "ground", "white", "ignition"};
  if (fragment.scope == "lamp") out.insert(out.end(), {"signal", "feed", "lamp", "lamp side", "return"});
  if (fragment.scope == "added") out.insert(out.end(), {"signal", "lamp", "return"});
  if (fragment.scope == "trunk") out.insert(out.end(), {"driver", "joint"});
  if (fragment.cut == "negative") out.insert(out.end(), {"negative post", "negative cable"});
  return out;
}

Fragment read_fragment(const Node& node, Diagnostics& diagnostics) {
  Fragment out;
  out.place = node.place;
  Fields fields(node, "fragment", diagnostics);
  if (const auto scope = fields.word("scope", {"lamp", "added", "trunk", "job"})) out.scope = scope->value;
  if (const auto cut = fields.word("cut", {"leg", "plug", "trunk", "negative", "none"})) out.cut = cut->value;
  for (const PlacedText& t : fields.texts("of")) out.of.push_back(t.value);
  if (const auto side = fields.text("side")) out.side = *side;
  if (fields.has("side") && (out.scope != "lamp" || (out.side.value != "left" && out.side.value != "right" && out.side.value[0] != '$')))
    diagnostics.error("side", out.side.place, "'" + out.side.value + "' is no side of a lamp", "left, right or a choice of them, with scope: lamp");
  if (const Node* only = fields.node("only"))
    for (const Entry& e : only->entries) {
      if (e.value.kind == Node::Kind::scalar) out.only[e.key].push_back(e.value.text);
      for (const Node& item : e.value.items) out.only[e.key].push_back(item.text);
    }
  if (const Node* n = fields.node("parts")) out.parts = read_parts(*n, diagnostics);
  if (const Node* n = fields.need_node("join")) out.joins = read_joins(*n, diagnostics);
  if (const Node* n = fields.node("gives"))
    for (const Entry& e : n->entries) out.gives[e.key] = {e.value.text, e.value.place};
  fields.finish();
  check_joins(out.joins, out.parts, ports_of(out), diagnostics);
  std::vector<FragmentJoin> given;
  for (const auto& [signal, end] : out.gives) given.push_back({{end}});
  check_joins(given, out.parts, {"net."}, diagnostics);
  return out;
}

SuitRow read_suit(const Node& node, Diagnostics& diagnostics) {
  SuitRow out;
  out.place = node.place;
  Fields fields(node, "suits row", diagnostics);
  if (const Node* when = fields.node("when")) {
    Fields rows(*when, "when", diagnostics);
    for (const auto& [key, words] : suit_words())
      for (const PlacedText& word : rows.texts(key)) {
        out.when[key].push_back(word.value);
        if (std::find(words.begin(), words.end(), word.value) != words.end()) continue;
        std::string list;
        for (const std::string& w : words) list += (list.empty() ? "" : ", ") + w;
        diagnostics.error("suits", word.place, "'" + word.value + "' is no word of " + key, "one of: " + list);
      }
    rows.finish();
  }
  if (const auto v = fields.word("verdict", {"suited", "with-extra", "doubtful", "unsuited"})) out.verdict = v->value;
  if (const auto extra = fields.text("extra")) out.extra = extra->value;
  if (const auto why = fields.text("why")) out.why = why->value;
  fields.finish();
  return out;
}

Choice read_choice(const Entry& entry, Diagnostics& diagnostics) {
  Choice out;
  out.key = entry.key;
  out.place = entry.key_place;
  if (choice_names("$" + entry.key)[0] != entry.key)
    diagnostics.error("choice", entry.key_place, "'" + entry.key + "' cannot name a choice", "small letters and - only");
  Fields row(entry.value, "choice '" + entry.key + "'", diagnostics);
  const auto of = row.texts("of");
  const auto& tables = choice_tables();
  if (of.size() == 1 && std::find(tables.begin(), tables.end(), of[0].value) != tables.end()) {
    out.of = of[0].value;
  } else {
    for (const PlacedText& word : of) out.words.push_back(word.value);
    if (of.size() < 2)
      diagnostics.error("choice", entry.key_place, "choice '" + entry.key + "' needs 'of': a table or a list of words",
                        "of: diodes, or of: [closed, open]");
  }
  const auto fallback = row.text("default");
  if (fallback) out.fallback = fallback->value;
  if (fallback && !out.words.empty() && std::find(out.words.begin(), out.words.end(), fallback->value) == out.words.end())
    diagnostics.error("choice", fallback->place, "the default '" + fallback->value + "' is none of the words");
  row.finish();
  return out;
}

// Every $name in a value, a place or a join is one of the choices.
void check_names(const Method& m, Diagnostics& diagnostics) {
  const auto check = [&](const PlacedText& text) {
    for (const std::string& name : choice_names(text.value)) {
      const bool known = std::any_of(m.choices.begin(), m.choices.end(), [&](const Choice& c) { return c.key == name; });
      if (!known) diagnostics.error("choice", text.place, "'" + text.value + "' is not among the choices of " + m.name);
    }
  };
  // "$returns-to" as a whole end: each word of that choice is a port of the job.
  const auto check_chosen_port = [&](const PlacedText& end) {
    if (end.value[0] != '$') return;
    const auto choice = std::find_if(m.choices.begin(), m.choices.end(), [&](const Choice& c) { return "$" + c.key == end.value; });
    if (choice == m.choices.end()) return;
    const std::vector<std::string> ports = {"battery", "battery negative", "ground", "white", "ignition"};
    const bool all = std::all_of(choice->words.begin(), choice->words.end(), [&](const std::string& w) { return std::find(ports.begin(), ports.end(), w) != ports.end(); });
    if (choice->words.empty() || !all) diagnostics.error("join-end", end.place, "'" + end.value + "' does not stand for ports only", "its words may be battery, battery negative, ground, white, ignition");
  };
  for (const Fragment& f : m.fragments) {
    check(f.side);
    for (const FragmentPart& part : f.parts) {
      check(part.at);
      for (const auto& [key, value] : part.values) check(value);
    }
    for (const FragmentJoin& join : f.joins)
      for (const PlacedText& end : join.ends) {
        check(end);
        check_chosen_port(end);
      }
    for (const auto& [key, values] : f.only) check({"$" + key, f.place});
  }
}

void read_effort(const Node& node, Method& m, Diagnostics& diagnostics) {
  Fields row(node, "effort", diagnostics);
  const auto from = row.number("hours from"), to = row.number("hours to");
  if (from && to && (from->value <= 0 || to->value < from->value))
    diagnostics.error("effort", to->place, "the hours must rise from above 0");
  m.hours_from = from ? from->value : 0;
  m.hours_to = to ? to->value : 0;
  m.reversible = row.need_text("reversible").value;
  if (const auto spent = row.word("spent", {"once", "each journey"})) m.each_journey = spent->value == "each journey";
  m.effort = read_provenance(row);
  row.finish();
}

Method read_either(const Node& node, const char* what, Diagnostics& diagnostics) {
  Method m;
  Fields fields(node, what, diagnostics);
  m.name = fields.need_text(what).value;
  m.title = fields.need_text("title").value;
  m.says = fields.need_text("says").value;
  if (const auto lamps = fields.word("lamps", {"added"})) m.added_lamps = lamps->value == "added";
  if (const auto tow = fields.word("in tow", {"presses pedal", "opens battery", "charges battery"})) {
    m.presses_pedal = tow->value == "presses pedal";
    m.opens_battery = tow->value == "opens battery";
    m.charges_battery = tow->value == "charges battery";
  }
  if (const auto signals = fields.word("gives signals", {"combined", "separate"})) m.gives_signals = signals->value;
  if (const Node* n = fields.node("brings"))
    for (const Entry& e : n->entries) m.brings[e.key] = e.value.text;
  if (const Node* n = fields.node("remedies"))
    for (const Node& row : n->items) {
      m.remedies.emplace_back();
      for (const Entry& e : row.entries) m.remedies.back()[e.key] = {e.value.text, e.value.place};
    }
  if (const Node* n = fields.node("effort")) read_effort(*n, m, diagnostics);
  if (const Node* n = fields.node("suits"))
    for (const Node& row : n->items) m.suits.push_back(read_suit(row, diagnostics));
  if (const Node* n = fields.node("choose"))
    for (const Entry& e : n->entries) m.choices.push_back(read_choice(e, diagnostics));
  if (const Node* n = fields.need_node("fragments"))
    for (const Node& row : n->items) m.fragments.push_back(read_fragment(row, diagnostics));
  for (const PlacedText& s : fields.texts("steps")) m.steps.push_back(s.value);
  for (const PlacedText& s : fields.texts("cautions")) m.cautions.push_back(s.value);
  m.provenance = read_provenance(fields);
  fields.finish();
  check_names(m, diagnostics);
  return m;
}

}  // namespace

const std::map<std::string, std::vector<std::string>>& suit_words() {
  static const std::map<std::string, std::vector<std::string>> words = {
      {"lamp.drive", lamp_drives()},
      {"lamp.source", {"led", "filament"}},
      {"lamp.shares", {"yes", "no"}},                       // its node with another lamp
      {"lamp.shows", {"stop and turn", "one signal"}},      // in tow, by what the tow line offers
      {"car.monitoring", {"none", "flasher", "on-current", "off-pulse"}},
      {"car.stop lamps", {"live", "asleep", "dead"}},       // in tow; nothing surveyed counts as live
      {"coach.signals", {"combined", "separate"}},
      {"coach.feed", {"sound", "weak"}},                    // weak: under accept_outlet_v while loaded
      {"coach.outputs", {"plain", "pulse-modulated"}},
      {"coach.detection", {"none", "load"}},
      {"coach.limit", {"none", "low"}},                     // low: below the current of two 21 W lamps
      {"brake", {"none", "presses pedal"}},
      {"battery", {"connected", "disconnected"}}};
  return words;
}

std::vector<std::string> choice_names(const std::string& text) {
  static const char* letters = "abcdefghijklmnopqrstuvwxyz-";
  std::vector<std::string> out;
  for (std::size_t at = text.find('$'); at != std::string::npos; at = text.find('$', at + 1))
    out.push_back(text.substr(at + 1, text.find_first_not_of(letters, at + 1) - at - 1));
  return out;
}

void read_method(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Method m = read_either(node, "method", diagnostics);
  keep(out.methods, m.name, m, node.entries.front().key_place, "method", diagnostics);
}

void read_extra(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Method m = read_either(node, "extra", diagnostics);
  m.extra = true;
  keep(out.extras, m.name, m, node.entries.front().key_place, "extra", diagnostics);
}

}  // namespace towloom
