#include <algorithm>

#include "spec/parts.hpp"

namespace towloom {
namespace {

TitleRows read_title(const Node& node, Diagnostics& diagnostics) {
  TitleRows out;
  Fields fields(node, "job", diagnostics);
  out.title = fields.need_text("title");
  out.number = fields.need_text("number");
  out.date = fields.need_text("date");
  out.by = fields.need_text("by");
  for (const auto& [key, into] : {std::pair{"revision", &out.revision}, {"country", &out.country},
                                  {"car", &out.car}, {"customer", &out.customer}})
    if (const auto text = fields.text(key)) *into = text->value;
  fields.finish();
  if (fields.has("date") && !is_iso_date(out.date.value))
    diagnostics.error("date", out.date.place, "'" + out.date.value + "' is not a date", "write it like 2026-11-24");
  return out;
}

// Choices belong to a method's or an extra's file: they are checked against it when the circuit is built.
void read_choices(const Node& node, Fields& fields, const std::vector<std::string>& others, std::map<std::string, PlacedText>& out) {
  for (const Entry& entry : node.entries) {
    if (std::find(others.begin(), others.end(), entry.key) != others.end()) continue;
    if (const auto text = fields.text(entry.key)) out[entry.key] = {text->value, entry.key_place};
  }
}

Isolation read_isolation(const Node& node, std::vector<LampRow>& lamps, Diagnostics& diagnostics) {
  Isolation out;
  out.place = node.place;
  Fields fields(node, "isolation", diagnostics);
  out.method = fields.need_text("method");
  out.converter = fields.text("converter");
  out.plate = fields.text("plate");
  if (const Node* n = fields.node("by function"))
    for (const Entry& e : n->entries) {
      out.by_function[e.key] = {e.value.text, e.value.place};
      out.named.push_back({e.key, e.key_place});
    }
  if (const Node* n = fields.node("lamps"))
    for (LampRow& row : read_lamps(*n, true, diagnostics)) lamps.push_back(std::move(row));
  read_choices(node, fields, {"method", "converter", "plate", "by function", "lamps"}, out.choices);
  return out;
}

std::vector<ExtraRow> read_extras(const Node& node, Diagnostics& diagnostics) {
  std::vector<ExtraRow> out;
  Fields check(node, "extras", diagnostics);
  for (const Entry& entry : node.entries) {
    ExtraRow row;
    row.name = {entry.key, entry.key_place};
    if (entry.value.kind == Node::Kind::map) {
      Fields fields(entry.value, "extra '" + entry.key + "'", diagnostics);
      read_choices(entry.value, fields, {}, row.choices);
    } else if (entry.value.kind != Node::Kind::scalar || entry.value.text != "yes") {
      diagnostics.error("extra", entry.value.place, "extra '" + entry.key + "' takes its choices, or yes", entry.key + ": {fuse: 15 A}");
    }
    out.push_back(std::move(row));
  }
  return out;
}

std::vector<RunRow> read_runs(const Node& node, Diagnostics& diagnostics) {
  std::vector<RunRow> out;
  if (node.entries.empty()) diagnostics.error("no-runs", node.place, "runs: holds no run", "front: {from: inlet, to: left rear, length: 5 m}");
  for (const Entry& entry : node.entries) {
    RunRow run;
    run.name = {entry.key, entry.key_place};
    Fields fields(entry.value, "run '" + entry.key + "'", diagnostics);
    run.from = fields.need_text("from");
    run.to = fields.need_text("to");
    if (!fields.has("length")) (void)fields.need_node("length");
    if (const auto length = bounded(fields, "length", Unit::metre, longest_m)) run.length_m = *length;
    if (const auto cover = fields.text("cover")) run.cover = cover->value;
    if (const auto through = fields.text("through")) run.through = through->value;
    if (const auto beside = fields.text("keep off")) run.keep_off = beside->value;
    fields.finish();
    if (!run.from.value.empty() && run.from.value == run.to.value)
      diagnostics.error("run-loop", run.to.place, "run '" + entry.key + "' begins and ends at the same place");
    out.push_back(std::move(run));
  }
  return out;
}

std::vector<GroundRow> read_grounds(const Node& node, Diagnostics& diagnostics) {
  std::vector<GroundRow> out;
  if (node.entries.empty()) diagnostics.error("no-grounds", node.place, "grounds: holds no ground", "without a return no lamp can light: G-F: {at: front stud, takes: coach white}");
  for (const Entry& entry : node.entries) {
    GroundRow ground;
    ground.name = {entry.key, entry.key_place};
    if (entry.value.kind == Node::Kind::scalar) {
      ground.at = {entry.value.text, entry.value.place};
    } else {
      Fields fields(entry.value, "ground " + entry.key, diagnostics);
      ground.at = fields.need_text("at");
      ground.takes = fields.word("takes", {"coach white"});
      ground.beside = fields.text("beside");
      ground.on = fields.text("on");
      fields.finish();
    }
    out.push_back(std::move(ground));
  }
  return out;
}

// Folders by name, and definitions as a catalogue file would hold them.
void read_own_catalogue(const Node& node, Spec& spec, Diagnostics& diagnostics) {
  std::vector<Node> items = node.items;
  if (node.kind != Node::Kind::list) items = {node};
  for (const Node& item : items) {
    if (item.kind == Node::Kind::scalar)
      spec.catalogues.push_back({item.text, item.place});
    else if (item.kind == Node::Kind::map)
      spec.definitions.push_back(item);
    else
      diagnostics.error("catalogue", item.place, "'catalogue' takes folders and definitions", "a folder's name, or - method: ... with all that its file would hold");
  }
}

}  // namespace

Spec read_rows(const Node& root, int file, Diagnostics& diagnostics) {
  Spec spec;
  spec.file = file;
  spec.wire.standard = {"AWG", root.place};
  Fields fields(root, "the job file", diagnostics);
  if (root.kind != Node::Kind::map) return spec;
  if (const Node* n = fields.need_node("job")) spec.job = read_title(*n, diagnostics);
  if (const Node* n = fields.need_node("coach")) spec.coach = read_coach(*n, diagnostics);
  if (const Node* n = fields.need_node("cord")) spec.cord = read_cord(*n, diagnostics);
  if (const Node* n = fields.node("second plugs")) spec.second_plugs = read_second_plugs(*n, spec.cord, spec.coach.found, diagnostics);
  if (const Node* n = fields.need_node("car")) spec.car = read_car(*n, diagnostics);
  spec.isolation.place = root.place;   // without a method the survey can still be advised on
  if (const Node* n = fields.node("isolation")) spec.isolation = read_isolation(*n, spec.car.lamps, diagnostics);
  if (const Node* n = fields.node("extras")) spec.extras = read_extras(*n, diagnostics);
  if (const Node* n = fields.need_node("runs")) spec.runs = read_runs(*n, diagnostics);
  if (const Node* n = fields.need_node("grounds")) spec.grounds = read_grounds(*n, diagnostics);
  if (const Node* n = fields.node("wire")) spec.wire = read_wire(*n, diagnostics);
  if (const Node* n = fields.node("limits")) spec.limits = read_limits(*n, diagnostics);
  if (const Node* n = fields.node("as found")) spec.as_found = read_as_found(*n, diagnostics);
  if (const Node* n = fields.node("measured")) spec.measured = read_measured(*n, diagnostics);
  if (const Node* n = fields.node("sheets")) {
    Fields sheets(*n, "sheets", diagnostics);
    if (const auto paper = sheets.text("paper")) {   // the style knows which there are
      spec.paper = paper->value;
      spec.paper_place = paper->place;
      spec.paper_named = true;
    }
    sheets.finish();
  }
  if (const Node* n = fields.node("catalogue")) read_own_catalogue(*n, spec, diagnostics);
  fields.finish();
  check_references(spec, diagnostics);
  return spec;
}

std::optional<Spec> read_job(const Node& root, int file, Diagnostics& diagnostics) {
  Spec spec = read_rows(root, file, diagnostics);
  if (diagnostics.has_errors()) return std::nullopt;
  return spec;
}

}  // namespace towloom
