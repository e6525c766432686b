// The order of the nodes in each column: neighbours change places while that helps.
#include <algorithm>
#include <cstdint>
#include <functional>

#include "layout/column_order.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
constexpr int crossing_cost = 10, custom_cost = 3;
constexpr int most_rounds = 12, starts = 12;

}  // namespace

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

void order_columns(Sketch& sketch, const Circuit& circuit, unsigned start, KnownOrders& known) {
  if (const auto found = known.find(start); found != known.end()) {
    sketch.columns = found->second;
    return;
  }
  Order(sketch, circuit, start).find();
  known[start] = sketch.columns;
}

}  // namespace towloom
