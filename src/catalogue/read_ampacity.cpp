// Ampacity bases: tables of continuous current by wire size and insulation, and factors for bundles.
#include <charconv>
#include <cmath>

#include "catalogue/parts.hpp"

namespace towloom {
namespace {

// ASTM B258: d = 0.127 mm x 92^((36 - n) / 39), 1/0 being n = 0, 2/0 n = -1 and so on.
double gauge_area(const std::string& number) {
  int n = 0;
  (void)std::from_chars(number.data(), number.data() + number.size(), n);
  if (number.find("/0") != std::string::npos) n = 1 - n;
  const double d = 0.127 * std::pow(92.0, (36.0 - n) / 39.0);
  return std::acos(-1.0) / 4 * d * d;
}

double area_of(const WireSizeName& name) {
  if (name.system == WireSizeName::System::awg) return gauge_area(name.number);
  return parse_quantity(name.number, Unit::plain).value_or(0);
}

void read_columns(Fields& file, AmpacityBasis& out) {
  for (const PlacedText& text : file.texts("insulation")) {
    const auto celsius = parse_quantity(text.value, Unit::celsius);
    if (!celsius || (!out.insulation_c.empty() && *celsius <= out.insulation_c.back()))
      file.diagnostics().error("ampacity", text.place, "'" + text.value + "' is no rising insulation temperature", "insulation: [60 °C, 75 °C]");
    out.insulation_c.push_back(celsius.value_or(0));
  }
  if (out.insulation_c.empty()) (void)file.need_node("insulation");
}

void read_row(const Entry& entry, Fields& rows, AmpacityBasis& out) {
  AmpacityBasis::Row row;
  for (const PlacedText& text : rows.texts(entry.key)) {
    const auto amps = parse_quantity(text.value, Unit::plain);
    if (!amps || !(*amps > 0)) rows.diagnostics().error("ampacity", text.place, "'" + text.value + "' is no current in ampere");
    row.amps.push_back(amps.value_or(0));
  }
  const auto name = parse_wire_size(entry.key);
  if (!name) return rows.diagnostics().error("wire-size", entry.key_place, "'" + entry.key + "' is not a wire size");
  row.name = *name;
  row.area_mm2 = area_of(*name);
  if (row.amps.size() != out.insulation_c.size())
    rows.diagnostics().error("ampacity", entry.key_place, "this row holds " + std::to_string(row.amps.size()) + " currents for " +
                                                             std::to_string(out.insulation_c.size()) + " columns");
  if (!out.rows.empty() && row.area_mm2 <= out.rows.back().area_mm2)
    rows.diagnostics().error("ampacity", entry.key_place, "sizes must rise in area");
  out.rows.push_back(std::move(row));
}

void read_bundling(const Node& node, Fields& file, AmpacityBasis& out) {
  for (const Node& item : node.items) {
    Fields fields(item, "bundling row", file.diagnostics());
    const auto from = fields.number("from"), to = fields.number("to"), factor = fields.number("factor");
    fields.finish();
    const int next = out.bundling.empty() ? 1 : out.bundling.back().to + 1;
    if (!from || !to || !factor || from->value != next || to->value < from->value || to->value > 999 || !(factor->value > 0) || factor->value > 1) {
      file.diagnostics().error("bundling", item.place, "a row reads {from: 3, to: 3, factor: 0.7}, without a gap from 1 on");
      continue;
    }
    out.bundling.push_back({static_cast<int>(from->value), static_cast<int>(to->value), factor->value});
  }
}

}  // namespace

void read_ampacity(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  AmpacityBasis basis;
  Fields file(node, "ampacity file", diagnostics);
  basis.name = file.need_text("ampacity basis").value;
  basis.title = file.need_text("title").value;
  read_columns(file, basis);
  if (const Node* rows = file.need_node("amps")) {
    Fields fields(*rows, "amps", diagnostics);
    for (const Entry& e : rows->entries) read_row(e, fields, basis);
  }
  if (const Node* rows = file.need_node("bundling")) read_bundling(*rows, file, basis);
  basis.bundling_provenance = read_provenance_node(file.need_node("bundling source"), "bundling source", diagnostics);
  basis.provenance = read_provenance(file);
  file.finish();
  const std::string name = basis.name;
  keep(out.ampacity, name, std::move(basis), node.entries.front().key_place, "ampacity basis", diagnostics);
}

void check_ampacity(const Catalogue& catalogue, Diagnostics& diagnostics) {
  for (const auto& [name, series] : catalogue.wires)
    if (catalogue.ampacity.count(series.basis) == 0)
      diagnostics.error("missing-basis", {}, "wire series " + name + ": no ampacity basis '" + series.basis + "' in the catalogue");
}

int AmpacityBasis::column(double insulation) const {
  int out = -1;
  for (std::size_t i = 0; i < insulation_c.size(); ++i)
    if (insulation_c[i] <= insulation) out = static_cast<int>(i);
  return out;
}

double AmpacityBasis::amps(const WireSize& size, double insulation) const {
  const int at = column(insulation);
  if (at < 0) return 0;
  const Row* found = nullptr;
  for (const Row& row : rows) {
    if (row.name == size.name) return row.amps[static_cast<std::size_t>(at)];
    if (row.area_mm2 <= size.area_mm2 * (1 + 1e-6)) found = &row;
  }
  return found == nullptr ? 0 : found->amps[static_cast<std::size_t>(at)];
}

}  // namespace towloom
