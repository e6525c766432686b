// The sheet face inside an SVG, for browsers on machines that do not have it.
#pragma once

#include <string>
#include <vector>

#include "drawing/drawing.hpp"

namespace towloom {

// CSS @font-face rules with the glyphs that these pages use, one rule a weight, base64. Empty and `error` set on
// failure: a sheet is still right without, for room is kept for other faces.
std::string embedded_faces(const std::vector<Drawing>& pages, std::string& error);

}  // namespace towloom
