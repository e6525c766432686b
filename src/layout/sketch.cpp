#include "layout/sketch.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>

#include "layout/columns.hpp"
#include "layout/sides.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
constexpr double roomy_height = 3.4;   // two lines of text and air, modules

class Maker {
 public:
  Maker(const Circuit& circuit, const Look& look, LampLines lit, const Wishes& wishes) : c_(circuit), look_(look), lit_(lit), wishes_(wishes) {}
  Sketch make();

 private:
  const Part& part(int p) const { return c_.parts[at(p)]; }
  bool is_stud(int p) const { return part(p).kind == "stud"; }
  int wires_at(TerminalRef me) const {
    return static_cast<int>(std::count_if(ends_[at(me.part.v)].begin(), ends_[at(me.part.v)].end(), [&](const End& e) { return e.me == me; }));
  }
  void add_parts();
  std::string variant_of(int p, const std::vector<ColumnKey>& keys) const;
  void reserve_ground(SketchNode&) const;
  void reserve_labels(SketchNode&) const;
  void clear_far_end(SketchNode&) const;
  void add_posts(SketchNode&) const;
  void add_links();
  bool mirrored(const Wire& a, const Wire& b) const;
  void pair_passing();

  const Circuit& c_;
  const Look& look_;
  LampLines lit_;
  const Wishes& wishes_;
  Sketch out_;
  struct End { int wire; TerminalRef me, other; };
  std::vector<std::vector<End>> ends_;     // by part: of its wires
  std::vector<Side> side_;                 // by part
  std::vector<int> twin_, node_;
};

// A relay whose common contact is fed from its left stands the other way round; so does a reference whose wire goes on
// in a later column. One in the return of a lamp has the lamp on its right.
std::string Maker::variant_of(int p, const std::vector<ColumnKey>& keys) const {
  const std::string& kind = part(p).kind;
  for (const End& e : ends_[at(p)]) {
    if (kind == "reference" && keys[at(p)] < keys[at(e.other.part.v)]) return "-from";
    if (kind == "relay" && c_.wires[at(e.wire)].to == e.me && part(p).terminals[at(e.me.index)] == "30" && c_.part(e.other.part).zone != Zone::lamp) return "-common-first";
  }
  return "";
}

// Below a terminal that is grounded stands a ground symbol with its name.
void Maker::reserve_ground(SketchNode& node) const {
  if (part(node.part.v).zone == Zone::lamp) return;   // those stand in a column of their own
  for (const End& e : ends_[at(node.part.v)]) {
    const double more = wishes_.roomy.count(e.wire) != 0 ? 2 : 0;   // three lines of text beside the wire
    const PinSpot* pin = is_stud(e.other.part.v) ? pin_of(node, e.me.index) : nullptr;
    if (pin != nullptr) node.outline.room.bottom = std::max(node.outline.room.bottom, pin->at.y + (pin->way == Way::down ? 4.6 + more : 4.5));
  }
}

// Above and below a terminal whose wire found no room for its label.
void Maker::reserve_labels(SketchNode& node) const {
  for (int w : wishes_.roomy)
    for (const TerminalRef& end : {c_.wires[at(w)].from, c_.wires[at(w)].to}) {
      const PinSpot* pin = end.part == node.part ? pin_of(node, end.index) : nullptr;
      if (pin == nullptr || node.bar) continue;
      node.outline.room.top = std::min(node.outline.room.top, pin->at.y - roomy_height);
      node.outline.room.bottom = std::max(node.outline.room.bottom, pin->at.y + roomy_height);
    }
}

// Where several wires end on the far terminal of a lamp one leaves it upright: the lamp's texts end before it.
void Maker::clear_far_end(SketchNode& node) const {
  if (part(node.part.v).kind != "lamp") return;
  constexpr double air = 0.75;   // modules from a letter to the middle of a wire
  for (const PinSpot& pin : node.outline.pins) {
    if (wires_at({node.part, pin.terminal}) < 2 || pin.way != Way::right) continue;
    for (OutlineLabel& label : node.outline.labels)
      label.x = std::min(label.x, pin.at.x - air - look_.width(label.text, label.strong) / 2);
    measure_room(node.outline, look_);
  }
}

