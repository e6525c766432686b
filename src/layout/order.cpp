// The order of the nodes in each column: neighbours change places while that helps.
#include <algorithm>
#include <cstdint>

#include "layout/column_order.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
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

// Among orders of equal number of crossings, a crossing costs the less the nearer it lies to an end of a wire: that one
// turns there anyway, and the other stays straight. A fitted wire is the one to stay straight.
int Order::crossing(const Link& x, const Link& y) const {
  if (x.net == y.net) return 0;
  const int inside = x.fitted == y.fitted ? std::min(x.inside, y.inside) : (x.fitted ? y : x).inside;
  return crossing_cost + (to_the_ends_ ? inside : 0);
}

int Order::crossings(std::size_t left_column) const {
  ends_.clear();
  for (const Link& l : links_[left_column]) ends_.push_back({place_[at(l.left)] * 1000 + l.left_offset, place_[at(l.right)] * 1000 + l.right_offset, &l});
  int cost = 0;
  for (std::size_t i = 0; i < ends_.size(); ++i)
    for (std::size_t k = i + 1; k < ends_.size(); ++k) {
      const Ends &x = ends_[i], &y = ends_[k];
      if ((x.a < y.a) == (x.b < y.b) || x.a == y.a || x.b == y.b) continue;
      cost += crossing(*x.link, *y.link);
    }
  return cost;
}

// Where a terminal stands in its node: what looks up or down counts as a little higher or lower.
int Order::offset(int n, int terminal) const {
  const PinSpot* pin = terminal < 0 || s_.nodes[at(n)].bar ? nullptr : pin_of(s_.nodes[at(n)], terminal);
  if (pin == nullptr) return 0;
  // What reaches the far side of a lamp comes from below: above it stands the name of its housing.
  const bool below = pin->way == Way::down || (pin->way == Way::right && c_.part(s_.nodes[at(n)].part).kind == "lamp");
  return pin->at.y * 4 + (pin->way == Way::up ? -1 : below ? 1 : 0);
}

// By custom what has the greater number stands farther out: coach lanes outside, those of one side's signal
// outermost; lamps that stay dark in tow inside. -1: no custom.
int Order::find_custom(int n) const {
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
  int count = 0, farther[3] = {0, 0, 0};   // of what stands nearer to the axis: how many have each number
  for (const Block& block : columns_[column].side)
    for (int n : block) {
      if (custom(n) < 0) continue;
      for (int more = custom(n) + 1; more < 3; ++more) count += farther[more];
      ++farther[custom(n)];
    }
  return count;
}

std::vector<int> Order::images(int n) const {
  const SketchNode& node = s_.nodes[at(n)];
  if (node.side == Side::left && node.twin >= 0) return {n, node.twin};
  return {n};
}

// Only the links of these two cross otherwise afterwards, each with each of the other.
int Order::gain(int inner, int outer) const {
  int out = 0;
  for (const int a : images(inner))
    for (const int b : images(outer)) {
      if (s_.nodes[at(a)].side != s_.nodes[at(b)].side) continue;
      const bool above = place_[at(a)] < place_[at(b)];
      for (const auto* links : {&leftward_, &rightward_})
        for (const Link* x : (*links)[at(a)])
          for (const Link* y : (*links)[at(b)]) {
            const bool right = links == &rightward_;
            const int far_x = right ? place_[at(x->right)] * 1000 + x->right_offset : place_[at(x->left)] * 1000 + x->left_offset;
            const int far_y = right ? place_[at(y->right)] * 1000 + y->right_offset : place_[at(y->left)] * 1000 + y->left_offset;
            if (far_x != far_y) out += above == (far_x < far_y) ? -crossing(*x, *y) : crossing(*x, *y);
          }
    }
  if (s_.nodes[at(inner)].side != Side::centre && custom(inner) >= 0 && custom(outer) >= 0 && custom(inner) != custom(outer))
    out += custom(inner) > custom(outer) ? custom_cost : -custom_cost;
  return out;
}

int Order::gain(const std::vector<int>& inner, const std::vector<int>& outer) const {
  int out = 0;
  for (int a : inner)
    for (int b : outer) out += gain(a, b);
  return out;
}

