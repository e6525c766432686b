// Facts enough to draw from, of a job that nothing is solved of.
#pragma once

#include <optional>
#include <string>

#include "circuit/fixture.hpp"
#include "check/check.hpp"

namespace towloom::fixture {

// The sheets need no solved scene: wires get one size, and no volts are printed. Nothing where what chance wrote
// contradicts itself.
inline std::optional<Facts> unsolved(const std::string& text, Catalogue& catalogue) {
  Sources sources;
  Diagnostics diagnostics;
  const int file = sources.add("job.yaml", text);
  const auto root = read_yaml(file, sources, diagnostics);
  auto spec = root ? read_job(*root, file, diagnostics) : std::nullopt;
  if (!spec || !settle_job(*spec, catalogue, diagnostics)) return std::nullopt;
  auto circuit = build(*spec, catalogue, diagnostics);
  if (!circuit) return std::nullopt;
  Facts facts;
  facts.spec = *spec;
  facts.sized.circuit = std::move(*circuit);
  for (Wire& w : facts.sized.circuit.wires)
    if (!w.size && w.fixed_ohm < 0) w.size = WireSizeName{"16", WireSizeName::System::awg};
  return facts;
}

}  // namespace towloom::fixture
