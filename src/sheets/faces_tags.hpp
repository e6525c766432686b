// Round faces: where each contact's lead leaves the shell, and where its label stands.
#pragma once

#include "sheets/faces_pen.hpp"

namespace towloom {

constexpr double shell_rim = 1.52, shell_cavity = 1.30, hinge_depth = 0.12;  // of the contact circle's radius

enum class Spot { left, right, above, below };
struct Tag {
  const FaceContact* contact = nullptr;
  Spot spot = Spot::left;
  double sine = 0, cosine = 1;  // where its lead leaves the shell; cosine upwards
  std::vector<ContactLine> lines;
  Mm100 y = 0;  // top of its text, from the centre
  Mm100 height() const { return static_cast<Mm100>(lines.size()) * face_line; }
};
std::vector<Tag> place_tags(const Picture&, const Style&);

// The lid belongs to one half; its hinge as seen in this view.
bool has_lid(const FaceView&);
FacePoint lid_at(const FaceView&);
// Room over and under the shell for the key's name and the lid.
Mm100 named_above(const Picture&);
Mm100 named_below(const Picture&);

}  // namespace towloom
