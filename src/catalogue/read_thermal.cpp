// Heat of a part by its mounting.
#include <algorithm>

#include "catalogue/parts.hpp"

namespace towloom {

const std::vector<std::string>& mountings() {
  static const std::vector<std::string> names = {"on metal", "free air", "in loom"};
  return names;
}

std::optional<Thermal> read_thermal(Fields& fields) {
  const Node* node = fields.node("thermal");
  if (node == nullptr) return std::nullopt;
  Thermal out;
  Fields rows(*node, "thermal", fields.diagnostics());
  for (const std::string& mounting : mountings()) {
    const auto k_per_w = rows.need_quantity(mounting, Unit::kelvin_per_watt);
    out.k_per_w[mounting] = k_per_w ? k_per_w->value : 0;
    if (k_per_w && !(k_per_w->value > 0))
      fields.diagnostics().error("thermal", k_per_w->place, "kelvin per watt lie above 0");
  }
  rows.finish();
  if (const auto hottest = fields.need_quantity("hottest", Unit::celsius)) out.hottest_c = hottest->value;
  out.provenance = {fields.need_text("thermal source").value, Confidence::practice, fields.key_place("thermal source")};
  if (const auto confidence = read_confidence(fields, "thermal confidence")) out.provenance.confidence = *confidence;
  return out;
}

}  // namespace towloom
