#include "layout/sketch.hpp"

#include <algorithm>
#include <map>

#include "layout/sides.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

class Maker {
 public:
  Maker(const Circuit& circuit, const Look& look, LampLines lit) : c_(circuit), look_(look), lit_(lit) {}
  Sketch make();

 private:
  const Part& part(int p) const { return c_.parts[at(p)]; }
  bool is_stud(int p) const { return part(p).kind == "stud"; }
  int zone_of(int p) const;
  void find_columns();
  void add_parts();
  std::string variant_of(int p) const;
  void reserve_ground(SketchNode&) const;
  void add_links();
  bool mirrored(const Wire& a, const Wire& b) const;
  void pair_passing();

  const Circuit& c_;
  const Look& look_;
  LampLines lit_;
  Sketch out_;
  std::vector<Side> side_;                 // by part
  std::vector<int> twin_, zone_, rank_, node_;
  std::vector<std::vector<int>> next_, before_;   // by part, along the wires; returns left out
};

int Maker::zone_of(int p) const {
  const Part& x = part(p);
  switch (x.zone) {
    case Zone::coach: case Zone::cord: return in_coach;
    case Zone::inlet: return in_inlet;
    case Zone::run: case Zone::source: return in_middle;
    case Zone::pocket: return x.kind == "module" ? in_middle : in_pocket;   // the signals start anew behind a module
    case Zone::lamp: return x.kind == "reference" ? in_pocket : in_lamp;   // lamps stand below each other
  }
  return in_middle;
}

