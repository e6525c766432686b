// wire: and limits:, what sizes are held to.
#include "spec/parts.hpp"

namespace towloom {

WireRules read_wire(const Node& node, Diagnostics& diagnostics) {
  WireRules out;
  out.place = node.place;
  Fields fields(node, "wire", diagnostics);
  out.standard = fields.need_text("standard");
  out.basis = fields.text("ampacity");
  for (const Entry& entry : node.entries) {
    const std::string& key = entry.key;
    if (key == "standard" || key == "ampacity") continue;
    out.named[key] = entry.key_place;
    const auto text = fields.text(key);
    if (!text) continue;
    const auto parts = split(text->value, " ribbon");
    if (parts.size() > 1) out.ribbon = true;
    // Tail, left, right and ground make the ribbon; another count cannot be drawn as meant.
    if (parts.size() > 2 || (parts.size() == 2 && !parts[1].empty() && parts[1] != "of 4"))
      diagnostics.error("ribbon", text->place, "'" + text->value + "': a ribbon holds the four wires ground, tail, left and right",
                        "write ribbon of 4");
    if (parts[0] == "auto") {
      out.size[key] = std::nullopt;
    } else if (const auto size = parse_wire_size(parts[0])) {
      out.size[key] = PlacedSize{*size, text->place};
    } else {
      const std::string near = did_you_mean(parts[0], {"auto"});
      diagnostics.error("wire-size", text->place, "'" + text->value + "' is not a wire size",
                        near.empty() ? "write auto, 16 AWG, or auto ribbon of 4" : "did you mean 'auto'?");
    }
  }
  fields.finish();
  return out;
}

Limits read_limits(const Node& node, Diagnostics& diagnostics) {
  Limits out;
  Fields fields(node, "limits", diagnostics);
  out.drop_v = bounded(fields, "drop", Unit::volt, highest_v);
  out.ambient_c = fields.quantity("ambient", Unit::celsius);
  if (out.ambient_c && (out.ambient_c->value < coldest_c || out.ambient_c->value > hottest_c)) {
    diagnostics.error("out-of-range", out.ambient_c->place, "this ambient temperature cannot be right", "like 40 °C");
    out.ambient_c.reset();
  }
  fields.finish();
  return out;
}

}  // namespace towloom
