#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <iterator>
#include <map>
#include <set>

#include "sheets/states.hpp"

namespace towloom {
namespace {

constexpr Mm100 lamp_radius = mm(1.3), ray_from = mm(1.75), ray_to = mm(2.55), wave_width = mm(3.2);
constexpr Mm100 name_pitch = mm(4.3), names_width = mm(33), lead_width = mm(6.5), level = mm(0.5), head_height = mm(8.5), margin = mm(2.5);

bool flashes(Seen seen) { return seen == Seen::flash || seen == Seen::counterflash; }

Shape half_glass(Point c, Rgb fill) {
  const Mm100 r = lamp_radius, k = r * 5523 / 10000;   // 0.5523: a quarter circle as a cubic
  using Kind = PathStep::Kind;
  Shape out;
  out.path = {{Kind::move, {c.x, c.y - r}, {}, {}},
              {Kind::cubic, {c.x - k, c.y - r}, {c.x - r, c.y - k}, {c.x - r, c.y}},
              {Kind::cubic, {c.x - r, c.y + k}, {c.x - k, c.y + r}, {c.x, c.y + r}},
              {Kind::close, {}, {}, {}}};
  out.filled = true;
  out.fill = fill;
  return out;
}

// The bench drawing's own coordinates to the panel's. What lies behind the lamps is left out. Lamps near each other stand
// apart in the panel: heights between them give way.
struct Shrink {
  Rect from, to;
  std::map<Mm100, Mm100> heights = {};   // of the lamps: in the drawing, in the panel
  Point operator()(Point p) const {
    return {to.x + static_cast<Mm100>(static_cast<std::int64_t>(p.x - from.x) * to.w / std::max(1, from.w)), height(p.y)};
  }
  Mm100 height(Mm100 y) const {
    std::pair<Mm100, Mm100> above{from.y, to.y}, below{from.bottom(), to.bottom()};
    if (const auto next = heights.lower_bound(y); next != heights.end()) below = *next;
    if (const auto next = heights.upper_bound(y); next != heights.begin()) above = *std::prev(next);
    return above.second + static_cast<Mm100>(static_cast<std::int64_t>(y - above.first) * (below.second - above.second) / std::max(1, below.first - above.first));
  }
  // `order`: heights of lamps in the drawing, from the top.
  void part(const std::vector<Mm100>& order, Mm100 wanted) {
    const Mm100 least = std::min(wanted, to.h / std::max<Mm100>(1, static_cast<Mm100>(order.size())));
    std::vector<Mm100> at;
    for (const Mm100 y : order) at.push_back(at.empty() ? height(y) : std::max(height(y), at.back() + least));
    Mm100 lowest = to.bottom();
    for (std::size_t i = at.size(); i-- > 0; lowest = at[i] - least) at[i] = std::min(at[i], lowest);
    for (std::size_t i = 0; i < at.size(); ++i) heights[order[i]] = at[i];
  }
  Polyline operator()(const Polyline& path) const {
    Polyline out;
    for (const Point p : path) out.push_back((*this)(p));
    return out;
  }
  Rect operator()(const Rect& r) const {
    const Point a = (*this)(Point{r.x, r.y}), b = (*this)(Point{r.right(), r.bottom()});
    return {a.x, a.y, b.x - a.x, b.y - a.y};
  }
};

struct Lamp {
  std::size_t intent = 0;
  Point at;              // in the panel
  Mm100 name_y = 0;
  bool named = true;
};

class Panel {
 public:
  Panel(const StatePanel& state, const Facts& facts, const Drawing& bench, const Rect& room, SheetPen& pen)
      : state_(state), facts_(facts), bench_(bench), room_(room), pen_(pen) {
    const Circuit& c = facts.circuit();
    for (std::size_t w = 0; w < c.wires.size(); ++w)
      if (state.live.wires[w] != 0) live_.insert(c.wires[w].id);
    for (std::size_t p = 0; p < c.parts.size(); ++p)
      if (state.live.parts[p] != 0) live_.insert(c.parts[p].id);
    measure();
  }

