// Splices, joints and terminals of four wires and more: each wire of a bar leaves at the height of its other end where
// nothing stands between; what lies farther off leaves at an end of the bar.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <set>

#include "layout/finisher.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
constexpr int anywhere = 1000, pitch = 2;   // modules between wires that leave one end of a bar

// Where each wire leaves a bar that may reach from `low` to `high`: at its goal, else beyond an end of the bar.
std::vector<std::pair<BarEnd, int>> spots_of(const std::vector<BarEnd>& ends, int low, int high, int level) {
  std::set<int> taken;
  std::set<std::pair<int, Way>> exact;   // a wire from each side may share a height
  std::vector<std::pair<BarEnd, int>> out;
  std::vector<BarEnd> far;
  for (const BarEnd& end : ends) {
    if (end.goal >= low && end.goal <= high && exact.emplace(end.goal, end.way).second) {
      out.emplace_back(end, end.goal);
      taken.insert(end.goal);
    } else {
      far.push_back(end);
    }
  }
  if (taken.empty()) taken.insert(level);
  // The nearest first, so that the farthest leaves straight from the very end.
  const int first = *taken.begin(), last = *taken.rbegin();
  const auto beyond = [&](const BarEnd& e) { return std::max({0, first - e.goal, e.goal - last}); };
  std::stable_sort(far.begin(), far.end(), [&](const BarEnd& a, const BarEnd& b) { return beyond(a) < beyond(b); });
  for (const BarEnd& end : far) {
    const int step = end.goal < first ? -1 : 1;
    int y = beyond(end) == 0 ? end.goal : step < 0 ? *taken.begin() - pitch : *taken.rbegin() + pitch;
    if (y < low || y > high) y = step < 0 ? *taken.begin() - 1 : *taken.rbegin() + 1;
    while (taken.count(y) != 0) y += step;
    taken.insert(y);
    out.emplace_back(end, y);
  }
  return out;
}

}  // namespace

// How far the bar may reach, by what stands above and below it in its column.
std::pair<int, int> Finisher::bar_limits(int node) const {
  const std::vector<int>& column = s_.columns[at(s_.nodes[at(node)].column)];
  const auto me = std::find(column.begin(), column.end(), node);
  std::pair<int, int> out{-anywhere, anywhere};
  if (me != column.begin()) out.first = static_cast<int>(std::ceil(s_.nodes[at(*(me - 1))].y + s_.nodes[at(*(me - 1))].outline.room.bottom)) + 1;
  if (me + 1 != column.end()) out.second = static_cast<int>(std::floor(s_.nodes[at(*(me + 1))].y + s_.nodes[at(*(me + 1))].outline.room.top)) - 1;
  return out;
}

// The height at which two bars meet: on both, else where the least is added to them; clear of their other wires.
int Finisher::meeting_height(int node, int other) const {
  std::set<int> goals[2];
  const int bars[2] = {std::min(node, other), std::max(node, other)};   // the same from both ends
  std::pair<int, int> limits{-anywhere, anywhere};
  for (int b = 0; b < 2; ++b) {
    const std::pair<int, int> own = bar_limits(bars[b]);
    limits = {std::max(limits.first, own.first), std::min(limits.second, own.second)};
    for (const SketchLink& l : s_.links) {
      const bool left = l.left == bars[b];
      if (!left && l.right != bars[b]) continue;
      const int far = left ? l.right : l.left;
      const int y = terminal_y(far, left ? l.right_terminal : l.left_terminal);
      if (!s_.nodes[at(far)].bar && y >= own.first && y <= own.second) goals[b].insert(y);
    }
    if (goals[b].empty()) goals[b].insert(s_.nodes[at(bars[b])].y);
  }
  const auto cost = [&](int y) {
    int out = 0;
    for (const std::set<int>& g : goals) {
      out += 2 * (std::max(0, *g.begin() - y) + std::max(0, y - *g.rbegin()));
      for (int taken : g) out += std::abs(taken - y) < pitch ? 3 * pitch : 0;
    }
    return out;
  };
  int best = s_.nodes[at(node)].y, least = -1;
  for (int y = std::min(*goals[0].begin(), *goals[1].begin()) - 2 * pitch; y <= std::max(*goals[0].rbegin(), *goals[1].rbegin()) + 2 * pitch; ++y)
    if (y >= limits.first && y <= limits.second && (least < 0 || cost(y) < least)) best = y, least = cost(y);
  return best;
}