// A bar runs upright through its terminal: what is written above and below the symbol gives way.
void Maker::add_posts(SketchNode& node) const {
  constexpr double aside = 0.5;
  for (const PinSpot& pin : node.outline.pins) {
    if (wires_at({node.part, pin.terminal}) < 4 || (pin.way != Way::right && pin.way != Way::left)) continue;
    node.posts.push_back(pin.terminal);
    for (OutlineLabel& label : node.outline.labels) label.x += pin.way == Way::right ? -aside : aside;
  }
  if (!node.posts.empty()) {
    const Room asked = node.outline.room;   // for ground symbols, and for labels of wires
    measure_room(node.outline, look_);
    node.outline.room.top = std::min(asked.top, node.outline.room.top);
    node.outline.room.bottom = std::max(asked.bottom, node.outline.room.bottom);
  }
}

void Maker::add_parts() {
  const int n = static_cast<int>(c_.parts.size());
  const std::vector<ColumnKey> keys = find_columns(c_, flow_of(c_), side_, twin_);
  std::map<ColumnKey, int> column;
  for (int p = 0; p < n; ++p)
    if (!is_stud(p)) column[keys[at(p)]] = 0;
  for (auto& [key, index] : column) {
    index = static_cast<int>(out_.zone.size());
    out_.zone.push_back(key.zone);
  }
  node_.assign(at(n), -1);
  for (int p = 0; p < n; ++p) {
    if (is_stud(p)) continue;
    const std::size_t wires = ends_[at(p)].size();
    SketchNode node;
    node.part = PartId{p};
    node.side = side_[at(p)];
    node.column = column[keys[at(p)]];
    Part oriented = part(p);
    oriented.side = node.side;
    const bool dark = std::any_of(c_.lamps.begin(), c_.lamps.end(), [&](const LampIntent& l) { return l.lamp == node.part && l.tow_signal.empty(); });
    node.outline = outline_of(oriented, variant_of(p, keys), node.side == Side::left, dark || node.side == Side::centre ? LampLines::one : lit_, look_);
    clear_far_end(node);
    reserve_ground(node);
    reserve_labels(node);
    node.bar = (part(p).kind == "splice" || part(p).kind == "joint") && wires > 3;
    if (!node.bar && !node.outline.symbol.empty()) add_posts(node);
    node_[at(p)] = static_cast<int>(out_.nodes.size());
    out_.nodes.push_back(std::move(node));
  }
  for (SketchNode& node : out_.nodes)
    if (twin_[at(node.part.v)] >= 0) node.twin = node_[at(twin_[at(node.part.v)])];
}

