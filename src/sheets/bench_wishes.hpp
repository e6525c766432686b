// What the next try of a bench page is placed with.
#pragma once

#include <cstdint>
#include <vector>

#include "sheets/bench_draft.hpp"

namespace towloom {

constexpr int grave = 16;        // weight of a label that asks for larger paper
constexpr int more_width = 4;    // modules asked for at a time

// Room asked for by what could not be printed: beside the wire, above and below it, or both. Then a little for those
// only that lack a figure, a full page holds no more; and beside the wire, but not at the cost of ground symbols.
std::vector<Wishes> asked(const Wishes& had, const std::vector<LabelFault>& faults);

// A fixed sequence of numbers (Numerical Recipes' 32-bit congruential step): the same choices on every machine.
struct Choices {
  std::uint32_t state = 20261125u;
  int below(int n) {
    state = state * 1664525u + 1013904223u;
    return static_cast<int>((state >> 8) % static_cast<std::uint32_t>(n));
  }
};

// One thing placed otherwise: another order, or more or less room for one wire.
Wishes varied(Wishes wishes, const Circuit& circuit, Choices& choices);

}  // namespace towloom
