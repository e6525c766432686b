// Inside the room only: the search for an order of each column, from the first one (order_first.cpp) on (order.cpp, order_chains.cpp).
#pragma once

#include <cstdint>
#include <vector>

#include "layout/sketch.hpp"

namespace towloom {

using Block = std::vector<int>;          // nodes that stay together: the lamps of one housing
struct Column {                          // mirror images stand for one another: each pair is in `side` once
  std::vector<Block> side;               // from the axis outwards
  std::vector<int> centre;               // from the top
};

class Order {
 public:
  Order(Sketch& sketch, const Circuit& circuit, unsigned start) : s_(sketch), c_(circuit), columns_(sketch.zone.size()), random_(20261124u + start) {}
  void find();

 private:
  static constexpr int crossing_cost = 100, custom_cost = 30;
  bool folded(int n) const { return s_.nodes[static_cast<std::size_t>(n)].side == Side::right && s_.nodes[static_cast<std::size_t>(n)].twin >= 0; }
  int height(int n) const;
  void first_sides();
  void first_centre();
  void housings_together();
  void unfold(std::size_t column);
  int crossings(std::size_t left_column) const;           // their cost
  int customs(std::size_t column) const;
  bool improve(std::size_t column);
  void vary(std::vector<int>& nodes, int start);
  void settle();
  bool exchange(int a, int b);
  bool exchange_along(int a, int b, bool right);
  void untangle();
  int total() const;
  int find_custom(int n) const;
  int custom(int n) const { return custom_[static_cast<std::size_t>(n)]; }
  int offset(int n, int terminal) const;

  Sketch& s_;
  const Circuit& c_;
  std::vector<Column> columns_;
  struct Link {
    int left, right, left_offset, right_offset;           // nodes; heights of the terminals in them
    int net, inside;                                      // inside: how far it lies from the nearer end of the wire, never the same from both
    bool fitted;
  };
  int crossing(const Link&, const Link&) const;           // what one crossing of the two costs
  int gain(int inner, int outer) const;                   // what is saved when two neighbours change places
  int gain(const std::vector<int>& inner, const std::vector<int>& outer) const;
  std::vector<int> images(int n) const;                   // the node, and its mirror image where it stands for one
  std::vector<std::vector<Link>> links_;                  // by column of their left node
  std::vector<std::vector<const Link*>> leftward_, rightward_;   // by node: its links to the column on its left, on its right
  std::vector<int> custom_;                               // of each node
  struct Ends { int a, b; const Link* link; };
  mutable std::vector<Ends> ends_;                        // room to count crossings in
  std::vector<int> place_;                                // of each node in its column
  std::uint32_t random_;
  bool to_the_ends_ = false;                              // when no crossing can be saved any more they move to the ends of wires
};

}  // namespace towloom
