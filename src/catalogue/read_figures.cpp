// Lamps, wire, fuses, diodes and rules: tables of figures.
#include "catalogue/parts.hpp"

namespace towloom {
namespace {

double value_or(const std::optional<PlacedNumber>& v, double otherwise) { return v ? v->value : otherwise; }

Filament read_filament(const Entry& entry, const std::optional<PlacedNumber>& bulb_volts, const Provenance& p,
                       Diagnostics& diagnostics) {
  Filament out;
  out.name = entry.key;
  out.provenance = p;
  Fields fields(entry.value, "filament '" + entry.key + "'", diagnostics);
  out.volts = value_or(fields.quantity("volts", Unit::volt), value_or(bulb_volts, 0));
  const auto amps = fields.quantity("amps", Unit::ampere);
  const auto watts = fields.quantity("watts", Unit::watt);
  out.amps = amps ? amps->value : watts && out.volts > 0 ? watts->value / out.volts : 0;
  out.light_lm = value_or(fields.number("lumens"), 0);
  fields.finish();
  if (!(out.volts > 0) || !(out.amps > 0))
    diagnostics.error("filament", entry.key_place, "this filament needs volts, and amps or watts");
  return out;
}

}  // namespace

void read_lamps_file(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "lamps file", diagnostics);
  each_row(file, "lamps", "lamp", [&](Fields& fields, const Entry& e) {
    Bulb bulb;
    bulb.name = e.key;
    bulb.title = fields.need_text("title").value;
    const auto volts = fields.quantity("volts", Unit::volt);
    bulb.provenance = read_provenance(fields);
    if (const Node* filaments = fields.need_node("filaments"))
      for (const Entry& f : filaments->entries)
        bulb.filaments.push_back(read_filament(f, volts, bulb.provenance, diagnostics));
    keep(out.bulbs, e.key, std::move(bulb), e.key_place, "lamp", diagnostics);
  });
  file.finish();
}

void read_wire_series(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  WireSeries series;
  Fields file(node, "wire series", diagnostics);
  series.name = file.need_text("series").value;
  series.title = file.need_text("title").value;
  series.insulation_c = value_or(file.need_quantity("insulation", Unit::celsius), 0);
  series.resistance = read_provenance_node(file.need_node("resistance"), "resistance", diagnostics);
  series.basis = file.need_text("ampacity").value;
  const Provenance fuse = read_provenance_node(file.need_node("fuse"), "fuse", diagnostics);
  if (const Node* sizes = file.need_node("sizes"))
    for (const Entry& e : sizes->entries) {
      WireSize size;
      size.provenance = series.resistance;
      const auto name = parse_wire_size(e.key);
      if (!name) {
        diagnostics.error("wire-size", e.key_place, "'" + e.key + "' is not a wire size");
        continue;
      }
      size.name = *name;
      Fields fields(e.value, "size " + e.key, diagnostics);
      size.area_mm2 = value_or(fields.need_quantity("area", Unit::mm2), 0);
      size.ohm_per_m = value_or(fields.need_quantity("resistance", Unit::ohm), 0);
      if (const auto amps = fields.quantity("largest fuse", Unit::ampere)) size.fuse_max_a = amps->value;
      fields.finish();
      const bool rising = series.sizes.empty() || size.area_mm2 > series.sizes.back().area_mm2;
      if (!rising || !(size.ohm_per_m > 0))
        diagnostics.error("wire-order", e.key_place, "sizes must rise in area, with a resistance above 0");
      series.sizes.push_back(std::move(size));
    }
  file.finish();
  keep(out.wires, series.name, series, node.entries.front().key_place, "wire series", diagnostics);
}

void read_fuses(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "fuses file", diagnostics);
  const Provenance source = read_provenance(file);
  each_row(file, "fuses", "fuse", [&](Fields& fields, const Entry& e) {
    const auto amps = parse_quantity(e.key, Unit::ampere);
    if (!amps) diagnostics.error("fuse", e.key_place, "'" + e.key + "' is not a rating", "write it like 10 A");
    FuseRating fuse{amps.value_or(0), value_or(fields.need_quantity("resistance", Unit::ohm), 0),
                    fields.need_text("colour").value, source};
    out.fuses.push_back(std::move(fuse));
  });
  file.finish();
}

void read_diodes(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "diodes file", diagnostics);
  const auto exponent = [](Fields& fields, const char* key) {  // "5e-9": kept out of parse_quantity on purpose
    const auto text = fields.need_text(key);
    const std::size_t e = text.value.find('e');
    const auto mantissa = parse_quantity(text.value.substr(0, e), Unit::plain);
    const auto power = e == std::string::npos ? std::optional<double>(0) : parse_quantity(text.value.substr(e + 1), Unit::plain);
    if (!mantissa || !power || *power != static_cast<int>(*power) || *power < -30 || *power > 30) {
      fields.diagnostics().error("number", text.place, "'" + text.value + "' is not a number");
      return 0.0;
    }
    double value = *mantissa;
    for (int i = 0; i < static_cast<int>(*power); ++i) value *= 10;
    for (int i = 0; i > static_cast<int>(*power); --i) value /= 10;
    return value;
  };
  each_row(file, "diodes", "diode", [&](Fields& fields, const Entry& e) {
    DiodeModel d;
    d.name = e.key;
    d.title = fields.need_text("title").value;
    d.is = exponent(fields, "is");
    d.n = value_or(fields.number("n"), 1);
    d.rs = value_or(fields.number("rs"), 0);
    d.eg = value_or(fields.number("eg"), 1.11);
    d.xti = value_or(fields.number("xti"), 3);
    d.rated_a = value_or(fields.need_quantity("rated", Unit::ampere), 0);
    (void)fields.need_node("thermal");
    if (auto thermal = read_thermal(fields)) d.thermal = std::move(*thermal);
    d.provenance = read_provenance(fields);
    if (!(d.is > 0) || !(d.n > 0) || !(d.rs > 0))
      diagnostics.error("diode", e.key_place, "is, n and rs must be above 0");
    keep(out.diodes, e.key, std::move(d), e.key_place, "diode", diagnostics);
  });
  file.finish();
}

void read_rules(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "rules file", diagnostics);
  each_row(file, "rules", "rule", [&](Fields& fields, const Entry& e) {
    const auto text = fields.need_text("value");
    Rule rule;
    bool read = false;
    for (Unit unit : {Unit::plain, Unit::volt, Unit::ampere, Unit::ohm, Unit::metre, Unit::celsius, Unit::percent})
      if (const auto v = parse_quantity(text.value, unit); v && !read) {
        rule.value = *v;
        read = true;
      }
    if (!read) diagnostics.error("rule", text.place, "'" + text.value + "' is not a value with a known unit");
    rule.provenance = read_provenance(fields);
    keep(out.rules, e.key, rule, e.key_place, "rule", diagnostics);
  });
  file.finish();
}

}  // namespace towloom
