// Designations of terminals by DIN 72552.
#include "catalogue/parts.hpp"

namespace towloom {

void read_designations(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "designations file", diagnostics);
  Provenance source;
  if (file.has("source")) source = read_provenance(file);
  each_row(file, "designations", "designation", [&](Fields& fields, const Entry& e) {
    Designation d;
    d.name = e.key;
    d.meaning = fields.need_text("is").value;
    if (const auto older = fields.text("older")) d.older = older->value;
    d.provenance = read_provenance(fields, file.has("source") ? &source : nullptr);
    keep(out.designations, e.key, std::move(d), e.key_place, "designation", diagnostics);
  });
  file.finish();
}

}  // namespace towloom
