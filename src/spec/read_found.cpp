// as found: and measured: what was seen and read at the car on the day.

#include "spec/parts.hpp"

namespace towloom {
namespace {

void read_cores(const Node& node, AsFoundRow& out, Diagnostics& diagnostics) {
  Fields cores(node, "cores", diagnostics);
  for (const Entry& e : node.entries)
    if (const auto to = cores.text(e.key)) out.cores.push_back({{e.key, e.key_place}, *to});
}

AsFoundRow read_row(const Entry& entry, Diagnostics& diagnostics) {
  AsFoundRow out;
  Fields row(entry.value, "as found '" + entry.key + "'", diagnostics);
  out.what = {entry.key, entry.key_place};
  out.why = row.need_text("why");
  out.date = row.need_text("date");
  out.on = row.text("on");
  out.band = row.word("band", {"away"});
  out.fitted = row.word("fitted", {"no"});
  out.ohm = bounded(row, "ohm", Unit::ohm, most_ohm);
  out.loses_v = bounded(row, "loses", Unit::volt, highest_v);
  out.at_a = bounded(row, "at", Unit::ampere, most_a);
  if (const Node* n = row.node("cores")) read_cores(*n, out, diagnostics);
  if (out.loses_v.has_value() != out.at_a.has_value())
    diagnostics.error("as-found", entry.key_place, "volts lost tell a resistance only with the amps that flow", "loses: 0.9 V, at: 1.9 A");
  const int seen = out.on.has_value() + out.band.has_value() + out.fitted.has_value() + out.ohm.has_value() + out.loses_v.has_value() + !out.cores.empty();
  if (seen > 1) diagnostics.error("as-found", entry.key_place, "'" + entry.key + "' holds two observations", "one row for each");
  if (row.has("date") && !is_iso_date(out.date.value))
    diagnostics.error("date", out.date.place, "'" + out.date.value + "' is not a date", "write it like 2026-11-24");
  row.finish();
  return out;
}

}  // namespace

std::vector<AsFoundRow> read_as_found(const Node& node, Diagnostics& diagnostics) {
  std::vector<AsFoundRow> out;
  Fields check(node, "as found", diagnostics);
  for (const Entry& entry : node.entries) out.push_back(read_row(entry, diagnostics));
  return out;
}

std::vector<MeasuredRow> read_measured(const Node& node, Diagnostics& diagnostics) {
  std::vector<MeasuredRow> out;
  if (node.kind != Node::Kind::list)
    diagnostics.error("measured", node.place, "measured: takes a list of readings", "- {at: left rear, scene: tail + left, volts: 11.6 V}");
  for (const Node& item : node.items) {
    MeasuredRow reading;
    Fields row(item, "reading", diagnostics);
    reading.at = row.need_text("at");
    reading.scene = row.need_text("scene");
    reading.against = row.text("against");
    if (const auto volts = row.need_quantity("volts", Unit::volt)) reading.volts = *volts;
    if (const auto date = row.text("date")) reading.date = date->value;
    row.finish();
    out.push_back(std::move(reading));
  }
  return out;
}

}  // namespace towloom
