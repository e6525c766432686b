// The order of the nodes in each column: Graphviz gives the first, neighbours change places while that helps.
#include <algorithm>
#include <cstdint>
#include <functional>
#include <map>

#include "layout/dot_order.hpp"
#include "layout/sketch.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
constexpr int crossing_cost = 10, custom_cost = 3;
constexpr int most_rounds = 12, starts = 12;

using Block = std::vector<int>;          // nodes that stay together: the lamps of one housing
struct Column {                          // mirror images stand for one another: each pair is in `side` once
  std::vector<Block> side;               // from the axis outwards
  std::vector<int> centre;               // from the top
};

class Order {
 public:
  Order(Sketch& sketch, const Circuit& circuit) : s_(sketch), c_(circuit), columns_(sketch.zone.size()) {}
  void find();

 private:
  bool folded(int n) const { return s_.nodes[at(n)].side == Side::right && s_.nodes[at(n)].twin >= 0; }
  int height(int n) const;
  void first_sides();
  void first_centre();
  void housings_together();
  void unfold(std::size_t column);
  int crossings(std::size_t left_column) const;
  int customs(std::size_t column) const;
  int cost(std::size_t column) const;
  bool improve(std::size_t column);
  void vary(std::vector<int>& nodes, int start);
  void settle();
  int total() const;
  bool try_swap(std::size_t column, const std::function<void()>& swap);
  int custom(int n) const;

  Sketch& s_;
  const Circuit& c_;
  std::vector<Column> columns_;
  std::vector<int> net_;                                  // of each wire
  std::vector<std::vector<int>> links_;                   // by column of their left node
  std::vector<int> place_;                                // of each node in its column
  std::uint32_t random_ = 20261124;
};

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
  const std::vector<double> y = dot_order(g);
  for (std::size_t n = 0; n < s_.nodes.size(); ++n)
    if (s_.nodes[n].side != Side::centre && !folded(static_cast<int>(n))) columns_[at(s_.nodes[n].column)].side.push_back({static_cast<int>(n)});
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

void Order::unfold(std::size_t column) {
  std::vector<int>& out = s_.columns[column];
  out.clear();
  std::vector<int> inwards;
  for (const Block& block : columns_[column].side) inwards.insert(inwards.end(), block.begin(), block.end());
  for (auto n = inwards.rbegin(); n != inwards.rend(); ++n) {
    const SketchNode& node = s_.nodes[at(*n)];
    if (node.side == Side::right) out.push_back(*n);
    else if (node.twin >= 0) out.push_back(node.twin);
  }
  out.insert(out.end(), columns_[column].centre.begin(), columns_[column].centre.end());
  for (int n : inwards)
    if (s_.nodes[at(n)].side == Side::left) out.push_back(n);
  for (std::size_t i = 0; i < out.size(); ++i) place_[at(out[i])] = static_cast<int>(i);
}

int Order::crossings(std::size_t left_column) const {
  struct Ends { int a, b, net; };
  std::vector<Ends> ends;
  const auto height_of = [&](int n, int terminal) {
    const PinSpot* pin = terminal < 0 || s_.nodes[at(n)].bar ? nullptr : pin_of(s_.nodes[at(n)], terminal);
    return place_[at(n)] * 1000 + (pin == nullptr ? 0 : pin->at.y * 4 + (pin->way == Way::up ? -1 : pin->way == Way::down ? 1 : 0));
  };
  for (int i : links_[left_column]) {
    const SketchLink& l = s_.links[at(i)];
    ends.push_back({height_of(l.left, l.left_terminal), height_of(l.right, l.right_terminal), net_[at(l.wire)]});
  }
  int count = 0;
  for (std::size_t i = 0; i < ends.size(); ++i)
    for (std::size_t k = i + 1; k < ends.size(); ++k)
      count += ends[i].net != ends[k].net && (ends[i].a - ends[k].a) * (ends[i].b - ends[k].b) < 0;
  return count;
}

