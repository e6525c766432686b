// Which column of the bench sheet each part stands in: zone after zone, within a zone along the wires.
#pragma once

#include <vector>

#include "circuit/circuit.hpp"
#include "layout/sides.hpp"

namespace towloom {

// Zones of the sheet from left to right.
enum Zones : int { in_coach, in_inlet, in_middle, in_pocket, in_lamp };

struct ColumnKey {
  int zone = in_middle, rank = 0;
  auto operator<=>(const ColumnKey&) const = default;
};
// By part; parts with equal keys share a column. `twins` as find_twins gives them.
std::vector<ColumnKey> find_columns(const Circuit&, const Flow&, const std::vector<Side>& sides, const std::vector<int>& twins);

}  // namespace towloom
