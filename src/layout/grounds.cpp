// Every wire to a stud ends at an upright ground symbol of its own.
#include <algorithm>
#include <cmath>
#include <set>

#include "layout/finisher.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
constexpr double ground_symbol = 1.6;   // of the room that a part keeps below a terminal: the symbol itself, modules
bool meet(const GridBox& a, const GridBox& b) { return a.left <= b.right && b.left <= a.right && a.top <= b.bottom && b.top <= a.bottom; }

}  // namespace

// Room for a ground symbol of the terminal at `from`.
bool Finisher::free(const GridBox& box, GridPoint from) const {
  constexpr int way_out = 2;   // what every other terminal keeps before it
  for (const Standing& s : out_.parts) {
    if (meet({box.left, box.top, box.right, box.bottom + 1}, s.body)) return false;   // symbols reach a little out of their bodies
    for (const PinSpot& p : s.pins)
      if (p.at != from && ((p.way == Way::right && meet(box, {p.at.x, p.at.y, p.at.x + way_out, p.at.y})) ||
                           (p.way == Way::left && meet(box, {p.at.x - way_out, p.at.y, p.at.x, p.at.y}))))
        return false;
    // The part itself has kept room for this very symbol: only its texts are in the way, and those below the terminal are
    // in the way of the wire too, which comes down from above.
    if (std::any_of(s.pins.begin(), s.pins.end(), [&](const PinSpot& p) { return p.at == from; })) {
      for (const GridBox& t : s.outline.label_cells) {
        const GridBox text{s.at.x + t.left, s.at.y + t.top, s.at.x + t.right, s.at.y + t.bottom};
        const int way_down = text.top > from.y ? 2 : 0;
        if (meet({box.left, box.top - way_down, box.right, box.bottom}, text)) return false;
      }
      continue;
    }
    const Room& r = s.outline.room;
    const GridBox room{s.at.x + static_cast<int>(std::floor(r.left + 0.1)), s.at.y + static_cast<int>(std::floor(r.top + 0.1)),
                       s.at.x + static_cast<int>(std::ceil(r.right - 0.1)), s.at.y + static_cast<int>(std::ceil(r.bottom - 0.1))};
    if (s.bar.empty() && c_.part(s.part).kind != "coach-feed" && meet(box, room)) return false;
  }
  for (const Housing& h : out_.housings) {   // nor on the name over a housing
    const double half = look_.width(h.name, true) / 2 + 1, middle = (h.left + h.right) / 2;
    if (box.right >= middle - half && box.left <= middle + half && box.bottom + 1 >= h.top - 1.9 && box.top <= h.top) return false;
  }
  // No symbol on a lane.
  for (const SketchLink& l : s_.links) {
    const SketchNode &a = s_.nodes[at(l.left)], &b = s_.nodes[at(l.right)];
    const int ya = terminal_y(l.left, l.left_terminal), yb = terminal_y(l.right, l.right_terminal);
    if (ya == yb && meet(box, {a.x + 1, ya, b.x - 1, ya})) return false;
  }
  return true;
}

// Where the ground symbols of lamps stand: at the right edge, or before the bar that is in the way.
int Finisher::before_bars(GridPoint from) const {
  int out = out_.columns.end - 2;
  for (const Standing& s : out_.parts)
    if (!s.bar.empty() && s.at.x > from.x && s.bar[0].y <= from.y + 1 && from.y - 1 <= s.bar[1].y) out = std::min(out, s.at.x - 3);
  return out;
}

// How far below a terminal the part has kept room for the wire to a ground symbol, with what is written beside it.
int Finisher::room_below(PartId part, GridPoint terminal) const {
  const Standing* s = out_.of(part);
  return s == nullptr ? 3 : std::max(3, static_cast<int>(s->at.y + s->outline.room.bottom - terminal.y - ground_symbol));
}

bool Finisher::in_housing(GridPoint ground) const {
  return std::any_of(out_.housings.begin(), out_.housings.end(), [&](const Housing& h) {
    return ground.x + 2 > h.left && ground.x - 2 < h.right && ground.y + 3.6 > h.top - 0.3 && ground.y < h.bottom + 0.3;
  });
}

// Wires that run level between a terminal and its ground symbol, which stands lower.
int Finisher::lanes_between(GridPoint terminal, GridPoint ground) const {
  int out = 0;
  for (const SketchLink& l : s_.links) {
    const int y = terminal_y(l.left, l.left_terminal);
    out += y == terminal_y(l.right, l.right_terminal) && y > terminal.y && y < ground.y && s_.nodes[at(l.left)].x < ground.x && ground.x < s_.nodes[at(l.right)].x;
  }
  return out;
}

