// How far from the axis each node stands. Straight links join nodes into rows; rows stack outwards, each as
// near the axis as the order of the columns allows, the same on both sides.
#include <algorithm>
#include <cmath>
#include <tuple>

#include "layout/rows.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
constexpr int wire_pitch = 2, part_gap = 1, housing_gap = 4;   // modules between what stands above each other
constexpr int name_room = 2;           // between a wire and a lamp: the name over its housing
constexpr double ground_depth = 4.6;   // from a lamp's terminal down to the end of its ground symbol's name

}  // namespace

int Rows::room(int upper, int lower) const {
  const SketchNode &a = s_.nodes[at(upper)], &b = s_.nodes[at(lower)];
  const double apart = a.outline.room.bottom - b.outline.room.top;
  if (a.passing() && b.passing()) return std::max(wire_pitch, static_cast<int>(apart) + 1);
  int out = static_cast<int>(std::ceil(apart)) + part_gap;
  if (!a.passing() && !b.passing()) {
    const Part &p = c_.part(a.part), &q = c_.part(b.part);
    const bool isolation = p.zone == Zone::pocket && q.zone == Zone::pocket;   // most labels stand between these
    out += isolation ? (spread_ + 1) / 2 : spread_ / 2;
    if (p.kind == "lamp" && q.kind == "lamp" && p.group != q.group && a.side != Side::centre) out += housing_gap - part_gap;
  }
  return out;
}

// Whether the name of a housing stands above this node of the column: it is the highest of its lamps.
bool Rows::under_name(const std::vector<int>& column, std::size_t i) const {
  const auto housing = [&](int n) -> std::string {
    const SketchNode& node = s_.nodes[at(n)];
    return node.passing() || node.side == Side::centre || c_.part(node.part).kind != "lamp" ? "" : c_.part(node.part).group;
  };
  const std::string mine = housing(column[i]);
  return !mine.empty() && std::none_of(column.begin(), column.begin() + static_cast<std::ptrdiff_t>(i), [&](int n) { return housing(n) == mine; });
}

void Rows::collect_steps() {
  for (const std::vector<int>& column : s_.columns)
    for (std::size_t i = 0; i + 1 < column.size(); ++i) {
      const int a = column[i], b = column[i + 1];
      if (s_.nodes[at(a)].side != s_.nodes[at(b)].side) continue;
      const int least = room(a, b) + (s_.nodes[at(a)].passing() && under_name(column, i + 1) ? name_room : 0);
      if (s_.nodes[at(a)].side == Side::right) steps_.push_back({head(b), head(a), least});
      else steps_.push_back({head(a), head(b), least});
    }
  for (const Step& step : steps_) steps_from_[at(step.from)].push_back(step);
}

// Of each row: the least place that all before it leave free; from the far end when `backwards`.
std::vector<int> Rows::longest(bool centre, bool backwards) const {
  std::vector<int> out = place_;
  for (std::size_t round = 0; round <= s_.nodes.size(); ++round) {
    bool changed = false;
    for (const Step& step : steps_) {
      if (central(step.from) != centre) continue;
      const int a = row_[at(step.from)], b = row_[at(step.to)];
      const int least = step.least + offset_[at(step.from)] - offset_[at(step.to)];
      if (!backwards && out[at(b)] < out[at(a)] + least) out[at(b)] = out[at(a)] + least, changed = true;
      if (backwards && out[at(a)] > out[at(b)] - least) out[at(a)] = out[at(b)] - least, changed = true;
    }
    if (!changed) break;
  }
  return out;
}

void Rows::set_centre() {
  place_.assign(s_.nodes.size(), 0);
  const std::vector<int> first = longest(true, false);
  const int total = *std::max_element(first.begin(), first.end());
  place_.assign(s_.nodes.size(), total);
  const std::vector<int> last = longest(true, true);
  // Half way between earliest and latest keeps every distance.
  for (std::size_t r = 0; r < place_.size(); ++r) place_[r] = (first[r] + last[r]) / 2 - total / 2;
  settle_centre();
  for (std::size_t n = 0; n < s_.nodes.size(); ++n)
    if (central(static_cast<int>(n))) s_.nodes[n].y = place_[at(row_[n])] + offset_[n];
}

