// What both writers draw in the same way.
#pragma once

#include <algorithm>
#include <vector>

#include "drawing/drawing.hpp"
#include "drawing/text.hpp"
#include "drawing/utf8.hpp"

namespace towloom {

constexpr Mm100 terminal_radius = mm(0.4);

// Where the words of a label begin: from its anchor, each where no face lets it touch the one before.
struct PlacedWords {
  std::vector<Word> words;
  std::vector<Mm100> x;        // by word
  bool single = false;         // one word without blanks: it may keep its anchor
};
inline PlacedWords place_words(const Label& label, const TextMeasure& measure) {
  PlacedWords out{words_of(label.text), measure.word_places(label.text, label.size, label.weight), false};
  out.single = out.words.size() == 1 && out.words[0].text.size() == label.text.size();
  const Mm100 width = measure.width(label.text, label.size, label.weight), wide = out.single ? width : std::max(out.x.back(), width);
  const Mm100 left = label.anchor == Anchor::start ? label.at.x : label.at.x - (label.anchor == Anchor::middle ? wide / 2 : wide);
  out.x.pop_back();
  for (Mm100& x : out.x) x += left;
  return out;
}

}  // namespace towloom
