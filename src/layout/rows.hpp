// Inside the room only: nodes joined into rows by straight links (straighten.cpp), and the heights of the rows
// (heights.cpp).
#pragma once

#include <vector>

#include "layout/sketch.hpp"

namespace towloom {

class Rows {
 public:
  Rows(Sketch& sketch, const Circuit& circuit, int spread) : s_(sketch), c_(circuit), spread_(spread) {
    for (std::size_t n = 0; n < s_.nodes.size(); ++n) row_.push_back(head(static_cast<int>(n)));
    for (const int r : row_) members_.push_back({r});
    offset_.assign(s_.nodes.size(), 0);
    place_.assign(s_.nodes.size(), 0);
    seen_.assign(s_.nodes.size(), 0);
    steps_from_.resize(s_.nodes.size());
  }
  Heights set();

 private:
  struct Step { int from, to, least; };    // nodes: `to` lies at least so far behind `from`
  int head(int n) const {                  // mirror images count once, by the left one
    const SketchNode& node = s_.nodes[static_cast<std::size_t>(n)];
    return node.side == Side::right && node.twin >= 0 ? node.twin : n;
  }
  int sign(int n) const { return s_.nodes[static_cast<std::size_t>(n)].side == Side::right ? -1 : 1; }
  bool central(int n) const { return s_.nodes[static_cast<std::size_t>(n)].side == Side::centre; }
  int room(int upper, int lower) const;    // least distance of two neighbours of a column
  bool under_name(const std::vector<int>& column, std::size_t i) const;
  void collect_steps();
  void straighten(bool centre);
  bool join(const SketchLink&);
  bool looped(int row);                    // whether it lies behind itself, or two of its nodes lie too close
  std::vector<int> longest(bool centre, bool backwards) const;
  void set_centre();
  void settle_centre();
  void set_sides();
  double ground_reach(const SketchNode&) const;
  int own(int n, int terminal) const;      // height of a terminal over its node's origin, outwards
  bool branch(int n) const;
  int rank(const SketchLink&) const;
  std::vector<int> off_median() const;

  Sketch& s_;
  const Circuit& c_;
  int spread_;
  std::vector<int> row_, offset_;          // of each node's head: its row's first node, and the distance from it
  std::vector<int> place_;                 // of each row: outwards from the axis, or down from the top
  std::vector<Step> steps_;
  std::vector<std::vector<Step>> steps_from_;   // by node
  std::vector<std::vector<int>> members_;  // of each row
  std::vector<int> seen_;                  // rows that the search of this number has reached
  int search_ = 0;
};

}  // namespace towloom
