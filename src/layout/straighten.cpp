// Which links become straight: their nodes then share a row.
#include <algorithm>
#include <cstdlib>
#include <map>
#include <tuple>

#include "layout/rows.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

int Rows::own(int n, int terminal) const {
  const SketchNode& node = s_.nodes[at(n)];
  const PinSpot* pin = terminal < 0 || node.bar ? nullptr : pin_of(node, terminal);
  return pin == nullptr ? 0 : sign(n) * pin->at.y;
}

// A load beside the way of the current: nothing but a ground lies behind it.
bool Rows::branch(int n) const {
  const SketchNode& node = s_.nodes[at(n)];
  if (node.passing() || c_.part(node.part).kind == "lamp") return false;
  int wires = 0, grounds = 0;
  for (const Wire& w : c_.wires)
    for (const auto& [me, other] : {std::pair{w.from, w.to}, {w.to, w.from}}) {
      if (me.part != node.part) continue;
      ++wires;
      grounds += c_.part(other.part).kind == "stud";
    }
  return grounds > 0 && wires == grounds + 1;
}

// Passing stretches first, then new wires, then what leads into a lamp; branches last.
int Rows::rank(const SketchLink& l) const {
  const SketchNode &a = s_.nodes[at(l.left)], &b = s_.nodes[at(l.right)];
  if (a.passing() && b.passing()) return 0;
  if (branch(l.right)) return 4;
  if (c_.wires[at(l.wire)].status != Status::factory) return 1;
  const bool lamp = (!b.passing() && c_.part(b.part).kind == "lamp") || a.passing() || b.passing();
  return lamp ? 2 : 3;
}

bool Rows::looped(int row) {
  ++search_;
  std::vector<int> open{row};
  while (!open.empty()) {
    const int r = open.back();
    open.pop_back();
    for (const int n : members_[at(r)])
      for (const Step& step : steps_from_[at(n)]) {
        const int next = row_[at(step.to)];
        if (next == row && (r != row || offset_[at(step.to)] - offset_[at(step.from)] < step.least)) return true;
        if (next == row || seen_[at(next)] == search_) continue;
        seen_[at(next)] = search_;
        open.push_back(next);
      }
  }
  return false;
}

bool Rows::join(const SketchLink& l) {
  const int a = head(l.left), b = head(l.right);
  const int shift = offset_[at(a)] + own(l.left, l.left_terminal) - own(l.right, l.right_terminal) - offset_[at(b)];
  if (row_[at(a)] == row_[at(b)]) return shift == 0;
  const int gone = row_[at(b)], kept = row_[at(a)];
  std::vector<int>&all = members_[at(kept)], &moved = members_[at(gone)];
  const std::size_t before = all.size();
  const auto move = [&](int row, int by) {
    for (const int n : moved) {
      row_[at(n)] = row;
      offset_[at(n)] += by;
    }
  };
  move(kept, shift);
  all.insert(all.end(), moved.begin(), moved.end());
  if (!looped(kept)) return true;
  move(gone, -shift);
  all.resize(before);
  return false;
}

// Of each link that shares a terminal with two others or more: how far it lies from the middle of the fan; else 0.
std::vector<int> Rows::off_median() const {
  std::vector<int> place(s_.nodes.size(), 0), out(s_.links.size(), 0);
  for (const std::vector<int>& column : s_.columns)
    for (std::size_t i = 0; i < column.size(); ++i) place[at(column[i])] = static_cast<int>(i);
  std::map<std::tuple<int, int, bool>, std::vector<std::size_t>> fans;   // node, terminal, on its right
  for (std::size_t i = 0; i < s_.links.size(); ++i) {
    const SketchLink& l = s_.links[i];
    if (l.left_terminal >= 0 && !s_.nodes[at(l.left)].bar) fans[{l.left, l.left_terminal, true}].push_back(i);
    if (l.right_terminal >= 0 && !s_.nodes[at(l.right)].bar) fans[{l.right, l.right_terminal, false}].push_back(i);
  }
  for (auto& [key, fan] : fans) {
    if (fan.size() < 3) continue;
    const bool right = std::get<2>(key);
    const auto height = [&](std::size_t i) { return place[at(right ? s_.links[i].right : s_.links[i].left)]; };
    std::stable_sort(fan.begin(), fan.end(), [&](std::size_t a, std::size_t b) { return height(a) < height(b); });
    for (std::size_t k = 0; k < fan.size(); ++k) out[fan[k]] += std::abs(2 * static_cast<int>(k) - static_cast<int>(fan.size()) + 1) / 2 * 10;
  }
  return out;
}

void Rows::straighten(bool centre) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < s_.links.size(); ++i) {
    const SketchLink& l = s_.links[i];
    const Side a = s_.nodes[at(l.left)].side, b = s_.nodes[at(l.right)].side;
    if (a == b && (a == Side::centre) == centre) order.push_back(i);
  }
  std::vector<int> ranks = off_median();
  for (std::size_t i : order) ranks[i] += rank(s_.links[i]);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) { return ranks[x] < ranks[y]; });
  std::vector<std::pair<int, int>> used;   // node and terminal, counted apart for each side of a dot
  for (std::size_t i : order) {
    const SketchLink& l = s_.links[i];
    const auto faces = [&](int n, int terminal, Way way) {
      const PinSpot* pin = terminal < 0 || s_.nodes[at(n)].bar ? nullptr : pin_of(s_.nodes[at(n)], terminal);
      return pin == nullptr || pin->way == way || pin->way == Way::any;
    };
    if (!faces(l.left, l.left_terminal, Way::right) || !faces(l.right, l.right_terminal, Way::left)) continue;
    const std::pair<int, int> from{l.left, 2 * l.left_terminal}, to{l.right, 2 * l.right_terminal + 1};
    if (std::find(used.begin(), used.end(), from) != used.end() || std::find(used.begin(), used.end(), to) != used.end()) continue;
    if (!join(l)) continue;
    used.push_back(from);
    used.push_back(to);
  }
}

}  // namespace towloom
