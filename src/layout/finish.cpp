#include "layout/finish.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
bool meet(const GridBox& a, const GridBox& b) { return a.left <= b.right && b.left <= a.right && a.top <= b.bottom && b.top <= a.bottom; }

class Finisher {
 public:
  Finisher(Placement& out, const Sketch& sketch, const Circuit& circuit, const Look& look) : out_(out), s_(sketch), c_(circuit), look_(look) {}
  void run();

 private:
  void stand(const SketchNode&);
  void stand_bar(int node);
  void grow_outlet(std::size_t index);
  void ends_of_symbols();
  void add_studs();
  void add_housings();
  std::optional<GridPoint> pin(TerminalRef) const;
  int terminal_y(int node, int terminal) const;
  bool is_stud(PartId p) const { return c_.part(p).kind == "stud"; }
  bool free(const GridBox&, GridPoint from) const;
  int before_bars(GridPoint from) const;
  bool in_housing(GridPoint ground) const;

  Placement& out_;
  const Sketch& s_;
  const Circuit& c_;
  const Look& look_;
};

void Finisher::stand(const SketchNode& n) {
  Standing s;
  s.part = n.part;
  s.outline = n.outline;
  s.at = {n.x, n.y};
  const GridBox& b = n.outline.body;
  s.body = {n.x + b.left, n.y + b.top, n.x + b.right, n.y + b.bottom};
  for (PinSpot p : n.outline.pins) {
    p.at = {n.x + p.at.x, n.y + p.at.y};
    s.pins.push_back(p);
  }
  out_.parts.push_back(std::move(s));
}

int Finisher::terminal_y(int node, int terminal) const {
  const SketchNode& n = s_.nodes[at(node)];
  const PinSpot* p = terminal < 0 || n.bar ? nullptr : pin_of(n, terminal);
  return n.y + (p == nullptr ? 0 : p->at.y);
}