// Columns: zone after zone, within a zone by the longest way along the wires.
void Maker::find_columns() {
  const int n = static_cast<int>(c_.parts.size());
  zone_.resize(at(n));
  for (int p = 0; p < n; ++p) zone_[at(p)] = zone_of(p);
  // A fitted splice stands before the first of what it feeds.
  for (int round = 0; round < 4; ++round)
    for (int p = 0; p < n; ++p) {
      if (part(p).kind != "splice" || part(p).status != Status::fitted || next_[at(p)].empty()) continue;
      int least = in_lamp;
      for (int q : next_[at(p)]) least = std::min(least, zone_[at(q)]);
      zone_[at(p)] = std::max<int>(in_inlet, std::min<int>(in_pocket, least));
    }
  // So does a reference from which a wire comes.
  for (int p = 0; p < n; ++p)
    if (part(p).kind == "reference")
      for (int q : next_[at(p)]) zone_[at(p)] = std::min(zone_[at(p)], zone_[at(q)]);
  // A splice that gathers the returns of added lamps stands behind them.
  for (int round = 0; round < 4; ++round)
    for (int p = 0; p < n; ++p) {
      if (part(p).kind != "splice" || part(p).status != Status::fitted) continue;
      for (int q : before_[at(p)])
        if (zone_[at(q)] == in_lamp) zone_[at(p)] = in_lamp;
    }
  for (int p = 0; p < n; ++p)
    if (twin_[at(p)] >= 0) zone_[at(p)] = std::max(zone_[at(p)], zone_[at(twin_[at(p)])]);
  rank_.assign(at(n), 0);
  for (int round = 0; round < n; ++round) {   // a loop of wires stops growing after as many rounds as parts
    bool changed = false;
    const auto raise = [&](int p, int least) {
      if (rank_[at(p)] >= least || least > 24) return;
      rank_[at(p)] = least;
      changed = true;
    };
    for (int p = 0; p < n; ++p) {
      for (int q : next_[at(p)])
        if (zone_[at(q)] == zone_[at(p)]) raise(q, rank_[at(p)] + 1);
      if (twin_[at(p)] >= 0) raise(twin_[at(p)], rank_[at(p)]);
    }
    if (!changed) break;
  }
  // The contacts of a connector stand in one column; those of the ground circuit have no rank of their own.
  for (int zone : {in_coach, in_inlet}) {
    int last = zone == in_coach ? 1 : 0;
    for (int p = 0; p < n; ++p)
      if (part(p).kind == "contact" && zone_[at(p)] == zone) last = std::max(last, rank_[at(p)]);
    for (int p = 0; p < n; ++p)
      if (part(p).kind == "contact" && zone_[at(p)] == zone) rank_[at(p)] = last;
  }
  // Parts of a kind stand in one column where the wires allow it.
  for (int p = 0; p < n; ++p) {
    if (part(p).kind == "splice" || part(p).kind == "reference" || is_stud(p)) continue;
    if (zone_[at(p)] == in_middle && part(p).status == Status::fitted) continue;   // these stand close to what feeds them
    int last = 0;
    for (int q = 0; q < n; ++q)
      if (zone_[at(q)] == zone_[at(p)] && part(q).kind == part(p).kind) last = std::max(last, rank_[at(q)]);
    for (const int me : {p, twin_[at(p)]})
      if (me >= 0)
        for (int q : next_[at(me)])
          if (zone_[at(q)] == zone_[at(p)]) last = std::min(last, rank_[at(q)] - 1);
    for (const int me : {p, twin_[at(p)]})
      if (me >= 0) rank_[at(me)] = std::max(rank_[at(me)], last);
  }
  // What leads nowhere further in its zone stands in the column of the zone's last part.
  for (int p = 0; p < n; ++p) {
    if (zone_[at(p)] != in_pocket || !next_[at(p)].empty() || part(p).kind == "splice") continue;
    for (int q = 0; q < n; ++q)
      if (zone_[at(q)] == in_pocket && part(q).kind != "splice") rank_[at(p)] = std::max(rank_[at(p)], rank_[at(q)]);
  }
  // What has more ways out than in moves to the right: fewer wires pass other parts.
  for (int round = 0; round < 3; ++round)
    for (int p = n - 1; p >= 0; --p) {
      if (next_[at(p)].size() <= before_[at(p)].size() || twin_[at(p)] >= 0 || is_stud(p) || part(p).kind == "coach-feed") continue;
      int last = 0;
      for (int q = 0; q < n; ++q)
        if (zone_[at(q)] == zone_[at(p)]) last = std::max(last, rank_[at(q)]);
      for (int q : next_[at(p)])
        if (zone_[at(q)] == zone_[at(p)]) last = std::min(last, rank_[at(q)] - 1);
      if (before_[at(p)].empty()) continue;
      rank_[at(p)] = std::max(rank_[at(p)], last);
    }
  // A joint of the factory loom stands behind the parts of its column: its wires go up and down.
  for (int p = 0; p < n; ++p) {
    rank_[at(p)] *= 2;
    if (part(p).kind == "splice" && part(p).zone == Zone::source && next_[at(p)].size() > 1) ++rank_[at(p)];
  }
}

// A relay whose common contact is fed stands the other way round; so does a reference that a wire comes from.
std::string Maker::variant_of(int p) const {
  for (const Wire& w : c_.wires)
    if (part(p).kind == "reference" && w.from.part.v == p) return "-from";
  if (part(p).kind != "relay") return "";
  for (const Wire& w : c_.wires)
    if (w.to.part.v == p && part(p).terminals[at(w.to.index)] == "30") return "-common-first";
  return "";
}

// Below a terminal that is grounded stands a ground symbol with its name.
void Maker::reserve_ground(SketchNode& node) const {
  if (part(node.part.v).zone == Zone::lamp) return;   // those stand in a column of their own
  for (const Wire& w : c_.wires)
    for (const auto& [stud, end] : {std::pair{w.from, w.to}, {w.to, w.from}}) {
      if (!is_stud(stud.part.v) || end.part != node.part) continue;
      const PinSpot* pin = pin_of(node, end.index);
      if (pin != nullptr) node.outline.room.bottom = std::max(node.outline.room.bottom, pin->at.y + (pin->way == Way::down ? 4.6 : 4.5));
    }
}

