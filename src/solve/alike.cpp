#include "solve/alike.hpp"

#include <algorithm>
#include <cmath>

namespace towloom {
namespace {

using std::size_t;

// Forty bits of a figure: sums of the same resistors in another order are equal.
std::int64_t figure(double value) {
  int exponent = 0;
  const double share = std::frexp(value, &exponent);
  return std::llround(std::ldexp(share, 40)) * 4096 + exponent + 2048;
}

struct Line {
  int a = -1, b = -1;                 // network points; -1 = 0 V
  bool plain = false;                 // resistors in series
  double ohm = 0;                     // of a plain one
  Essence gates;                      // all of them must conduct, rising
  Essence names;                      // what is watched in it, from a to b; what it is, where it is not plain
};

class Paring {
 public:
  Paring(const Sound& sound, const Solver& changed) : at_(static_cast<size_t>(changed.nodes())), watched_(static_cast<size_t>(changed.nodes()), 0) {
    for (const VoltsWatch& w : sound.watches.supplies)
      for (const int p : {w.plus, w.minus})
        if (p >= 0) watched_[static_cast<size_t>(p)] = 1;
    const std::vector<int>& watches = sound.watches.branches;
    for (int b = 0; b < changed.branches(); ++b) {
      const bool bridge = b >= sound.solver.branches();
      const bool own = bridge || std::find(changed.changed().begin(), changed.changed().end(), b) != changed.changed().end();
      add(changed, b, own, !bridge && std::binary_search(watches.begin(), watches.end(), b));
    }
    for (size_t p = 0; p < at_.size(); ++p) waiting_.push_back(static_cast<int>(p));
    while (!waiting_.empty()) {
      const int p = waiting_.back();
      waiting_.pop_back();
      pare(p);
    }
  }

  Essence essence() const {
    std::vector<Essence> rows;
    for (const Line& l : lines_) {
      if (l.a == l.b) continue;
      // From the lower point to the higher; only what is no resistor, or is watched, has a direction.
      const bool turned = l.plain && l.a > l.b;
      Essence row{turned ? l.b : l.a, turned ? l.a : l.b, l.plain ? figure(l.ohm) : 0};
      const Essence names = turned ? backwards(l.names) : l.names;
      row.push_back(static_cast<std::int64_t>(l.gates.size()));
      row.insert(row.end(), l.gates.begin(), l.gates.end());
      row.insert(row.end(), names.begin(), names.end());
      rows.push_back(std::move(row));
    }
    std::sort(rows.begin(), rows.end());
    Essence out;
    for (const Essence& row : rows) {
      out.push_back(static_cast<std::int64_t>(row.size()));
      out.insert(out.end(), row.begin(), row.end());
    }
    return out;
  }

 private:
  static Essence backwards(Essence names) {
    std::reverse(names.begin(), names.end());
    for (std::int64_t& n : names) n = -n;
    return names;
  }
  void add(const Solver& solver, int branch, bool own, bool watched) {
    const Branch& ends = solver.branch_at(branch);
    const Curve& curve = solver.curve_at(branch);
    Line line{ends.a, ends.b, solver.is_resistor(branch), 0, {}, {}};
    if (const std::int64_t gate = solver.gate_number(branch); gate != 0) line.gates = {gate};
    if (line.plain) {
      if (curve.siemens <= 1 / open_ohm) return;
      line.ohm = 1 / curve.siemens;
      if (watched) line.names = {branch + 1};
    } else {
      line.names = {branch + 1};
      if (own) {
        for (const double f : {curve.siemens, curve.volts, curve.amps, curve.rs}) line.names.push_back(figure(f));
      }
    }
    const int n = static_cast<int>(lines_.size());
    for (const int p : {line.a, line.b})
      if (p >= 0) at_[static_cast<size_t>(p)].push_back(n);
    lines_.push_back(std::move(line));
  }
  void take_away(int n) {
    Line& line = lines_[static_cast<size_t>(n)];
    for (const int p : {line.a, line.b}) {
      if (p < 0) continue;
      std::erase(at_[static_cast<size_t>(p)], n);
      waiting_.push_back(p);
    }
    line.a = line.b = -1;
  }
  // Where one line ends nothing flows; where two resistors meet they are one.
  void pare(int p) {
    std::vector<int>& here = at_[static_cast<size_t>(p)];
    if (watched_[static_cast<size_t>(p)] != 0) return;
    if (here.size() == 1) return take_away(here[0]);
    if (here.size() != 2 || here[0] == here[1]) return;
    const int kept = here[0], gone = here[1];
    Line &one = lines_[static_cast<size_t>(kept)], &other = lines_[static_cast<size_t>(gone)];
    if (!one.plain || !other.plain) return;
    if (one.a == p) {   // towards p
      std::swap(one.a, one.b);
      one.names = backwards(std::move(one.names));
    }
    if (other.b == p) {   // away from p
      std::swap(other.a, other.b);
      other.names = backwards(std::move(other.names));
    }
    one.ohm += other.ohm;
    one.names.insert(one.names.end(), other.names.begin(), other.names.end());
    one.gates.insert(one.gates.end(), other.gates.begin(), other.gates.end());
    std::sort(one.gates.begin(), one.gates.end());
    one.gates.erase(std::unique(one.gates.begin(), one.gates.end()), one.gates.end());
    const int end = other.b;
    take_away(gone);
    std::erase(at_[static_cast<size_t>(p)], kept);
    one.b = end;
    if (end >= 0) at_[static_cast<size_t>(end)].push_back(kept);
    if (one.a == one.b) take_away(kept);   // a ring
  }

  std::vector<Line> lines_;
  std::vector<std::vector<int>> at_;   // lines, by point
  std::vector<char> watched_;          // by point: its volts are seen
  std::vector<int> waiting_;           // points to look at
};

}  // namespace

Essence find_essence(const Sound& sound, const Solver& changed, const std::vector<ModeForced>& forces) {
  Essence out;
  for (const ModeForced& f : forces) out.insert(out.end(), {f.part.v, f.device, f.in ? 1 : 0});
  out.push_back(-1);
  const Essence lines = Paring(sound, changed).essence();
  out.insert(out.end(), lines.begin(), lines.end());
  return out;
}

}  // namespace towloom