// Places for the ground symbol of a terminal, the best first.
std::vector<GridPoint> Finisher::ground_places(const Wire& wire, TerminalRef u, const PinSpot& p) const {
  std::vector<GridPoint> tries;
  if (c_.part(u.part).zone == Zone::lamp) {
    const int far = before_bars(p.at);
    for (int dx = 0; dx < 4; ++dx) tries.push_back({far - dx, p.at.y + 1});
  }
  const bool goes_on = std::any_of(s_.links.begin(), s_.links.end(), [&](const SketchLink& l) { return s_.nodes[at(l.left)].part == u.part && l.left_terminal == u.index; });
  const Way way = p.way == Way::any && !goes_on ? Way::right : p.way;
  const bool fitted = wire.status == Status::fitted;
  if (way == Way::any)   // another wire goes on level: this one leaves downwards
    for (int dy : {3, 4, 6, 8})
      for (int dx : {3, 4, 5, -3, -4}) tries.push_back({p.at.x + dx, p.at.y + dy});
  if (p.way == Way::down)
    for (int dy = fitted ? room_below(u.part, p.at) : 1; dy < 9; ++dy)   // a new wire has its number and letters beside it
      for (int dx : {0, 2, -2, 4, -4}) tries.push_back({p.at.x + dx, p.at.y + dy + (dx == 0 || fitted ? 0 : 1)});
  const int sign = p.way == Way::left ? -1 : 1;
  // A new wire keeps a stretch for its number and letters.
  if (fitted && (way == Way::right || way == Way::left))
    tries.push_back({p.at.x + sign * static_cast<int>(std::ceil(look_.width(short_label(wire, look_.style), true) + 2.4)), p.at.y + 1});
  for (int dy : {1, 2, 3, 4, 6, 8, 10, 12}) {
    for (int dx : {2, 3, 4, 5, 6, 8, 10, 12}) tries.push_back({p.at.x + sign * dx, p.at.y + dy});
    // Beside a long text under the part, rather than round it.
    if (dy == 1 && p.way == Way::right)
      for (const Standing& o : out_.parts)
        if (o.part == u.part) tries.push_back({o.at.x + static_cast<int>(std::ceil(std::max(o.outline.room.right, 0.0))) + 3, p.at.y + dy});
  }
  return tries;
}

// The first of those places that is free, best outside the frames of housings.
std::optional<GridPoint> Finisher::ground_place(const Wire& wire, TerminalRef u, const PinSpot& p, const Room& room) const {
  // Its name may be wider than the symbol.
  const int left = static_cast<int>(std::floor(room.left + 0.4)), right = static_cast<int>(std::ceil(room.right - 0.4));
  std::optional<GridPoint> out;
  for (const GridPoint& g : ground_places(wire, u, p)) {
    const bool on_sheet = g.x + room.left >= out_.columns.coach && g.x + room.right <= out_.columns.end && g.y + room.bottom <= out_.bottom;
    if (!on_sheet || !free({g.x + left, g.y, g.x + right, g.y + 3}, p.at)) continue;
    if (!in_housing(g)) return g;
    if (!out) out = g;
  }
  return out;
}

// Every wire to a stud ends at a ground symbol of its own, upright, close to the other end.
void Finisher::add_studs() {
  std::set<int> shown;
  for (std::size_t w = 0; w < c_.wires.size(); ++w)
    for (const bool from : {true, false}) {
      const TerminalRef t = from ? c_.wires[w].from : c_.wires[w].to, u = from ? c_.wires[w].to : c_.wires[w].from;
      if (!is_stud(t.part)) continue;
      const auto other = out_.ends.find({static_cast<int>(w), !from});
      if (other == out_.ends.end()) continue;
      PinSpot& p = other->second;
      Standing s;
      s.part = t.part;
      s.outline = outline_of(c_.part(t.part), "", false, LampLines::two, look_);
      auto place = ground_place(c_.wires[w], u, p, s.outline.room);
      // A bar of lamps may be grounded at the height of any of its wires: where no wire lies in the way.
      if (const Standing* bar = out_.of(u.part); bar != nullptr && !bar->bar.empty() && place && lanes_between(p.at, *place) > 0 && c_.part(u.part).zone == Zone::lamp)
        for (const PinSpot& spot : bar->pins) {
          const PinSpot here{spot.terminal, spot.at, Way::right};
          const auto there = ground_place(c_.wires[w], u, here, s.outline.room);
          if (spot.way != Way::left || !there || in_housing(*there) || lanes_between(here.at, *there) > 0) continue;
          p = here;
          place = there;
          break;
        }
      if (!place) out_.no_ground.push_back(static_cast<int>(w));
      s.at = place ? *place : GridPoint{p.at.x + 2, p.at.y + 1};
      s.body = {s.at.x - 1, s.at.y, s.at.x + 1, s.at.y + 1};
      s.pins = {{0, s.at, Way::up}, {1, {s.at.x, s.at.y + 1}, Way::any}};
      s.repeat = !shown.insert(t.part.v).second;
      out_.ends[{static_cast<int>(w), from}] = s.pins[0];
      out_.parts.push_back(std::move(s));
    }
}

}  // namespace towloom
