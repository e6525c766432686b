#include <algorithm>

#include "spec/parts.hpp"

namespace towloom {
namespace {

bool has_word(const std::string& text, const std::string& word) {
  const auto words = split(text, " ");
  return std::find(words.begin(), words.end(), word) != words.end();
}

Side side_of(const std::string& name) {
  return has_word(name, "left") ? Side::left : has_word(name, "right") ? Side::right : Side::centre;
}

void read_return(LampRow& row, Fields& fields, Diagnostics& diagnostics) {
  const auto text = fields.text("return");
  if (!text) return;
  const auto parts = split(text->value, " to ");
  if (parts.size() > 2) {
    diagnostics.error("return", text->place, "'" + text->value + "' names two grounds", "write colour size to ground");
    return;
  }
  if (!parts[0].empty() && text->value.rfind("to ", 0) != 0)
    row.return_wire = read_colour({parts[0], text->place}, diagnostics);
  const std::string stud = parts.size() == 2 ? parts[1] : text->value.rfind("to ", 0) == 0 ? trimmed(text->value.substr(3)) : "";
  if (!stud.empty()) row.return_stud = PlacedText{stud, text->place};
}

void read_factory_feed(LampRow& row, Fields& fields, Diagnostics& diagnostics) {
  if (fields.has("feed"))
    row.feed = read_colour(fields.need_text("feed"), diagnostics);
  else
    (void)fields.need_text("feed");
  row.node = fields.need_text("node");
  row.branch = fields.text("branch");
  if (const auto drive = fields.word("drive", lamp_drives())) row.drive = drive->value;
  // A map key with a space in it, since that is how a fitter says it.
  if (const auto tow = fields.word("in tow", {"dark", "lit"})) row.dark_in_tow = tow->value == "dark";
}

const std::vector<std::string>& row_keys() {
  static const std::vector<std::string> keys = {"in", "feed", "node", "branch", "drive", "in tow", "at", "return", "lens", "note"};
  return keys;
}

// The one key that says nothing about wires is the lamp's function; the catalogue knows which there are.
void read_function(LampRow& row, const Entry& entry, Fields& fields, Diagnostics& diagnostics) {
  if (entry.value.kind != Node::Kind::map) return;
  for (const Entry& e : entry.value.entries) {
    const auto& keys = row_keys();
    if (std::find(keys.begin(), keys.end(), e.key) != keys.end() || !did_you_mean(e.key, keys).empty()) continue;
    const auto source = fields.text(e.key);
    if (!source) continue;
    if (!row.function.value.empty()) {
      diagnostics.error("two-functions", e.key_place, "one row holds one function, and this one has '" + row.function.value + "'",
                        "give '" + e.key + "' a row of its own with in: " + row.unit);
      continue;
    }
    row.function = {e.key, e.key_place};
    row.source = *source;
    read_source(row, diagnostics);
  }
  if (row.function.value.empty())
    diagnostics.error("missing-function", entry.key_place, "lamp '" + entry.key + "' states no function", "like stop-turn: P21/5W bright");
}

LampRow read_lamp(const Entry& entry, bool added, Diagnostics& diagnostics) {
  LampRow row;
  row.added = added;
  row.name = {entry.key, entry.key_place};
  row.place = entry.key_place;
  Fields fields(entry.value, "lamp '" + entry.key + "'", diagnostics);
  const auto in = fields.text("in");
  row.unit = in ? in->value : entry.key;
  row.side = side_of(entry.key);
  if (row.side == Side::centre) row.side = side_of(row.unit);
  if (side_of(row.unit) != Side::centre && side_of(row.unit) != row.side)
    diagnostics.error("side", in ? in->place : entry.key_place,
                      "'" + entry.key + "' and its housing '" + row.unit + "' are on different sides");
  read_function(row, entry, fields, diagnostics);
  if (added)
    row.at = fields.text("at");
  else
    read_factory_feed(row, fields, diagnostics);
  read_return(row, fields, diagnostics);
  if (const auto lens = fields.text("lens")) row.lens = lens->value;
  (void)fields.text("note");
  fields.finish();
  if (added && !row.at && row.unit == entry.key)
    diagnostics.error("lamp-place", row.place, "added lamp '" + entry.key + "' has no place", "name a place of the runs: at: left rear");
  return row;
}

}  // namespace

const std::vector<std::string>& lamp_drives() {
  static const std::vector<std::string> drives = {"switched", "controller", "pulse-modulated", "data-bus", "ground-switched"};
  return drives;
}

std::vector<LampRow> read_lamps(const Node& node, bool added, Diagnostics& diagnostics) {
  std::vector<LampRow> rows;
  for (const Entry& entry : node.entries) rows.push_back(read_lamp(entry, added, diagnostics));
  for (const LampRow& row : rows) {
    const auto host = std::find_if(rows.begin(), rows.end(), [&](const LampRow& r) { return r.name.value == row.unit; });
    if (host != rows.end()) {
      if (host->unit != host->name.value)
        diagnostics.error("housing-chain", row.place, "lamp '" + row.name.value + "' is in '" + row.unit + "', which is itself in '" + host->unit + "'",
                          "name the housing itself: in: " + host->unit);
      continue;
    }
    std::vector<std::string> names;
    for (const LampRow& r : rows) names.push_back(r.name.value);
    const std::string near = did_you_mean(row.unit, names);
    diagnostics.error("unknown-housing", row.place, "lamp '" + row.name.value + "' is in '" + row.unit + "', which is no row",
                      near.empty() ? "name the row of the housing" : "did you mean '" + near + "'?");
  }
  return rows;
}

}  // namespace towloom
