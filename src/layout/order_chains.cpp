// Two wires that cross change places in several columns at once: in each of them alone it would save nothing.
#include <algorithm>
#include <utility>

#include "layout/column_order.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

// Exchanges two nodes of a column that stand in one row of it, each by itself or both in one housing.
bool Order::exchange(int a, int b) {
  const std::size_t column = at(s_.nodes[at(a)].column);
  Column& c = columns_[column];
  const auto exchanged = [](auto& row, const auto& x, const auto& y) {
    const auto i = std::find(row.begin(), row.end(), x), k = std::find(row.begin(), row.end(), y);
    if (i == row.end() || k == row.end()) return false;
    std::iter_swap(i, k);
    return true;
  };
  bool done = exchanged(c.centre, a, b) || exchanged(c.side, Block{a}, Block{b});
  for (Block& block : c.side) done = done || exchanged(block, a, b);
  if (done) unfold(column);
  return done;
}

// Beginning with two nodes of a column and going on along their wires, as far as both pass and as it takes to save something.
bool Order::exchange_along(int a, int b, bool right) {
  std::vector<std::pair<int, int>> chain;
  for (bool on = true; on && a != b && s_.nodes[at(a)].side == s_.nodes[at(b)].side && folded(a) == folded(b);) {
    if (folded(a)) chain.emplace_back(s_.nodes[at(a)].twin, s_.nodes[at(b)].twin);
    else chain.emplace_back(a, b);
    on = s_.nodes[at(a)].passing() && s_.nodes[at(b)].passing();
    if (!on) break;
    a = right ? rightward_[at(a)].front()->right : leftward_[at(a)].front()->left;
    b = right ? rightward_[at(b)].front()->right : leftward_[at(b)].front()->left;
  }
  if (chain.size() < 2) return false;
  const int begin = s_.nodes[at(chain.front().first)].column, end = s_.nodes[at(chain.back().first)].column;
  const std::size_t low = at(std::max(0, std::min(begin, end) - 1)), high = at(std::max(begin, end));
  const auto cost = [&] {
    int out = 0;
    for (std::size_t c = low; c <= high; ++c) out += crossings(c) + custom_cost * customs(c);
    return out;
  };
  const int before = cost();
  std::size_t done = 0;
  while (done < chain.size() && exchange(chain[done].first, chain[done].second)) {
    ++done;
    if (cost() < before) return true;
  }
  while (done-- > 0) exchange(chain[done].first, chain[done].second);
  return false;
}

void Order::untangle() {
  const auto crossed = [&](const Link& x, const Link& y) {
    if (x.net == y.net) return false;
    const int a = place_[at(x.left)] * 1000 + x.left_offset, b = place_[at(y.left)] * 1000 + y.left_offset;
    const int c = place_[at(x.right)] * 1000 + x.right_offset, d = place_[at(y.right)] * 1000 + y.right_offset;
    return a != b && c != d && (a < b) != (c < d);
  };
  for (const std::vector<Link>& column : links_)
    for (std::size_t i = 0; i < column.size(); ++i)
      for (std::size_t k = i + 1; k < column.size(); ++k) {
        const Link &x = column[i], &y = column[k];
        if (crossed(x, y) && !exchange_along(x.right, y.right, true)) exchange_along(x.left, y.left, false);
      }
}

}  // namespace towloom
