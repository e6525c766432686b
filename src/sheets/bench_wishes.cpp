#include "sheets/bench_wishes.hpp"

namespace towloom {
namespace {

constexpr int little_more = 1;   // modules

}  // namespace

std::vector<Wishes> asked(const Wishes& had, const std::vector<LabelFault>& faults) {
  std::vector<Wishes> out(4, had);
  for (const LabelFault& f : faults) {
    for (std::size_t k = 0; k < 3; ++k) {
      if (k != 1) out[k].wider[f.wire] += more_width;
      if (k != 0) out[k].roomy.insert(f.wire);
    }
    if (f.weight >= grave) out[3].wider[f.wire] += little_more;
  }
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
