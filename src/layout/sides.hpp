// Which side of the sheet each part belongs to, and its mirror image there.
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"

namespace towloom {

struct Flow {                    // by part: parts behind it and before it along the wires; studs and returns left out
  std::vector<std::vector<int>> next, before;
};
Flow flow_of(const Circuit&);
// A part that is fed from both ends, like the fuse of a charge line at the battery, stands between them: where its far
// end goes on elsewhere, the reference belongs behind it, though the wire comes from there.
bool is_far_end(const Circuit&, const Wire&);
std::vector<Side> find_sides(const Circuit&, const Flow&);
// By part: the part on the other side that is the same but for left and right, or -1.
std::vector<int> find_twins(const Circuit&, const Flow&, const std::vector<Side>&);
// Whether right and left face each other as mirror images: where lamps of both sides stand, or none.
bool is_mirrored(const Circuit&);
// Left and right taken out of a text: mirror images then read the same.
std::string without_side(std::string);

}  // namespace towloom
