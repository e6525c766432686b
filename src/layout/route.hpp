// An orthogonal router on the drawing module: terminal to terminal, right-angle crossings only,
// whole numbers only, so that every machine draws the same.
#pragma once

#include <string>
#include <vector>

namespace towloom {

struct GridPoint {               // in modules
  int x = 0, y = 0;
  auto operator<=>(const GridPoint&) const = default;
};
struct GridBox { int left = 0, top = 0, right = 0, bottom = 0; };   // edges count as inside

// Directions in which a wire may leave a terminal.
enum class Way : int { right = 0, down = 1, left = 2, up = 3, any = 4 };

struct RouteRequest {
  std::string id;
  GridPoint from, to;
  Way leave = Way::any, arrive = Way::any;   // `arrive`: side of the target the wire comes from, as a way outwards
};
struct Routed {
  std::string id;
  std::vector<GridPoint> path;   // corners only; empty when no way was found
};
struct Fence { bool upright = false; GridBox cells; };   // one row or column: a wire may cross it, not run along or bend on it
struct Grid {
  int width = 0, height = 0;
  std::vector<GridBox> blocked;        // bodies of symbols
  std::vector<GridPoint> terminals;    // no foreign wire may touch them
  std::vector<Fence> fences = {};      // edges of the frames of housings
};
// Straight wires first, then by length; what finds no way drives others out, within bounds. `effort`: rounds in which
// wires that cross are laid again by pairs; the sum of steps, bends and crossings never rises.
std::vector<Routed> route(const Grid&, const std::vector<RouteRequest>&, int effort = 0);

}  // namespace towloom
