#include <doctest/doctest.h>

#include "layout/dot_order.hpp"

using namespace towloom;

TEST_CASE("two wires that cross in the given order are uncrossed") {
  // Columns 0 and 1 with two nodes each; the upper one leads to the lower one and the other way round.
  const LayeredGraph g{{{0, 2}, {0, 2}, {1, 2}, {1, 2}}, {{0, 3, 1}, {1, 2, 1}}, {}};
  const auto y = dot_order(g);
  REQUIRE(y.size() == 4);
  CHECK((y[0] < y[1]) == (y[3] < y[2]));
}

TEST_CASE("what shall stand above stands above, though its wires then cross") {
  const LayeredGraph g{{{0, 2}, {0, 2}, {1, 2}, {1, 2}}, {{0, 3, 1}, {1, 2, 1}}, {{0, 1}, {2, 3}}};
  const auto y = dot_order(g);
  REQUIRE(y.size() == 4);
  CHECK(y[0] < y[1]);
  CHECK(y[2] < y[3]);
}

TEST_CASE("the same graph gives the same order twice") {
  LayeredGraph g;
  for (int i = 0; i < 24; ++i) g.nodes.push_back({i / 8, 2});
  for (int i = 0; i < 16; ++i) g.edges.push_back({i, 8 * (i / 8 + 1) + (i * 5) % 8, 1});
  CHECK(dot_order(g) == dot_order(g));
}