void Maker::add_parts() {
  const int n = static_cast<int>(c_.parts.size());
  std::map<std::pair<int, int>, int> column;   // zone, rank -> column
  for (int p = 0; p < n; ++p)
    if (!is_stud(p)) column[{zone_[at(p)], rank_[at(p)]}] = 0;
  for (auto& [key, index] : column) {
    index = static_cast<int>(out_.zone.size());
    out_.zone.push_back(key.first);
  }
  node_.assign(at(n), -1);
  for (int p = 0; p < n; ++p) {
    if (is_stud(p)) continue;
    int wires = 0;
    for (const Wire& w : c_.wires) wires += (w.from.part.v == p) + (w.to.part.v == p);
    SketchNode node;
    node.part = PartId{p};
    node.side = side_[at(p)];
    node.column = column[{zone_[at(p)], rank_[at(p)]}];
    Part oriented = part(p);
    oriented.side = node.side;
    const bool dark = std::any_of(c_.lamps.begin(), c_.lamps.end(), [&](const LampIntent& l) { return l.lamp == node.part && l.tow_signal.empty(); });
    node.outline = outline_of(oriented, variant_of(p), node.side == Side::left, dark || node.side == Side::centre ? LampLines::one : lit_, look_);
    reserve_ground(node);
    node.bar = (part(p).kind == "splice" || part(p).kind == "joint") && wires > 3;
    node_[at(p)] = static_cast<int>(out_.nodes.size());
    out_.nodes.push_back(std::move(node));
  }
  for (SketchNode& node : out_.nodes)
    if (twin_[at(node.part.v)] >= 0) node.twin = node_[at(twin_[at(node.part.v)])];
}

// Long wires get a node in every column that they pass.
void Maker::add_links() {
  for (std::size_t w = 0; w < c_.wires.size(); ++w) {
    int a = node_[at(c_.wires[w].from.part.v)], b = node_[at(c_.wires[w].to.part.v)];
    int at_a = c_.wires[w].from.index, at_b = c_.wires[w].to.index;
    if (a < 0 || b < 0) continue;
    if (out_.nodes[at(a)].column > out_.nodes[at(b)].column) std::swap(a, b), std::swap(at_a, at_b);
    const SketchNode left = out_.nodes[at(a)], right = out_.nodes[at(b)];
    if (left.column == right.column) continue;
    const Side side = right.side == Side::centre ? left.side : left.side == Side::centre || left.side == right.side ? right.side : left.side;
    int last = a, last_terminal = at_a;
    for (int column = left.column + 1; column < right.column; ++column) {
      SketchNode pass;
      pass.wire = static_cast<int>(w);
      pass.side = side;
      pass.column = column;
      const int room = c_.wires[w].status == Status::factory ? 0 : 1;
      pass.outline.room = {0.0, double(-room), 0.0, double(room)};
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
  std::map<std::pair<int, int>, int> of;   // wire, column -> node
  for (std::size_t i = 0; i < out_.nodes.size(); ++i)
    if (out_.nodes[i].passing()) of[{out_.nodes[i].wire, out_.nodes[i].column}] = static_cast<int>(i);
  for (const auto& [key, i] : of) {
    SketchNode& node = out_.nodes[at(i)];
    if (node.side != Side::left || node.twin >= 0) continue;
    for (std::size_t w = 0; w < c_.wires.size() && node.twin < 0; ++w) {
      const auto other = of.find({static_cast<int>(w), key.second});
      if (other == of.end() || !mirrored(c_.wires[at(key.first)], c_.wires[w])) continue;
      SketchNode& image = out_.nodes[at(other->second)];
      if (image.side != Side::right || image.twin >= 0) continue;
      node.twin = other->second;
      image.twin = i;
    }
  }
}

Sketch Maker::make() {
  const Flow flow = flow_of(c_);
  next_ = flow.next;
  before_ = flow.before;
  side_ = find_sides(c_, flow);
  twin_ = find_twins(c_, side_);
  find_columns();
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

Sketch make_sketch(const Circuit& circuit, const Look& look, LampLines lit) { return Maker(circuit, look, lit).make(); }

}  // namespace towloom