// Long wires get a node in every column that they pass.
void Maker::add_links() {
  std::size_t passing = 0;       // room for all at once, so that references to nodes hold
  for (const Wire& w : c_.wires) {
    const int a = node_[at(w.from.part.v)], b = node_[at(w.to.part.v)];
    if (a >= 0 && b >= 0) passing += at(std::abs(out_.nodes[at(a)].column - out_.nodes[at(b)].column));
  }
  out_.nodes.reserve(out_.nodes.size() + passing);
  for (std::size_t w = 0; w < c_.wires.size(); ++w) {
    int a = node_[at(c_.wires[w].from.part.v)], b = node_[at(c_.wires[w].to.part.v)];
    int at_a = c_.wires[w].from.index, at_b = c_.wires[w].to.index;
    if (a < 0 || b < 0) continue;
    if (out_.nodes[at(a)].column > out_.nodes[at(b)].column) std::swap(a, b), std::swap(at_a, at_b);
    const SketchNode &left = out_.nodes[at(a)], &right = out_.nodes[at(b)];
    if (left.column == right.column) continue;
    // A return that ends on a bar may come at any height: it passes level with its lamp.
    const bool to_bar = right.bar && !left.bar && out_.zone[at(left.column)] == in_lamp;
    // One that leaves a bar for the other side goes over at the bar.
    const bool dot = !left.bar && part(left.part.v).kind == "splice";
    const bool over = left.side == Side::centre || left.bar || (dot && wishes_.over_at_dots);
    const Side side = to_bar || right.side == Side::centre ? left.side : over || left.side == right.side ? right.side : left.side;
    int last = a, last_terminal = at_a;
    for (int column = left.column + 1; column < right.column; ++column) {
      SketchNode pass;
      pass.wire = static_cast<int>(w);
      pass.side = side;
      pass.column = column;
      const double room = wishes_.roomy.count(static_cast<int>(w)) != 0 ? roomy_height : c_.wires[w].status == Status::factory ? 0 : 1;
      pass.outline.room = {0.0, -room, 0.0, room};
      const int id = static_cast<int>(out_.nodes.size());
      out_.nodes.push_back(std::move(pass));
      out_.links.push_back({static_cast<int>(w), last, id, last_terminal, -1});
      last = id;
      last_terminal = -1;
    }
    out_.links.push_back({static_cast<int>(w), last, b, last_terminal, at_b});
  }
}

bool Maker::mirrored(const Wire& a, const Wire& b) const {
  const auto match = [&](TerminalRef s, TerminalRef t) {
    const int p = s.part.v, q = t.part.v;
    return (twin_[at(p)] == q && s.index == t.index) || (p == q && side_[at(p)] == Side::centre);
  };
  // Splices have no mirror image of their own: they match where the other ends do.
  const auto splices = [&](TerminalRef s, TerminalRef t) {
    return c_.part(s.part).kind == "splice" && c_.part(t.part).kind == "splice" && side_[at(s.part.v)] != Side::centre && side_[at(t.part.v)] != Side::centre &&
           side_[at(s.part.v)] != side_[at(t.part.v)];
  };
  return (match(a.from, b.from) && match(a.to, b.to)) || (splices(a.from, b.from) && match(a.to, b.to)) || (match(a.from, b.from) && splices(a.to, b.to));
}

void Maker::pair_passing() {
  struct Column { std::vector<int> left, right; };   // passing nodes
  std::vector<Column> columns(out_.zone.size());
  for (std::size_t i = 0; i < out_.nodes.size(); ++i) {   // wire after wire
    const SketchNode& node = out_.nodes[i];
    if (node.passing() && node.side != Side::centre) (node.side == Side::left ? columns[at(node.column)].left : columns[at(node.column)].right).push_back(static_cast<int>(i));
  }
  for (const Column& column : columns)
    for (int i : column.left)
      for (int k : column.right) {
        SketchNode &node = out_.nodes[at(i)], &image = out_.nodes[at(k)];
        if (image.twin >= 0 || !mirrored(c_.wires[at(node.wire)], c_.wires[at(image.wire)])) continue;
        node.twin = k;
        image.twin = i;
        break;
      }
}

Sketch Maker::make() {
  ends_.resize(c_.parts.size());
  for (std::size_t w = 0; w < c_.wires.size(); ++w)
    for (const auto& [me, other] : {std::pair{c_.wires[w].from, c_.wires[w].to}, {c_.wires[w].to, c_.wires[w].from}}) ends_[at(me.part.v)].push_back({static_cast<int>(w), me, other});
  const Flow flow = flow_of(c_);
  side_ = find_sides(c_, flow);
  twin_ = find_twins(c_, flow, side_);
  add_parts();
  add_links();
  pair_passing();
  return std::move(out_);
}

}  // namespace

const PinSpot* pin_of(const SketchNode& node, int terminal) {
  for (const PinSpot& p : node.outline.pins)
    if (p.terminal == terminal) return &p;
  return nullptr;
}

Sketch make_sketch(const Circuit& circuit, const Look& look, LampLines lit, const Wishes& wishes) { return Maker(circuit, look, lit, wishes).make(); }

}  // namespace towloom
