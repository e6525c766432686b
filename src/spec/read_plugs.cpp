// What stands between coach and car: contacts as they were found, cords, second plugs.
#include "spec/parts.hpp"

namespace towloom {
namespace {

// "0.15 m", "0.8 m covered": along the wire from the source to the contact's fuse.
void read_fuse_at(FoundContact& out, Fields& row, Diagnostics& diagnostics) {
  const auto text = row.text("fuse at");
  if (!text) return;
  const std::size_t end = text->value.rfind(" covered");
  out.fuse_covered = end != std::string::npos && end + 8 == text->value.size();
  const auto length = parse_quantity(text->value.substr(0, out.fuse_covered ? end : std::string::npos), Unit::metre);
  if (!length || *length < 0 || *length > longest_m)
    return diagnostics.error("fuse-at", text->place, "'" + text->value + "' is no distance from the source to the fuse",
                             "write it like 0.15 m, or 0.8 m covered where that stretch lies in a sheath");
  if (!row.has("fuse")) diagnostics.error("fuse-at", text->place, "a fuse's place needs the fuse", "like fuse: 20 A");
  out.fuse_at_m = PlacedNumber{*length, text->place};
}

// "open", or the ohms to the coach's ground that the contact shows while its signal is off.
void read_off(FoundContact& out, Fields& row, Diagnostics& diagnostics) {
  const auto text = row.text("off");
  if (!text || text->value == "open") return;
  const auto ohm = parse_quantity(text->value, Unit::ohm);
  if (ohm && *ohm > 0 && *ohm <= most_ohm) {
    out.off_ohm = PlacedNumber{*ohm, text->place};
    return;
  }
  const std::string near = did_you_mean(text->value, {"open"});
  diagnostics.error("off-state", text->place, "'" + text->value + "' is no state of a contact whose signal is off",
                    near.empty() ? "write open, or the ohms to the coach's ground, like 470 ohm" : "did you mean 'open'?");
}

FoundContact read_contact(const Entry& entry, Diagnostics& diagnostics) {
  FoundContact out;
  out.contact = {entry.key, entry.key_place};
  Fields row(entry.value, "contact " + entry.key, diagnostics);
  out.does = row.text("does");   // held against the catalogue when the job is settled
  out.open_v = bounded(row, "open", Unit::volt, highest_v);
  out.loaded_v = bounded(row, "loaded", Unit::volt, highest_v);
  out.load_a = bounded(row, "load", Unit::ampere, most_a);
  out.fuse_a = bounded(row, "fuse", Unit::ampere, most_a);
  out.live = row.word("live", {"always", "engine"});
  read_fuse_at(out, row, diagnostics);
  read_off(out, row, diagnostics);
  if (const auto note = row.text("note")) out.note = note->value;
  row.finish();
  if (out.loaded_v && !row.has("open"))
    diagnostics.error("open-volts", out.loaded_v->place, "loaded volts need the open volts of the same contact");
  if (out.open_v && out.loaded_v && out.loaded_v->value >= out.open_v->value)
    diagnostics.error("loaded-volts", out.loaded_v->place, "loaded volts must be below the open volts",
                      "measure again with the load connected");
  return out;
}

SecondPlug read_second(const Entry& entry, int index, const Cord& main, std::vector<FoundContact>& found, Diagnostics& diagnostics) {
  SecondPlug out;
  out.name = {entry.key, entry.key_place};
  Fields fields(entry.value, "second plug '" + entry.key + "'", diagnostics);
  if (const auto outlet = read_outlet(fields, "outlet", diagnostics)) out.outlet = *outlet;
  const std::vector<FoundContact> own = read_found(fields, index, diagnostics);
  found.insert(found.end(), own.begin(), own.end());
  out.cord.length_m = main.length_m;
  out.cord.wire = main.wire;
  out.cord.place = entry.key_place;
  if (const Node* cord = fields.node("cord")) out.cord = read_cord(*cord, diagnostics);
  out.inlet.form = out.outlet.form;
  if (fields.node("inlet") != nullptr)
    if (const auto inlet = read_outlet(fields, "inlet", diagnostics)) out.inlet = *inlet;
  fields.finish();
  return out;
}

}  // namespace

std::vector<FoundContact> read_found(Fields& fields, int plug, Diagnostics& diagnostics) {
  std::vector<FoundContact> out;
  const Node* found = fields.node("found");
  if (found == nullptr) return out;
  if (found->kind != Node::Kind::map)
    diagnostics.error("found", found->place, "'found' takes a row for each contact", "\"2\": {does: tail, open: 13.6 V}");
  for (const Entry& entry : found->entries) {
    out.push_back(read_contact(entry, diagnostics));
    out.back().plug = plug;
  }
  return out;
}

Cord read_cord(const Node& node, Diagnostics& diagnostics) {
  Cord cord;
  cord.place = node.place;
  Fields fields(node, "cord", diagnostics);
  if (!fields.has("length")) (void)fields.need_node("length");
  if (const auto length = bounded(fields, "length", Unit::metre, longest_m)) cord.length_m = *length;
  if (const auto wire = fields.text("wire")) {
    if (const auto size = parse_wire_size(wire->value))
      cord.wire = PlacedSize{*size, wire->place};
    else
      diagnostics.error("wire-size", wire->place, "'" + wire->value + "' is not a wire size", "write it like 16 AWG");
  }
  if (const Node* cores = fields.node("cores")) {
    Fields rows(*cores, "cores", diagnostics);
    for (const Entry& e : cores->entries) {
      const auto text = rows.text(e.key);
      const auto size = text ? parse_wire_size(text->value) : std::nullopt;
      if (size) cord.cores.push_back({{e.key, e.key_place}, {*size, text->place}});
      if (text && !size) diagnostics.error("wire-size", text->place, "'" + text->value + "' is not a wire size", "cores: {ground: 10 AWG}");
    }
  }
  if (const auto kind = fields.text("kind")) cord.kind = kind->value;
  cord.ends = fields.texts("ends");
  if (!cord.ends.empty() && cord.ends.size() != 2)
    diagnostics.error("cord-ends", cord.ends.front().place, "a cord has two ends", "ends: [blade-7 plug, round-6 plug]");
  if (const Node* rows = fields.node("continuity")) {
    Fields check(*rows, "continuity", diagnostics);
    for (const Entry& e : rows->entries)
      for (const PlacedText& to : check.texts(e.key)) cord.continuity.push_back({{e.key, e.key_place}, to});
  }
  fields.finish();
  return cord;
}

std::vector<SecondPlug> read_second_plugs(const Node& node, const Cord& main, std::vector<FoundContact>& found, Diagnostics& diagnostics) {
  std::vector<SecondPlug> out;
  Fields check(node, "second plugs", diagnostics);
  for (const Entry& entry : node.entries) out.push_back(read_second(entry, static_cast<int>(out.size()) + 1, main, found, diagnostics));
  return out;
}

std::string Plug::outlet_id() const { return std::string("J").append(std::to_string(2 * index + 1)); }
std::string Plug::inlet_id() const { return std::string("J").append(std::to_string(2 * index + 2)); }
std::string Plug::of() const { return name.empty() ? "" : std::string(" of the ").append(name); }

std::vector<Plug> plugs(const Spec& spec) {
  std::vector<Plug> out = {{0, &spec.coach.outlet, &spec.car.inlet, &spec.cord, ""}};
  for (const SecondPlug& second : spec.second_plugs)
    out.push_back({static_cast<int>(out.size()), &second.outlet, &second.inlet, &second.cord, second.name.value});
  return out;
}

}  // namespace towloom
