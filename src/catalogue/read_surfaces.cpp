// What a ground screw can be found to bite in.
#include "catalogue/parts.hpp"

namespace towloom {

void read_surfaces(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "surfaces file", diagnostics);
  each_row(file, "surfaces", "surface", [&](Fields& fields, const Entry& e) {
    Surface s;
    s.name = e.key;
    if (const auto ohm = fields.need_quantity("ohm", Unit::ohm)) s.ohm = ohm->value;
    if (const auto says = fields.text("says")) s.says = says->value;
    s.provenance = read_provenance(fields);
    keep(out.surfaces, e.key, std::move(s), e.key_place, "surface", diagnostics);
  });
  file.finish();
}

}  // namespace towloom