// Each wire of a bar leaves at the height of its other end where nothing stands between; what lies farther
// off leaves at an end of the bar.
void Finisher::stand_bar(int node) {
  const SketchNode& n = s_.nodes[at(node)];
  const std::vector<int>& column = s_.columns[at(n.column)];
  const auto me = std::find(column.begin(), column.end(), node);
  int low = -1000, high = 1000;   // how far the bar may reach
  if (me != column.begin()) low = static_cast<int>(std::ceil(s_.nodes[at(*(me - 1))].y + s_.nodes[at(*(me - 1))].outline.room.bottom)) + 1;
  if (me + 1 != column.end()) high = static_cast<int>(std::floor(s_.nodes[at(*(me + 1))].y + s_.nodes[at(*(me + 1))].outline.room.top)) - 1;
  struct End { int wire; bool from; int goal; Way way; };
  std::vector<End> ends;
  for (std::size_t w = 0; w < c_.wires.size(); ++w)
    for (const bool from : {true, false}) {
      if ((from ? c_.wires[w].from : c_.wires[w].to).part != n.part) continue;
      End end{static_cast<int>(w), from, n.y, Way::right};
      for (const SketchLink& l : s_.links) {
        if (l.wire != end.wire || (l.left != node && l.right != node)) continue;
        end.way = l.left == node ? Way::right : Way::left;
        end.goal = l.left == node ? terminal_y(l.right, l.right_terminal) : terminal_y(l.left, l.left_terminal);
      }
      ends.push_back(end);
    }
  std::stable_sort(ends.begin(), ends.end(), [](const End& a, const End& b) { return a.goal < b.goal; });
  std::set<int> taken;
  std::set<std::pair<int, Way>> exact;   // a wire from each side may share a height
  std::vector<std::pair<End, int>> spots, far;
  for (const End& end : ends) {
    if (end.goal >= low && end.goal <= high && exact.emplace(end.goal, end.way).second) {
      spots.emplace_back(end, end.goal);
      taken.insert(end.goal);
    } else {
      far.emplace_back(end, 0);
    }
  }
  if (spots.empty()) taken.insert(n.y);
  for (auto& [end, y] : far) {   // the nearest free height towards the goal
    const int step = end.goal < *taken.begin() ? -1 : 1;
    y = step < 0 ? *taken.begin() - 1 : std::max(*taken.begin(), std::min(end.goal, *taken.rbegin()));
    while (taken.count(y) != 0) y += step;
    taken.insert(y);
    spots.emplace_back(end, y);
  }
  int top = 1000, bottom = -1000;
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

// The coach's loom: a box with a terminal before each contact. Where two contacts share a terminal, the second
// has it once more in a box of its own.
void Finisher::grow_outlet(std::size_t index) {
  const Standing whole = out_.parts[index];
  struct Lead { PinSpot spot; int wire; bool from; };
  std::vector<Lead> leads;
  for (std::size_t w = 0; w < c_.wires.size(); ++w)
    for (const bool from : {true, false}) {
      const TerminalRef mine = from ? c_.wires[w].from : c_.wires[w].to, other = from ? c_.wires[w].to : c_.wires[w].from;
      if (mine.part != whole.part) continue;
      const auto there = pin(other);
      leads.push_back({{mine.index, {whole.at.x + whole.outline.body.right, there ? there->y : whole.at.y}, Way::right}, static_cast<int>(w), from});
    }
  std::stable_sort(leads.begin(), leads.end(), [](const Lead& a, const Lead& b) { return a.spot.at.y < b.spot.at.y; });
  std::vector<Standing> boxes;
  std::set<int> shown;
  for (const Lead& lead : leads) {
    out_.ends[{lead.wire, lead.from}] = lead.spot;
    const bool again = !shown.insert(lead.spot.terminal).second;
    if (boxes.empty() || again || boxes.back().repeat) {
      boxes.push_back(whole);
      boxes.back().pins.clear();
      boxes.back().repeat = again;
      boxes.back().unit = static_cast<int>(boxes.size());
    }
    boxes.back().pins.push_back(lead.spot);
  }
  if (boxes.size() == 1) boxes.front().unit = 0;
  for (Standing& s : boxes) {
    s.body = {s.at.x, s.pins.front().at.y - 1, s.at.x + s.outline.body.right, s.pins.back().at.y + 1};
    s.outline.labels.clear();
    s.outline.room = {0, double(s.body.top - s.at.y), double(s.outline.body.right), double(s.body.bottom - s.at.y)};
    for (const PinSpot& p : s.pins)
      s.outline.labels.push_back({word(look_.style, "circuit-" + c_.part(s.part).terminals[at(p.terminal)]), s.outline.body.right / 2.0,
                                p.at.y - s.at.y + 0.5, Anchor::middle, true});
  }
  if (boxes.empty()) return;
  out_.parts[index] = boxes.front();
  out_.parts.insert(out_.parts.end(), boxes.begin() + 1, boxes.end());
}

std::optional<GridPoint> Finisher::pin(TerminalRef t) const {
  const Standing* s = out_.of(t.part);
  if (s == nullptr) return std::nullopt;
  for (const PinSpot& p : s->pins)
    if (p.terminal == t.index) return p.at;
  return std::nullopt;
}

void Finisher::ends_of_symbols() {
  for (std::size_t w = 0; w < c_.wires.size(); ++w)
    for (const bool from : {true, false}) {
      const TerminalRef t = from ? c_.wires[w].from : c_.wires[w].to;
      if (out_.ends.count({static_cast<int>(w), from}) != 0 || is_stud(t.part)) continue;
      Standing* s = nullptr;
      for (Standing& x : out_.parts)
        if (x.part == t.part) s = &x;
      if (s == nullptr) continue;
      // Where several wires meet at one terminal, each leaves on a side of its own.
      const auto meeting = std::count_if(c_.wires.begin(), c_.wires.end(), [&](const Wire& x) { return x.from == t || x.to == t; });
      for (PinSpot p : s->pins)
        if (p.terminal == t.index) {
          if (meeting > 1 && !s->outline.symbol.empty()) {   // up and down along the symbol's edge are then free too
            if (p.way == Way::right) s->body.right = std::min(s->body.right, p.at.x - 1);
            if (p.way == Way::left) s->body.left = std::max(s->body.left, p.at.x + 1);
            p.way = Way::any;
          }
          out_.ends[{static_cast<int>(w), from}] = p;
        }
    }
}

// Room for a ground symbol of the terminal at `from`.
bool Finisher::free(const GridBox& box, GridPoint from) const {
  constexpr int way_out = 2;   // what every other terminal keeps before it
  for (const Standing& s : out_.parts) {
    if (meet({box.left, box.top, box.right, box.bottom + 1}, s.body)) return false;   // symbols reach a little out of their bodies
    for (const PinSpot& p : s.pins)
      if (p.at != from && ((p.way == Way::right && meet(box, {p.at.x, p.at.y, p.at.x + way_out, p.at.y})) ||
                           (p.way == Way::left && meet(box, {p.at.x - way_out, p.at.y, p.at.x, p.at.y}))))
        return false;
    const Room& r = s.outline.room;
    const GridBox room{s.at.x + static_cast<int>(std::floor(r.left + 0.1)), s.at.y + static_cast<int>(std::floor(r.top + 0.1)),
                       s.at.x + static_cast<int>(std::ceil(r.right - 0.1)), s.at.y + static_cast<int>(std::ceil(r.bottom - 0.1))};
    if (s.bar.empty() && c_.part(s.part).kind != "coach-feed" && meet(box, room)) return false;
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

bool Finisher::in_housing(GridPoint ground) const {
  return std::any_of(out_.housings.begin(), out_.housings.end(), [&](const Housing& h) {
    return ground.x + 2 > h.left && ground.x - 2 < h.right && ground.y + 3.6 > h.top - 0.3 && ground.y < h.bottom + 0.3;
  });
}

// Every wire to a stud ends at a ground symbol of its own, upright, close to the other end.
void Finisher::add_studs() {
  std::set<int> shown;
  const SketchNode* last = nullptr;
  for (const SketchNode& n : s_.nodes)
    if (last == nullptr || n.column > last->column) last = &n;
  for (std::size_t w = 0; w < c_.wires.size(); ++w)
    for (const bool from : {true, false}) {
      const TerminalRef t = from ? c_.wires[w].from : c_.wires[w].to;
      if (!is_stud(t.part)) continue;
      const auto other = out_.ends.find({static_cast<int>(w), !from});
      if (other == out_.ends.end()) continue;
      const PinSpot& p = other->second;
      const TerminalRef u = from ? c_.wires[w].to : c_.wires[w].from;
      Standing s;
      s.part = t.part;
      s.outline = outline_of(c_.part(t.part), "", false, LampLines::two, look_);
      std::vector<GridPoint> tries;
      if (c_.part(u.part).zone == Zone::lamp) {
        const int last = before_bars(p.at);
        for (int dx = 0; dx < 4; ++dx) tries.push_back({last - dx, p.at.y + 1});
      }
      if (p.way == Way::any)   // another wire goes on level: this one leaves downwards
        for (int dy : {3, 4, 6, 8})
          for (int dx : {3, 4, 5, -3, -4}) tries.push_back({p.at.x + dx, p.at.y + dy});
      if (p.way == Way::down)
        for (int dy = 1; dy < 6; ++dy)
          for (int dx : {0, 2, -2, 4, -4}) tries.push_back({p.at.x + dx, p.at.y + dy + (dx == 0 ? 0 : 1)});
      // A new wire keeps a stretch for its number and letters.
      if (c_.wires[w].status == Status::fitted && p.way == Way::right)
        tries.push_back({p.at.x + static_cast<int>(std::ceil(look_.width(short_label(c_.wires[w], look_.style), true) + 2.4)), p.at.y + 1});
      const int sign = p.way == Way::left ? -1 : 1;
      for (int dy : {1, 2, 3, 4, 6, 8})
        for (int dx : {2, 3, 4, 5, 6, 8}) tries.push_back({p.at.x + sign * dx, p.at.y + dy});
      GridPoint at_point = tries.front();   // else the first that is free, best outside the frames of housings
      int spots = 0;
      // Its name may be wider than the symbol.
      const int left = static_cast<int>(std::floor(s.outline.room.left + 0.4)), right = static_cast<int>(std::ceil(s.outline.room.right - 0.4));
      for (const GridPoint& g : tries)
        if (g.x + s.outline.room.left >= out_.columns.coach && g.x + s.outline.room.right <= out_.columns.end && free({g.x + left, g.y, g.x + right, g.y + 3}, p.at)) {
          if (!spots++) at_point = g;
          if (!in_housing(g)) {
            at_point = g;
            break;
          }
        }
      s.at = at_point;
      s.body = {s.at.x - 1, s.at.y, s.at.x + 1, s.at.y + 1};
      s.pins = {{0, s.at, Way::up}, {1, {s.at.x, s.at.y + 1}, Way::any}};
      s.repeat = !shown.insert(t.part.v).second;
      out_.ends[{static_cast<int>(w), from}] = s.pins[0];
      out_.parts.push_back(std::move(s));
    }
}

void Finisher::add_housings() {
  for (const Standing& s : out_.parts) {
    const Part& lamp = c_.part(s.part);
    if (lamp.kind != "lamp" || lamp.side == Side::centre) continue;
    auto h = std::find_if(out_.housings.begin(), out_.housings.end(), [&](const Housing& x) { return x.name == lamp.group; });
    if (h == out_.housings.end()) h = out_.housings.insert(h, {lamp.group, lamp.side, 1e9, 1e9, -1e9, -1e9});
    h->left = std::min(h->left, s.at.x + std::min(s.outline.room.left, 0.0) - 0.8);
    h->right = std::max(h->right, s.at.x + std::max(s.outline.room.right, double(s.outline.body.right)) + 0.8);
    h->top = std::min(h->top, s.at.y + s.outline.room.top - 0.7);
    h->bottom = std::max(h->bottom, s.at.y + s.outline.room.bottom + 0.6);
  }
  for (const Standing& s : out_.parts)
    if (c_.part(s.part).kind == "joint")
      for (Housing& h : out_.housings)
        if (h.name == c_.part(s.part).group) h.right = std::max(h.right, s.at.x + 1.0);
}

void Finisher::run() {
  for (std::size_t n = 0; n < s_.nodes.size(); ++n)
    if (!s_.nodes[n].passing() && !s_.nodes[n].bar) stand(s_.nodes[n]);
  for (std::size_t n = 0; n < s_.nodes.size(); ++n)
    if (s_.nodes[n].bar) stand_bar(static_cast<int>(n));
  for (std::size_t i = 0, known = out_.parts.size(); i < known; ++i)
    if (c_.part(out_.parts[i].part).kind == "coach-feed") grow_outlet(i);
  ends_of_symbols();
  add_housings();
  add_studs();
}

}  // namespace

void finish(Placement& out, const Sketch& sketch, const Circuit& circuit, const Look& look) { Finisher(out, sketch, circuit, look).run(); }

}  // namespace towloom
