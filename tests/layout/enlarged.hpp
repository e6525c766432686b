// A job as large as one likes.
#pragma once

#include <string>

namespace towloom::fixture {

// The plain job with more tail lamps, each in its own housing with its own diodes, along both sides of the car; eight
// of them share a factory node.
inline std::string enlarged(const std::string& plain, int lamps) {
  std::string rows, runs, out = plain;
  for (int i = 1; i <= lamps; ++i) {
    const auto name = [](int k) { return std::string(k % 2 == 0 ? "left" : "right") + (k <= 0 ? " rear" : " more " + std::to_string(k)); };
    rows += "    " + name(i) + ": {tail: LED 0.02 A, feed: PK/BK 0.5 mm2, node: TAIL_" + std::to_string(1 + (i - 1) / 8) + "}\n";
    runs += "  to more " + std::to_string(i) + ": {from: " + name(i - 2) + ", to: " + name(i) + ", length: 0.5 m}\n";
  }
  out.insert(out.find("    high stop: "), rows);
  out.insert(out.find("runs:\n") + 6, runs);
  return out;
}

}  // namespace towloom::fixture
