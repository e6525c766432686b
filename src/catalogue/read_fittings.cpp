// Terminals, splices, sleeves and covers.
#include <string>

#include "catalogue/parts.hpp"

namespace towloom {
namespace {

// [22 AWG, 16 AWG]: the thinnest and the thickest wire.
std::vector<WireSizeName> read_range(Fields& fields, const char* key, WireSizeName::System system, const char* example) {
  std::vector<WireSizeName> out;
  const auto texts = fields.texts(key);
  for (const PlacedText& text : texts) {
    const auto size = parse_wire_size(text.value);
    if (size && size->system == system)
      out.push_back(*size);
    else
      fields.diagnostics().error("wire-size", text.place, "'" + text.value + "' is no size of this range", example);
  }
  if (out.size() != texts.size()) return {};
  // Gauge numbers fall as wire gets thicker.
  const double sign = system == WireSizeName::System::awg ? -1 : 1;
  if (!out.empty() && (out.size() != 2 || sign * std::stod(out[0].number) >= sign * std::stod(out[1].number)))
    fields.diagnostics().error("wire-range", texts[0].place, "a range is the thinnest and the thickest wire", example);
  return out;
}

}  // namespace

void read_fittings(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "fittings file", diagnostics);
  each_row(file, "fittings", "fitting", [&](Fields& fields, const Entry& e) {
    Fitting f;
    f.name = e.key;
    if (const auto kind = fields.word("kind", {"terminal", "splice", "sleeve", "cover", "support"}))
      f.kind = kind->value;
    else if (!fields.has("kind"))
      (void)fields.need_text("kind");
    f.title = fields.need_text("title").value;
    if (const auto colour = fields.text("colour")) f.colour = colour->value;
    f.awg = read_range(fields, "awg", WireSizeName::System::awg, "write it like [22 AWG, 16 AWG]");
    f.metric = read_range(fields, "metric", WireSizeName::System::mm2, "write it like [0.5 mm2, 1.5 mm2]");
    f.use = fields.need_text("use").value;
    f.provenance = read_provenance(fields);
    keep(out.fittings, e.key, std::move(f), e.key_place, "fitting", diagnostics);
  });
  file.finish();
}

}  // namespace towloom
