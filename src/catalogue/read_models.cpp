// Relays, outputs, chargers and modules; lamp functions.
#include <algorithm>

#include "catalogue/part_kinds.hpp"
#include "catalogue/parts.hpp"

namespace towloom {
namespace {

double need(Fields& fields, const char* key, Unit unit) {
  const auto value = fields.need_quantity(key, unit);
  return value ? value->value : 0;
}

// One row of a truth table: inputs, then outputs; or else, then outputs.
void read_table_row(const Node& node, ModuleModel& module, Diagnostics& diagnostics) {
  TableRow row;
  std::vector<std::string> cells;
  for (const Node& cell : node.items) cells.push_back(cell.text);
  if (!cells.empty() && cells.back() == "uncertain") {
    row.uncertain = true;
    cells.pop_back();
  }
  row.otherwise = !cells.empty() && cells.front() == "else";
  const std::size_t ins = row.otherwise ? 1 : module.inputs.size();
  if (cells.size() != ins + module.outputs.size())
    return diagnostics.error("table", node.place, "this row has " + std::to_string(cells.size()) + " cells, not " +
                                                      std::to_string(ins + module.outputs.size()), "inputs first, then outputs");
  row.in.assign(cells.begin(), cells.begin() + static_cast<std::ptrdiff_t>(ins));
  row.out.assign(cells.begin() + static_cast<std::ptrdiff_t>(ins), cells.end());
  const std::vector<std::string> levels = {"0", "1", "F", "G"};
  const auto level = [&](const std::string& cell) { return std::find(levels.begin(), levels.end(), cell) != levels.end(); };
  for (const std::string& cell : row.in)
    if (!row.otherwise && cell != "x" && !level(cell)) diagnostics.error("table", node.place, "'" + cell + "' is no input level", "0, 1, F, G or x");
  for (const std::string& cell : row.out) {
    const bool copy = cell.size() > 1 && cell[0] == '=' && std::find(module.inputs.begin(), module.inputs.end(), cell.substr(1)) != module.inputs.end();
    if (!copy && !level(cell)) diagnostics.error("table", node.place, "'" + cell + "' is no output level", "0, 1, F, G or =input");
  }
  module.rows.push_back(std::move(row));
}

}  // namespace

void read_part_models(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "parts file", diagnostics);
  each_row(file, "parts", "part", [&](Fields& fields, const Entry& e) {
    PartModel model;
    model.name = e.key;
    const auto kind = fields.need_text("kind");
    model.kind = kind.value;
    model.title = fields.need_text("title").value;
    if (const auto body = fields.text("body diode")) model.body_diode = *body;
    model.thermal = read_thermal(fields);
    if (const auto live = fields.word("live", {"tow", "stop", "parted"})) model.live_in = live->value;
    if (const auto suppressed = fields.word("suppressed", {"yes", "no"})) model.suppressed = suppressed->value == "yes";
    model.provenance = read_provenance(fields);
    const PartKind* known = find_kind(model.kind);
    if (known == nullptr || std::string(known->model_of) != "parts") {
      for (const Entry& figure : e.value.entries) (void)fields.node(figure.key);  // one error is enough
      return diagnostics.error("part-kind", kind.place, "'" + model.kind + "' is no kind of part with figures");
    }
    for (const FigureNeed& f : known->figures) model.figures[f.key] = need(fields, f.key, f.unit);
    keep(out.parts, e.key, std::move(model), e.key_place, "part", diagnostics);
  });
  file.finish();
}

void read_module(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  ModuleModel m;
  Fields fields(node, "module", diagnostics);
  m.name = fields.need_text("module").value;
  m.title = fields.need_text("title").value;
  if (const Node* n = fields.need_node("supply")) {
    Fields row(*n, "supply", diagnostics);
    m.works_from_v = need(row, "works from", Unit::volt);
    m.stops_at_v = need(row, "stops at", Unit::volt);
    m.draw_a = need(row, "draw", Unit::ampere);
    row.finish();
  }
  if (const Node* n = fields.need_node("input")) {
    Fields row(*n, "input", diagnostics);
    m.high_v = need(row, "high", Unit::volt);
    m.low_v = need(row, "low", Unit::volt);
    m.input_ohm = need(row, "load", Unit::ohm);
    row.finish();
    if (!(m.low_v < m.high_v) || !(m.input_ohm > 0)) diagnostics.error("input", n->place, "low must lie below high, and the load above 0");
  }
  if (const Node* n = fields.need_node("output")) {
    Fields row(*n, "output", diagnostics);
    m.on_ohm = need(row, "on", Unit::ohm);
    m.leak_a = need(row, "leak", Unit::ampere);
    row.finish();
  }
  for (const PlacedText& t : fields.texts("inputs")) m.inputs.push_back(t.value);
  for (const PlacedText& t : fields.texts("outputs")) m.outputs.push_back(t.value);
  if (const Node* n = fields.need_node("table"))
    for (const Node& row : n->items) read_table_row(row, m, diagnostics);
  if (m.rows.empty() || !m.rows.back().otherwise)
    diagnostics.error("table", node.place, "the table must answer every input: end it with an else row");
  if (const auto body = fields.text("body diode")) m.body_diode = *body;
  if (const auto late = fields.number("late flashes")) m.late_flashes = static_cast<int>(late->value);
  for (const PlacedText& t : fields.texts("limits")) m.limits.push_back(t.value);
  m.thermal = read_thermal(fields);
  m.provenance = read_provenance(fields);
  fields.finish();
  keep(out.modules, m.name, m, node.entries.front().key_place, "module", diagnostics);
}

void read_functions(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "functions file", diagnostics);
  each_row(file, "functions", "function", [&](Fields& fields, const Entry& e) {
    LampFunction f;
    f.name = e.key;
    f.title = fields.need_text("title").value;
    f.car = fields.need_text("car").value;
    for (const PlacedText& t : fields.texts("tow")) f.tow.push_back(t);
    if (const auto only = fields.word("only", {"combined", "separate"})) f.only = only->value;
    f.optional = fields.word("optional", {"yes"}).has_value();
    out.functions.push_back(std::move(f));
  });
  const Provenance source = read_provenance(file);
  each_row(file, "circuits", "circuit", [&](Fields& fields, const Entry& e) {
    CircuitColour c{fields.need_text("colour").value, false, source};
    if (const auto returns = fields.word("returns", {"yes", "no"})) c.returns = returns->value == "yes";
    keep(out.circuits, e.key, std::move(c), e.key_place, "circuit", diagnostics);
  });
  file.finish();
}

}  // namespace towloom
