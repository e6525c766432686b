#include "sheets/bench_wishes.hpp"

namespace towloom {
namespace {

constexpr int little_more = 1;   // modules
constexpr int missed = 8;        // weight of a label that lacks a figure

}  // namespace

std::vector<Wishes> asked(const Wishes& had, const std::vector<LabelFault>& faults) {
  std::vector<Wishes> out(5, had);
  for (const LabelFault& f : faults) {
    for (std::size_t k = 0; k < 3; ++k) {
      if (k != 1) out[k].wider[f.wire] += more_width;
      if (k != 0) out[k].roomy.insert(f.wire);
    }
    out[4].wider[f.wire] += more_width;
    if (f.weight >= missed) out[3].wider[f.wire] += little_more;
  }
  out[4].whole_grounds = true;
  return out;
}

Wishes varied(Wishes wishes, const Circuit& circuit, Choices& choices) {
  if (circuit.wires.empty()) return wishes;
  const int wire = choices.below(static_cast<int>(circuit.wires.size()));
  switch (choices.below(4)) {
    case 0: wishes.start = 1 + static_cast<unsigned>(choices.below(1000)); break;
    case 1: wishes.wider[wire] += 1 + choices.below(more_width); break;
    case 2:
      if (!wishes.roomy.insert(wire).second) wishes.roomy.erase(wire);
      break;
    default: wishes.wider.erase(wire);
  }
  return wishes;
}

}  // namespace towloom
