#include "export/rows.hpp"

#include <algorithm>
#include <cmath>

namespace towloom {

std::vector<WireRow> wire_rows(const Facts& facts, const Catalogue& catalogue) {
  const Circuit& circuit = facts.circuit();
  const std::vector<Protection> fuses = find_protection(circuit, facts.spec);
  std::vector<WireRow> out;
  for (std::size_t w = 0; w < circuit.wires.size(); ++w) {
    WireRow row{&circuit.wires[w], 0, 0, 0, fuses[w]};
    const WireSize* size = row.wire->size ? find_size(*row.wire->size, circuit.wire_series, catalogue) : nullptr;
    if (size != nullptr) row.mm2 = size->area_mm2;
    for (const Solved& s : facts.states.solved)
      for (int p = 0; p < s.phases; ++p) row.amps_max = std::max(row.amps_max, std::fabs(s.phase[static_cast<std::size_t>(p)].wire_a[w]));
    row.drop_v = row.amps_max * wire_ohm(*row.wire, circuit, catalogue);
    out.push_back(row);
  }
  return out;
}

bool is_bought(const Wire& w) { return w.status == Status::fitted && w.size && w.fixed_ohm < 0; }

double cut_length(const Wire& w, const Catalogue& catalogue) {
  const double step = catalogue.rule("cut_rounding_m").value;
  return std::ceil(w.length_m / step - 1e-6) * step;
}

const char* to_text(Status status) {
  return status == Status::fitted ? "new" : status == Status::factory ? "factory" : "coach";
}

double rounded(double value, double step) {
  const double out = std::round(value / step) * step;
  return out == 0 ? 0 : std::round(value / step) / std::round(1 / step);   // 0.1, not 0.1000000000000001; never -0
}

}  // namespace towloom