bool Order::improve(std::size_t column) {
  bool better = false;
  Column& c = columns_[column];
  const auto swap_neighbours = [&](auto& row) {
    for (std::size_t i = 0; i + 1 < row.size(); ++i) {
      if (gain(row[i], row[i + 1]) <= 0) continue;
      std::swap(row[i], row[i + 1]);
      unfold(column);
      better = true;
    }
  };
  swap_neighbours(c.side);
  for (Block& block : c.side) swap_neighbours(block);
  swap_neighbours(c.centre);
  return better;
}

void Order::find() {
  s_.columns.assign(columns_.size(), {});
  place_.assign(s_.nodes.size(), 0);
  links_.resize(columns_.size());
  std::vector<std::pair<int, int>> reach(c_.wires.size(), {static_cast<int>(columns_.size()), 0});   // of each wire: columns of its ends
  for (const SketchLink& l : s_.links) {
    std::pair<int, int>& r = reach[at(l.wire)];
    r = {std::min(r.first, s_.nodes[at(l.left)].column), std::max(r.second, s_.nodes[at(l.right)].column)};
  }
  for (const SketchLink& l : s_.links) {
    const int column = s_.nodes[at(l.left)].column;
    const Wire& wire = c_.wires[at(l.wire)];
    links_[at(column)].push_back({l.left, l.right, offset(l.left, l.left_terminal), offset(l.right, l.right_terminal), c_.net(wire.from).v,
                                  std::min(2 * (column - reach[at(l.wire)].first), 2 * (reach[at(l.wire)].second - column) - 1), wire.status != Status::factory});
  }
  leftward_.resize(s_.nodes.size());
  rightward_.resize(s_.nodes.size());
  for (const std::vector<Link>& column : links_)
    for (const Link& l : column) {
      rightward_[at(l.left)].push_back(&l);
      leftward_[at(l.right)].push_back(&l);
    }
  for (std::size_t n = 0; n < s_.nodes.size(); ++n) custom_.push_back(find_custom(static_cast<int>(n)));
  first_sides();
  first_centre();
  housings_together();
  const std::vector<Column> first = columns_;
  std::vector<Column> best;
  int least = 0;
  std::vector<std::vector<std::vector<int>>> begun;   // the centre of each column, as searches began
  for (int start = 0; start < starts; ++start) {
    columns_ = first;
    std::vector<std::vector<int>> centre;
    for (Column& c : columns_) {
      vary(c.centre, start);
      centre.push_back(c.centre);
    }
    if (std::find(begun.begin(), begun.end(), centre) != begun.end()) continue;
    begun.push_back(std::move(centre));
    settle();
    const int now = total();
    if (!best.empty() && now >= least) continue;
    best = columns_;
    least = now;
  }
  columns_ = best;
  for (std::size_t c = 0; c < columns_.size(); ++c) unfold(c);
  untangle();
  to_the_ends_ = true;
  settle();
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

// A column is looked at again only after it or a neighbour changed.
void Order::settle() {
  for (std::size_t c = 0; c < columns_.size(); ++c) unfold(c);
  std::vector<char> open(columns_.size(), true);
  const auto improved = [&](std::size_t c) {
    if (!open[c]) return false;
    const bool better = improve(c);
    open[c] = better;
    if (better && c > 0) open[c - 1] = true;
    if (better && c + 1 < columns_.size()) open[c + 1] = true;
    return better;
  };
  for (int round = 0; round < most_rounds; ++round) {
    bool better = false;
    for (std::size_t c = 0; c < columns_.size(); ++c) better |= improved(c);
    for (std::size_t c = columns_.size(); c-- > 0;) better |= improved(c);
    if (!better) break;
  }
}

int Order::total() const {
  int out = 0;
  for (std::size_t c = 0; c < columns_.size(); ++c) out += customs(c) * custom_cost + crossings(c);
  return out;
}

void order_columns(Sketch& sketch, const Circuit& circuit, const Wishes& wishes, KnownOrders& known) {
  const std::pair key{wishes.start, wishes.over_at_dots};
  if (const auto found = known.find(key); found != known.end()) {
    sketch.columns = found->second;
    return;
  }
  Order(sketch, circuit, wishes.start).find();
  known[key] = sketch.columns;
}

}  // namespace towloom