// By custom what has the greater number stands farther out: coach lanes outside, those of one side's signal
// outermost; lamps that stay dark in tow inside. -1: no custom.
int Order::custom(int n) const {
  const SketchNode& node = s_.nodes[at(n)];
  const auto of_signal = [](const std::string& signal) { return signal.empty() ? 0 : signal.find("left") != std::string::npos || signal.find("right") != std::string::npos ? 2 : 1; };
  const int zone = s_.zone[at(node.column)];
  if (node.passing()) {
    const Wire& w = c_.wires[at(node.wire)];
    return zone > in_middle || w.status == Status::factory ? -1 : of_signal(w.circuit);
  }
  const Part& part = c_.part(node.part);
  if (part.kind == "contact") return of_signal(part.function);
  if (part.kind == "splice") return zone == in_pocket && part.status == Status::fitted ? -1 : of_signal(part.function);
  for (const LampIntent& lamp : c_.lamps) {
    const Part& lit = c_.part(lamp.lamp);
    if (lamp.lamp == node.part || (zone == in_pocket && lit.function == part.function && lamp.side == part.side)) return of_signal(lamp.tow_signal);
  }
  return -1;
}

int Order::customs(std::size_t column) const {
  int count = 0;
  std::vector<int> outwards;
  for (const Block& block : columns_[column].side)
    for (int n : block)
      if (custom(n) >= 0) outwards.push_back(custom(n));
  for (std::size_t i = 0; i < outwards.size(); ++i)
    for (std::size_t k = i + 1; k < outwards.size(); ++k) count += outwards[i] > outwards[k];
  return count;
}

int Order::cost(std::size_t column) const {
  int out = customs(column) * custom_cost + crossings(column) * crossing_cost;
  if (column > 0) out += crossings(column - 1) * crossing_cost;
  return out;
}

bool Order::try_swap(std::size_t column, const std::function<void()>& swap) {
  const int before = cost(column);
  swap();
  unfold(column);
  if (cost(column) < before) return true;
  swap();
  unfold(column);
  return false;
}

bool Order::improve(std::size_t column) {
  bool better = false;
  Column& c = columns_[column];
  for (std::size_t i = 0; i + 1 < c.side.size(); ++i) better |= try_swap(column, [&] { std::swap(c.side[i], c.side[i + 1]); });
  for (Block& block : c.side)
    for (std::size_t i = 0; i + 1 < block.size(); ++i) better |= try_swap(column, [&] { std::swap(block[i], block[i + 1]); });
  for (std::size_t i = 0; i + 1 < c.centre.size(); ++i) better |= try_swap(column, [&] { std::swap(c.centre[i], c.centre[i + 1]); });
  return better;
}

void Order::find() {
  s_.columns.assign(columns_.size(), {});
  place_.assign(s_.nodes.size(), 0);
  links_.resize(columns_.size());
  for (const Wire& w : c_.wires) net_.push_back(c_.net(w.from).v);
  for (std::size_t i = 0; i < s_.links.size(); ++i) links_[at(s_.nodes[at(s_.links[i].left)].column)].push_back(static_cast<int>(i));
  first_sides();
  first_centre();
  housings_together();
  const std::vector<Column> first = columns_;
  std::vector<Column> best;
  int least = 0;
  for (int start = 0; start < starts; ++start) {
    columns_ = first;
    for (Column& c : columns_) vary(c.centre, start);
    settle();
    const int now = total();
    if (!best.empty() && now >= least) continue;
    best = columns_;
    least = now;
  }
  columns_ = best;
  for (std::size_t c = 0; c < columns_.size(); ++c) unfold(c);
}

// Other beginnings for the centre line: as it is, upside down, in the order of the circuit, then mixed.
void Order::vary(std::vector<int>& nodes, int start) {
  if (start == 1) std::reverse(nodes.begin(), nodes.end());
  if (start >= 2) std::sort(nodes.begin(), nodes.end());
  if (start < 3) return;
  for (std::size_t i = nodes.size(); i > 1; --i) {
    random_ = random_ * 1664525u + 1013904223u;   // Numerical Recipes: the same mixes on every machine
    std::swap(nodes[i - 1], nodes[(random_ >> 8) % i]);
  }
}

void Order::settle() {
  for (std::size_t c = 0; c < columns_.size(); ++c) unfold(c);
  for (int round = 0; round < most_rounds; ++round) {
    bool better = false;
    for (std::size_t c = 0; c < columns_.size(); ++c) better |= improve(c);
    for (std::size_t c = columns_.size(); c-- > 0;) better |= improve(c);
    if (!better) break;
  }
}

int Order::total() const {
  int out = 0;
  for (std::size_t c = 0; c < columns_.size(); ++c) out += customs(c) * custom_cost + crossings(c) * crossing_cost;
  return out;
}

}  // namespace

void order_columns(Sketch& sketch, const Circuit& circuit) { Order(sketch, circuit).find(); }

}  // namespace towloom
