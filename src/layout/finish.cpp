#include "layout/finisher.hpp"

#include <algorithm>
#include <set>

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

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

// The one wire of a dot that comes from a column on its left: it turns before the dot, so that the others can leave
// upwards and downwards without crossing it.
bool Finisher::comes_from_left(int wire, TerminalRef t) const {
  if (c_.part(t.part).kind != "splice") return false;
  const auto from_left = [&](const SketchLink& l) { return s_.nodes[at(l.right)].part == t.part && l.right_terminal == t.index; };
  const auto link = std::find_if(s_.links.begin(), s_.links.end(), from_left);
  return link != s_.links.end() && link->wire == wire && std::find_if(link + 1, s_.links.end(), from_left) == s_.links.end();
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
            p.way = comes_from_left(static_cast<int>(w), t) ? Way::left : Way::any;
          }
          out_.ends[{static_cast<int>(w), from}] = p;
        }
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
  for (std::size_t n = 0; n < s_.nodes.size(); ++n)
    for (int terminal : s_.nodes[n].posts) stand_post(static_cast<int>(n), terminal);
  ends_of_symbols();
  add_housings();
  add_studs();
}

void finish(Placement& out, const Sketch& sketch, const Circuit& circuit, const Look& look) { Finisher(out, sketch, circuit, look).run(); }

}  // namespace towloom
