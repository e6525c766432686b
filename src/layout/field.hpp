// The grid on which wires lie, and the cheapest way of one more.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "layout/route.hpp"

namespace towloom {

enum class Rule { keep, drive_out };   // whether wires that lie already may be driven out

class Field {
 public:
  static constexpr int no_bound = 1 << 28;
  explicit Field(const Grid&);
  // Nothing where no way costs less than `bound`.
  std::vector<GridPoint> find(const RouteRequest&, Rule, int bound = no_bound);
  struct Plain {
    std::vector<GridPoint> corners;
    bool surely;                 // no other way costs less
  };
  Plain find_plain(const RouteRequest&) const;   // the best with two bends at most, nothing driven out
  void take(const std::vector<GridPoint>& corners, int wire);
  void leave(const std::vector<GridPoint>& corners, int wire);
  // Steps, bends and crossings of what lies already, as find() counts them. The wire itself must not lie.
  int cost(const std::vector<GridPoint>& corners) const;
  // Wires that a path crosses, each once.
  std::vector<int> crossed(const std::vector<GridPoint>& corners) const;
  // Wires that a path found by driving out lies on; remembers where.
  std::vector<int> driven_out(const std::vector<GridPoint>& corners);

 private:
  // A step costs 1; a bend as much as 4 steps, a crossing as 6 (measured on a test graph of 103 wires).
  static constexpr int bend_cost = 4, crossing_cost = 6;
  struct Priced {
    std::vector<GridPoint> corners;
    int cost;
    bool surely;
  };
  struct Cell {
    bool blocked = false, fence_level = false, fence_upright = false;
    int level = -1, upright = -1, corner = -1;   // the wire that lies here, or bends or ends here
    int history = 0;
  };
  int stretch_cost(GridPoint a, GridPoint b, bool turns) const;
  Priced price_plain(const RouteRequest&) const;
  bool inside(GridPoint p) const { return p.x >= 0 && p.y >= 0 && p.x < width_ && p.y < height_; }
  Cell& cell(GridPoint p) { return cells_[static_cast<std::size_t>(p.y * width_ + p.x)]; }
  const Cell& cell(GridPoint p) const { return cells_[static_cast<std::size_t>(p.y * width_ + p.x)]; }
  template <class Do>
  static void walk(const std::vector<GridPoint>& corners, Do what);   // what(point, level, is an end of the stretch)

  int width_, height_;
  std::vector<Cell> cells_;
  struct Reached {               // of one search: valid where `search` is its number, or one more once it is done with
    int cost = 0, from = -1;
    unsigned search = 0;
  };
  std::vector<Reached> reached_;
  std::vector<std::vector<std::uint32_t>> open_;   // room for a search
  unsigned search_ = 0;
};

}  // namespace towloom
