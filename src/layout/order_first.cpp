// The first order of each column, as Graphviz has it: sides folded onto each other, the centre line by itself.
#include <algorithm>
#include <map>
#include <string>

#include "layout/column_order.hpp"
#include "layout/dot_order.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

int Order::height(int n) const {
  const Room& r = s_.nodes[at(n)].outline.room;
  return std::max(1, static_cast<int>(r.bottom - r.top));
}

void Order::first_sides() {
  LayeredGraph g;
  std::vector<int> index(s_.nodes.size(), -1), axis;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    axis.push_back(static_cast<int>(g.nodes.size()));
    g.nodes.push_back({static_cast<int>(c), 1});
    if (c > 0) g.edges.push_back({axis[c - 1], axis[c], 20});
  }
  for (std::size_t n = 0; n < s_.nodes.size(); ++n) {
    const SketchNode& node = s_.nodes[n];
    if (node.side == Side::centre) {
      index[n] = axis[at(node.column)];
    } else if (!folded(static_cast<int>(n))) {
      index[n] = static_cast<int>(g.nodes.size());
      g.nodes.push_back({node.column, height(static_cast<int>(n))});
      g.above.emplace_back(axis[at(node.column)], index[n]);
    }
  }
  for (std::size_t n = 0; n < s_.nodes.size(); ++n)
    if (folded(static_cast<int>(n))) index[n] = index[at(s_.nodes[n].twin)];
  std::map<std::pair<int, int>, int> weight;
  for (const SketchLink& l : s_.links) {
    const int a = index[at(l.left)], b = index[at(l.right)];
    const bool both_axis = s_.nodes[at(l.left)].side == Side::centre && s_.nodes[at(l.right)].side == Side::centre;
    if (!both_axis) ++weight[{a, b}];
  }
  for (const auto& [ends, count] : weight) g.edges.push_back({ends.first, ends.second, count});
  for (std::size_t n = 0; n < s_.nodes.size(); ++n)
    for (std::size_t k = 0; k < s_.nodes.size(); ++k) {
      const SketchNode &a = s_.nodes[n], &b = s_.nodes[k];
      if (a.column != b.column || a.side == Side::centre || b.side == Side::centre || folded(static_cast<int>(n)) || folded(static_cast<int>(k))) continue;
      const int inner = custom(static_cast<int>(n)), outer = custom(static_cast<int>(k));
      if (inner >= 0 && inner < outer) g.above.emplace_back(index[n], index[k]);
    }
  for (std::size_t n = 0; n < s_.nodes.size(); ++n)
    if (s_.nodes[n].side != Side::centre && !folded(static_cast<int>(n))) columns_[at(s_.nodes[n].column)].side.push_back({static_cast<int>(n)});
  if (std::all_of(columns_.begin(), columns_.end(), [](const Column& c) { return c.side.size() < 2; })) return;
  const std::vector<double> y = dot_order(g);
  if (y.empty()) return;
  for (Column& c : columns_)
    std::stable_sort(c.side.begin(), c.side.end(), [&](const Block& a, const Block& b) { return y[at(index[at(a[0])])] < y[at(index[at(b[0])])]; });
}

// The centre line by itself, between two rails: what leads to the right lamps lies above, to the left below.
void Order::first_centre() {
  LayeredGraph g;
  std::vector<int> index(s_.nodes.size(), -1), above, below;
  for (std::size_t c = 0; c < columns_.size(); ++c)
    for (auto* rail : {&above, &below}) {
      rail->push_back(static_cast<int>(g.nodes.size()));
      g.nodes.push_back({static_cast<int>(c), 1});
      if (c > 0) g.edges.push_back({(*rail)[c - 1], (*rail)[c], 20});
    }
  for (std::size_t n = 0; n < s_.nodes.size(); ++n) {
    const SketchNode& node = s_.nodes[n];
    if (node.side != Side::centre) {
      index[n] = (node.side == Side::right ? above : below)[at(node.column)];
      continue;
    }
    index[n] = static_cast<int>(g.nodes.size());
    g.nodes.push_back({node.column, height(static_cast<int>(n))});
    g.above.emplace_back(above[at(node.column)], index[n]);
    g.above.emplace_back(index[n], below[at(node.column)]);
    columns_[at(node.column)].centre.push_back(static_cast<int>(n));
  }
  for (const SketchLink& l : s_.links)
    if (s_.nodes[at(l.left)].side == Side::centre || s_.nodes[at(l.right)].side == Side::centre)
      g.edges.push_back({index[at(l.left)], index[at(l.right)], 1});
  if (std::all_of(columns_.begin(), columns_.end(), [](const Column& c) { return c.centre.size() < 2; })) return;
  const std::vector<double> y = dot_order(g);
  if (y.empty()) return;
  for (Column& c : columns_)
    std::stable_sort(c.centre.begin(), c.centre.end(), [&](int a, int b) { return y[at(index[at(a)])] < y[at(index[at(b)])]; });
}

void Order::housings_together() {
  for (Column& c : columns_) {
    std::vector<Block> out;
    std::map<std::string, std::size_t> of;
    for (const Block& block : c.side) {
      const SketchNode& node = s_.nodes[at(block[0])];
      const std::string unit = node.passing() || c_.part(node.part).kind != "lamp" ? "" : without_side(c_.part(node.part).group);
      const auto known = of.find(unit);
      if (unit.empty() || known == of.end()) {
        if (!unit.empty()) of[unit] = out.size();
        out.push_back(block);
      } else {
        out[known->second].push_back(block[0]);
      }
    }
    c.side = std::move(out);
  }
}

}  // namespace towloom
