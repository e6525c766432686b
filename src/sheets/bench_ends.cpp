// A long fitted wire bears its letters at both ends: whoever stands at one of them need not follow it to read its colour.
#include <algorithm>
#include <cstdlib>

#include "sheets/bench_labels.hpp"

namespace towloom {

void Labels::ends(std::size_t index) {
  constexpr Mm100 in_sight = mm(70);   // from an end to the wire's own label: the eye does not have to follow the line
  constexpr double near = 14;          // modules from the end in which the letters may stand
  const Wire& wire = d_.circuit().wires[index];
  const std::string colour = colour_text(wire.colour, d_.style);
  const auto& path = routed_[index].path;
  if (wire.status == Status::factory || colour.empty() || path.size() < 2) return;
  for (const bool last : {false, true}) {
    const std::vector<GridPoint> from_end = last ? std::vector<GridPoint>(path.rbegin(), path.rend()) : path;
    const Point at = BenchDraft::at(from_end.front());
    const Rect spot{at.x, at.y, 0, 0};
    const bool named = std::any_of(items_.begin(), items_.end(), [&](const Item& item) {
      const auto* label = std::get_if<Label>(&item);
      return label != nullptr && label->about == wire.id && apart(label->room, spot) <= in_sight;
    });
    if (named) continue;
    const LabelLine letters{colour, Weight::semibold, "ink"};
    const auto towards = [&](int from, int to) { return to > from ? std::min<double>(to, from + near) : std::max<double>(to, from - near); };
    const auto stretch = [&](GridPoint end, GridPoint next) {
      const double x = towards(end.x, next.x), y = towards(end.y, next.y);
      return Stretch{std::min<double>(end.x, x), std::min<double>(end.y, y), std::max<double>(end.x, x), std::max<double>(end.y, y)};
    };
    double gone = 0;   // modules from the end: round its corners too, as long as the letters stay in sight
    for (std::size_t k = 0; k + 1 < from_end.size() && gone < 2 * near; ++k) {
      const GridPoint end = from_end[k], next = from_end[k + 1];
      const Stretch s = stretch(end, next);
      const bool placed = end.y != next.y ? upright({letters}, s, index) : along({letters}, {}, s, index, 0) || along({}, {letters}, s, index, 0);
      if (placed) break;
      gone += std::abs(end.x - next.x) + std::abs(end.y - next.y);
    }
  }
}

}  // namespace towloom
