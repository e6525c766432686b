// What both writers draw in the same way.
#pragma once

#include "drawing/drawing.hpp"
#include "drawing/text.hpp"

namespace towloom {

constexpr Mm100 terminal_radius = mm(0.4);

// Where the text of a label begins, from its anchor and its width in the sheet face.
inline Mm100 text_left(const Label& label, const TextMeasure& measure) {
  if (label.anchor == Anchor::start) return label.at.x;
  const Mm100 width = measure.width(label.text, label.size, label.weight);
  return label.at.x - (label.anchor == Anchor::middle ? width / 2 : width);
}

}  // namespace towloom