  std::string draw() {
    pen_.add({box(room_, pen_.pen("outline", "faint"), mm(1.5))});
    std::string title = facts_.states.scenes[state_.scene].name;
    std::transform(title.begin(), title.end(), title.begin(), [](unsigned char ch) { return static_cast<char>(std::toupper(ch)); });
    pen_.write(pen_.text(title, {room_.x + margin, room_.y + mm(6)}, Anchor::start, Weight::semibold, "ink", "head"));
    for (const bool live : {false, true}) {
      for (const Item& item : bench_.items) {
        if (const auto* run = std::get_if<WireRun>(&item)) wire(*run, live);
        if (const auto* bar = std::get_if<LinkBar>(&item))
          if (!live && bar->path.front().x < behind_) pen_.add({polyline(shrink_(bar->path), pen("factory", "rest"))});
      }
      for (const Item& item : bench_.items)
        if (const auto* part = std::get_if<PartFigure>(&item)) body(*part, live);
    }
    std::string words;
    for (const Lamp& lamp : lamps_) words += (words.empty() ? "" : ", ") + name(lamp);
    return words;
  }

 private:
  Pen pen(const char* width, const char* colour) const { return {line_width(pen_.style, width), ink(pen_.style, colour), {}, false}; }
  Seen seen(std::size_t intent) const { return facts_.states.lamps[state_.scene][intent].seen; }

  const PartFigure* figure(std::size_t intent) const {
    const std::string& id = facts_.circuit().part(facts_.circuit().lamps[intent].lamp).id;
    for (const Item& item : bench_.items)
      if (const auto* part = std::get_if<PartFigure>(&item))
        if (part->part == id && !part->pins.empty()) return part;
    return nullptr;
  }

  void measure() {
    Rect from{1 << 28, 1 << 28, 0, 0};
    Mm100 right = 0, bottom = 0;
    const auto hold = [&](Point p) {
      from.x = std::min(from.x, p.x), from.y = std::min(from.y, p.y);
      bottom = std::max(bottom, p.y);
    };
    for (std::size_t l = 0; l < facts_.circuit().lamps.size(); ++l)
      if (const PartFigure* lamp = figure(l)) {
        lamps_.push_back({l, lamp->pins[0].at, 0});
        right = std::max(right, lamp->pins[0].at.x);
        behind_ = std::min(behind_, lamp->pins[0].at.x);
      }
    for (const Item& item : bench_.items) {
      if (const auto* run = std::get_if<WireRun>(&item))
        for (const Point p : run->path) hold(p);
      if (const auto* part = std::get_if<PartFigure>(&item))
        if (part->body.x < behind_) hold({part->body.x, part->body.y}), hold({part->body.x, part->body.bottom()});
    }
    from.w = right - from.x, from.h = bottom - from.y;
    const Mm100 edge = lamp_radius + mm(0.8);
    shrink_ = {from, {room_.x + margin, room_.y + head_height + edge, room_.w - margin - names_width - wave_width - lead_width, room_.h - head_height - 2 * edge - mm(0.5)}};
    std::stable_sort(lamps_.begin(), lamps_.end(), [](const Lamp& a, const Lamp& b) { return a.at.y < b.at.y; });
    std::vector<Mm100> order;
    for (const Lamp& lamp : lamps_)
      if (order.empty() || order.back() != lamp.at.y) order.push_back(lamp.at.y);
    shrink_.part(order, lamp_radius + ray_to + mm(0.2));
    for (Lamp& lamp : lamps_) lamp.at = shrink_(lamp.at), lamp.name_y = lamp.at.y;
    spread();
  }

  // Names as near to their lamps as their height allows: pushed down, then up from the lower edge. Where all are too
  // many, only what is lit is named.
  void spread() {
    const bool all = name_pitch * static_cast<Mm100>(lamps_.size()) <= room_.h - head_height - mm(2.6);
    std::vector<Lamp*> named;
    for (Lamp& lamp : lamps_)
      if ((lamp.named = all || seen(lamp.intent) != Seen::dark)) named.push_back(&lamp);
    for (std::size_t i = 1; i < named.size(); ++i) named[i]->name_y = std::max(named[i]->name_y, named[i - 1]->name_y + name_pitch);
    Mm100 lowest = room_.bottom() - mm(2.6);
    for (std::size_t i = named.size(); i-- > 0; lowest -= name_pitch) named[i]->name_y = std::min(named[i]->name_y, lowest), lowest = named[i]->name_y;
  }

  void wire(const WireRun& run, bool live) {
    if ((live_.count(run.wire) == 1) != live) return;
    // Returns behind the lamps: the bench sheet has them.
    if (std::all_of(run.path.begin(), run.path.end(), [&](Point p) { return p.x > behind_; })) return;
    Polyline path = run.path;
    for (Point& p : path) p.x = std::min(p.x, shrink_.from.right());
    path = shrink_(path);
    if (!live) return pen_.add({polyline(path, pen("outline", "rest"))});
    if (run.status != "new") return pen_.add({polyline(path, pen("symbol-heavy", "ink"))});
    std::vector<Mark> marks;
    for (const Pen& p : {run.casing, run.core})
      if (p.width > 0) marks.push_back(polyline(path, p));
    pen_.add(std::move(marks));
  }

