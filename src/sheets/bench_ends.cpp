// A long fitted wire bears its letters at both ends: whoever stands at one of them need not follow it to read its colour.
#include <algorithm>

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
    const GridPoint end = last ? path.back() : path.front(), next = last ? path[path.size() - 2] : path[1];
    const Point at = BenchDraft::at(end);
    const Rect spot{at.x, at.y, 0, 0};
    const bool named = std::any_of(d_.drawing.items.begin(), d_.drawing.items.end(), [&](const Item& item) {
      const auto* label = std::get_if<Label>(&item);
      return label != nullptr && label->about == wire.id && apart(label->room, spot) <= in_sight;
    });
    if (named) continue;
    const LabelLine letters{colour, Weight::semibold, "ink"};
    const auto towards = [&](int from, int to) { return to > from ? std::min<double>(to, from + near) : std::max<double>(to, from - near); };
    const double x = towards(end.x, next.x), y = towards(end.y, next.y);
    const Stretch s{std::min<double>(end.x, x), std::min<double>(end.y, y), std::max<double>(end.x, x), std::max<double>(end.y, y)};
    if (end.y != next.y) upright({letters}, s, index);
    else if (!along({letters}, {}, s, index, 0)) along({}, {letters}, s, index, 0);
  }
}

}  // namespace towloom