// Wires that end at the terminal (-1: at any), each with the height of its other end; `level` where that has none.
std::vector<BarEnd> Finisher::bar_ends(int node, int terminal, int level) const {
  const SketchNode& n = s_.nodes[at(node)];
  std::vector<BarEnd> out;
  for (std::size_t w = 0; w < c_.wires.size(); ++w)
    for (const bool from : {true, false}) {
      const TerminalRef me = from ? c_.wires[w].from : c_.wires[w].to;
      if (me.part != n.part || (terminal >= 0 && me.index != terminal)) continue;
      BarEnd end{static_cast<int>(w), from, level, Way::right};
      for (const SketchLink& l : s_.links) {
        if (l.wire != end.wire || (l.left != node && l.right != node)) continue;
        end.way = l.left == node ? Way::right : Way::left;
        const int far = l.left == node ? l.right : l.left;
        end.goal = s_.nodes[at(far)].bar && n.bar ? meeting_height(node, far) : terminal_y(far, l.left == node ? l.right_terminal : l.left_terminal);
      }
      out.push_back(end);
    }
  std::stable_sort(out.begin(), out.end(), [](const BarEnd& a, const BarEnd& b) { return a.goal < b.goal; });
  return out;
}

// A terminal of a symbol that many wires end on: the bar stands upright on it, past the symbol's edge.
void Finisher::stand_post(int node, int terminal) {
  const SketchNode& n = s_.nodes[at(node)];
  Standing* s = nullptr;
  for (Standing& x : out_.parts)
    if (x.part == n.part) s = &x;
  if (s == nullptr) return;
  const PinSpot pin = *std::find_if(s->pins.begin(), s->pins.end(), [&](const PinSpot& p) { return p.terminal == terminal; });
  if (pin.way == Way::right) s->body.right = std::min(s->body.right, pin.at.x - 1);
  else s->body.left = std::max(s->body.left, pin.at.x + 1);
  const auto [low, high] = bar_limits(node);
  int top = pin.at.y, bottom = pin.at.y;
  std::vector<PinSpot> more;
  for (const auto& [end, y] : spots_of(bar_ends(node, terminal, pin.at.y), low, high, pin.at.y)) {
    top = std::min(top, y), bottom = std::max(bottom, y);
    const bool beside = y >= s->body.top && y <= s->body.bottom;   // the symbol is in the way on the other side
    const PinSpot spot{terminal, {pin.at.x, y}, beside ? pin.way : end.way};
    out_.ends[{end.wire, end.from}] = spot;
    if (spot.at != pin.at) more.push_back(spot);
  }
  s->pins.insert(s->pins.end(), more.begin(), more.end());
  s->posts.push_back({{pin.at.x, top}, {pin.at.x, bottom}});
}

void Finisher::stand_bar(int node) {
  const SketchNode& n = s_.nodes[at(node)];
  const auto [low, high] = bar_limits(node);
  const auto spots = spots_of(bar_ends(node, -1, n.y), low, high, n.y);
  int top = anywhere, bottom = -anywhere;
  for (const auto& [end, y] : spots) top = std::min(top, y), bottom = std::max(bottom, y);
  Standing s;
  s.part = n.part;
  s.outline = n.outline;
  s.at = {n.x, top};
  s.body = {n.x, top, n.x, bottom};
  s.bar = {{n.x, top}, {n.x, bottom}};
  for (const auto& [end, y] : spots) {
    Way way = end.way;
    if (end.goal != y && (y == top || y == bottom)) way = Way::any;
    const PinSpot spot{0, {n.x, y}, way};
    s.pins.push_back(spot);
    out_.ends[{end.wire, end.from}] = spot;
  }
  out_.parts.push_back(std::move(s));
}

}  // namespace towloom