  void body(const PartFigure& part, bool live) {
    if ((live_.count(part.part) == 1) != live || part.kind == "lamp" || part.kind == "splice" || part.kind == "joint" || part.kind == "reference") return;
    if (part.body.x > behind_) return;   // grounds behind the lamps
    pen_.add({filled_box(shrink_(part.body), ink(pen_.style, "paper")), box(shrink_(part.body), pen(live ? "factory" : "outline", live ? "ink" : "rest"))});
  }

  std::string name(const Lamp& lamp) {
    const Part& part = facts_.circuit().part(facts_.circuit().lamps[lamp.intent].lamp);
    const Seen is = seen(lamp.intent);
    draw_state_lamp(is, lamp.at, pen_);
    if (!lamp.named) return word(pen_.style, "lamp-" + part.function) + " " + to_text(is);
    const Mm100 x = room_.right() - names_width;
    // A name that gave way has a line to its lamp.
    const Mm100 out = lamp.at.x + ray_to + mm(0.4), turn = x - wave_width - mm(1.2);
    if (std::abs(lamp.name_y - lamp.at.y) > level) pen_.add({polyline({{out, lamp.at.y}, {turn, lamp.name_y}}, pen("outline", "rest"))});
    const std::string side = part.side == Side::left ? word(pen_.style, "circuit-left") + " " : part.side == Side::right ? word(pen_.style, "circuit-right") + " " : "";
    const bool dark = is == Seen::dark;
    Label label = pen_.text(side + word(pen_.style, "lamp-" + part.function), {x, lamp.name_y + mm(1.25)}, Anchor::start, dark ? Weight::regular : Weight::semibold, dark ? "quiet" : "ink");
    label.about = part.id;
    const std::string text = label.text;
    pen_.write(std::move(label));
    if (flashes(is)) {
      const Mm100 a = x - wave_width - mm(0.6), step = wave_width / 4, up = lamp.name_y - mm(1), down = lamp.name_y + mm(1);
      pen_.add({polyline({{a, down}, {a, up}, {a + step, up}, {a + step, down}, {a + 2 * step, down}, {a + 2 * step, up}, {a + 3 * step, up}, {a + 3 * step, down}}, pen("factory", "ink"))});
    }
    return text + " " + to_text(is);
  }

  const StatePanel& state_;
  const Facts& facts_;
  const Drawing& bench_;
  Rect room_;
  SheetPen& pen_;
  Shrink shrink_{};
  std::set<std::string> live_{};
  std::vector<Lamp> lamps_{};
  Mm100 behind_ = 1 << 28;   // where the first lamp's feed arrives
};

}  // namespace

void draw_state_lamp(Seen seen, Point at, SheetPen& pen) {
  const bool dark = seen == Seen::dark;
  Pen rim = pen.pen(dark ? "outline" : "symbol-heavy", dark ? "quiet" : "ink");
  rim.round = true;
  std::vector<Mark> marks{Disc{at, lamp_radius, {}, true, ink(pen.style, seen == Seen::lit || seen == Seen::may || seen == Seen::glow ? "lit" : "paper")}};
  if (flashes(seen)) marks.push_back(half_glass(at, ink(pen.style, "lit")));
  marks.push_back(Disc{at, lamp_radius, rim, false, {}});
  Pen ray = pen.pen("symbol");
  ray.round = true;
  for (int i = 0; i < 8 && !dark && seen != Seen::glow; ++i) {
    const double angle = i * 3.14159265358979323846 / 4;
    if (flashes(seen) && std::cos(angle) > 0.1) continue;
    const auto out = [&](Mm100 r) { return Point{at.x + mm(to_mm(r) * std::cos(angle)), at.y + mm(to_mm(r) * std::sin(angle))}; };
    marks.push_back(line(out(ray_from), out(ray_to), ray));
  }
  pen.add(std::move(marks));
}

std::string draw_state_panel(const StatePanel& state, const Facts& facts, const Drawing& bench, const Rect& room, SheetPen& pen) {
  return Panel(state, facts, bench, room, pen).draw();
}

}  // namespace towloom