// Rows of the centre line move towards what they are joined with, as far as their neighbours allow.
void Rows::settle_centre() {
  for (int round = 0; round < 24; ++round) {
    bool moved = false;
    for (std::size_t r = 0; r < row_.size(); ++r) {
      if (row_[r] != static_cast<int>(r) || !central(static_cast<int>(r))) continue;
      std::vector<int> wanted;
      for (const SketchLink& l : s_.links) {
        if (!central(l.left) || !central(l.right)) continue;
        for (const auto& [me, mine, other, theirs] : {std::tuple{l.left, l.left_terminal, l.right, l.right_terminal}, {l.right, l.right_terminal, l.left, l.left_terminal}})
          if (row_[at(me)] == static_cast<int>(r) && row_[at(other)] != static_cast<int>(r))
            wanted.push_back(place_[at(row_[at(other)])] + offset_[at(other)] + own(other, theirs) - offset_[at(me)] - own(me, mine));
      }
      if (wanted.empty()) wanted.push_back(0);
      std::sort(wanted.begin(), wanted.end());
      int goal = wanted[wanted.size() / 2];
      for (const Step& step : steps_) {
        const int a = row_[at(step.from)], b = row_[at(step.to)];
        const int least = step.least + offset_[at(step.from)] - offset_[at(step.to)];
        if (b == static_cast<int>(r)) goal = std::max(goal, place_[at(a)] + least);
      }
      for (const Step& step : steps_) {
        const int a = row_[at(step.from)], b = row_[at(step.to)];
        const int least = step.least + offset_[at(step.from)] - offset_[at(step.to)];
        if (a == static_cast<int>(r)) goal = std::min(goal, place_[at(b)] - least);
      }
      moved |= goal != place_[r];
      place_[r] = goal;
    }
    if (!moved) break;
  }
}

void Rows::set_sides() {
  const std::vector<int> centre = place_;
  // Nothing of a side may reach over what stands on the centre line in its column.
  for (std::size_t r = 0; r < place_.size(); ++r)
    if (!central(static_cast<int>(r))) place_[r] = 0;
  for (const std::vector<int>& column : s_.columns) {
    double top = 0, bottom = 0;
    for (int n : column) {
      const SketchNode& node = s_.nodes[at(n)];
      if (node.side != Side::centre) continue;
      top = std::min(top, node.y + node.outline.room.top);
      bottom = std::max(bottom, node.y + node.outline.room.bottom);
    }
    for (int n : column) {
      const SketchNode& node = s_.nodes[at(n)];
      if (node.side == Side::centre) continue;
      const double reach = node.side == Side::right ? node.outline.room.bottom - top : bottom - node.outline.room.top;
      const int least = static_cast<int>(std::ceil(reach)) + (node.passing() ? 1 : part_gap + (c_.part(node.part).kind == "lamp" && node.side == Side::left ? 2 : 0));
      int& place = place_[at(row_[at(head(n))])];
      place = std::max(place, least - offset_[at(head(n))]);
    }
  }
  place_ = longest(false, false);
  for (std::size_t n = 0; n < s_.nodes.size(); ++n) {
    const int h = head(static_cast<int>(n));
    if (!central(static_cast<int>(n))) s_.nodes[n].y = sign(static_cast<int>(n)) * (place_[at(row_[at(h)])] + offset_[at(h)]);
  }
}

// Lamps and their joints have their ground symbols in a column behind them: how deep the lowest of this node's reaches.
double Rows::ground_reach(const SketchNode& node) const {
  double out = node.outline.room.bottom;
  if (node.passing() || c_.part(node.part).zone != Zone::lamp) return out;
  for (const Wire& w : c_.wires)
    for (const auto& [stud, end] : {std::pair{w.from, w.to}, {w.to, w.from}}) {
      if (end.part != node.part || c_.part(stud.part).kind != "stud") continue;
      const PinSpot* pin = node.bar ? nullptr : pin_of(node, end.index);
      out = std::max(out, (pin == nullptr ? 0 : pin->at.y) + ground_depth);
    }
  return out;
}

Heights Rows::set() {
  collect_steps();
  straighten(true);
  straighten(false);
  set_centre();
  set_sides();
  Heights out;
  for (const SketchNode& node : s_.nodes) {
    const bool housed = !node.passing() && node.side != Side::centre && c_.part(node.part).kind == "lamp";   // frame and name
    out.above = std::max(out.above, -static_cast<int>(std::floor(node.y + node.outline.room.top - (housed ? 2.1 : 0))));
    out.below = std::max(out.below, static_cast<int>(std::ceil(node.y + std::max(ground_reach(node), node.outline.room.bottom + (housed ? 0.7 : 0)))));
  }
  return out;
}

Heights set_heights(Sketch& sketch, const Circuit& circuit, int spread) { return Rows(sketch, circuit, spread).set(); }

}  // namespace towloom
