// The only file that knows Graphviz: the order of nodes in the columns of a layered drawing.
#pragma once

#include <vector>

namespace towloom {

struct LayeredGraph {
  struct Node { int column = 0, height = 1; };       // height in modules
  struct Edge { int a = 0, b = 0, weight = 1; };     // a in an earlier column than b
  std::vector<Node> nodes;
  std::vector<Edge> edges;
  std::vector<std::pair<int, int>> above;            // of one column: the first stands above the second
};
// A place from the top for each node, to sort a column by; nothing but order is meant. Threads wait for one
// another. Empty when the library refuses: the given order then stands.
std::vector<double> dot_order(const LayeredGraph&);

}  // namespace towloom
