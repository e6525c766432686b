#include "layout/sides.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

std::string without_side(std::string text) {
  for (const char* word : {"left", "right"})
    for (std::size_t p = text.find(word); p != std::string::npos; p = text.find(word)) text.replace(p, std::string(word).size(), "~");
  return text;
}

bool is_far_end(const Circuit& c, const Wire& w) {
  if (c.part(w.from.part).kind != "reference" || c.part(w.to.part).terminals.size() != 2) return false;
  const PartId fed = w.to.part;
  const auto leaves = [&](const Wire& x) { return x.from.part == fed; };
  const auto also_fed = [&](const Wire& x) { return x.to.part == fed && x.to.index != w.to.index && c.part(x.from.part).kind != "reference"; };
  return std::none_of(c.wires.begin(), c.wires.end(), leaves) && std::any_of(c.wires.begin(), c.wires.end(), also_fed);
}

// Fitted splices that gather returns on their way back to the inlet, lamps apart: they stand behind it, and what they
// gather behind them.
std::vector<bool> find_gathering(const Circuit& c) {
  std::vector<bool> out(c.parts.size(), false);
  for (std::size_t p = 0; p < c.parts.size(); ++p) out[p] = c.parts[p].kind == "splice" && c.parts[p].status == Status::fitted;
  for (bool changed = true; changed;) {
    changed = false;
    for (std::size_t p = 0; p < c.parts.size(); ++p) {
      if (!out[p]) continue;
      int back = 0;
      bool other = false;
      for (const Wire& w : c.wires) {
        if (w.to.part.v == static_cast<int>(p)) other = other || c.part(w.from.part).zone == Zone::lamp || c.part(w.from.part).zone == Zone::inlet;
        if (w.from.part.v != static_cast<int>(p)) continue;
        const Part& to = c.part(w.to.part);
        const bool home = (to.kind == "contact" && to.zone == Zone::inlet) || out[at(w.to.part.v)];
        if (home) ++back;
        else other = true;
      }
      if (!other && back > 0) continue;
      out[p] = false;
      changed = true;
    }
  }
  return out;
}

Flow flow_of(const Circuit& c) {
  const std::vector<bool> gathering = find_gathering(c);
  Flow out;
  out.next.resize(c.parts.size());
  out.before.resize(c.parts.size());
  for (const Wire& w : c.wires) {
    const Part &from = c.part(w.from.part), &to = c.part(w.to.part);
    if (from.kind == "stud" || to.kind == "stud") continue;
    if (to.kind == "coach-feed" || (from.zone == Zone::inlet && to.zone == Zone::coach)) continue;   // returns run against the order
    const bool turned = is_far_end(c, w) || gathering[at(w.to.part.v)] || (gathering[at(w.from.part.v)] && to.kind == "contact");
    const int first = turned ? w.to.part.v : w.from.part.v, then = turned ? w.from.part.v : w.to.part.v;
    out.next[at(first)].push_back(then);
    out.before[at(then)].push_back(first);
  }
  return out;
}

// A part with lamps of one side only behind it belongs to that side; the rest of the car's own feeds, and
// what serves both sides, stand on the centre line.
std::vector<Side> find_sides(const Circuit& c, const Flow& flow) {
  std::vector<Side> side;
  const std::size_t n = c.parts.size();
  side.assign(n, Side::centre);
  std::vector<bool> known(n, false);
  for (std::size_t p = 0; p < n; ++p) {
    const Part& x = c.parts[p];
    const bool handed = without_side(x.function) != x.function;
    known[p] = x.zone == Zone::lamp || x.kind == "module" || x.kind == "battery" || x.kind == "coach-feed" || c.parts[p].kind == "stud" ||
               (x.zone == Zone::pocket && x.kind != "splice" && x.side != Side::centre) || (x.kind == "contact" && handed);
    if (known[p] && x.kind != "module" && x.kind != "battery") side[p] = x.side;
  }
  // A splice stands with what it feeds on this page, not with what goes on elsewhere.
  const auto fitted_splice = [&](std::size_t p) { return c.parts[p].kind == "splice" && c.parts[p].status == Status::fitted; };
  for (bool changed = true; changed;) {
    changed = false;
    for (std::size_t p = 0; p < n; ++p) {
      if (known[p]) continue;
      std::set<Side> sides;
      bool ready = true;
      for (int q : flow.next[p]) {
        if (fitted_splice(p) && c.parts[at(q)].kind == "reference") continue;
        if (!known[at(q)]) ready = false;
        sides.insert(side[at(q)]);
      }
      if (!ready || sides.empty()) continue;
      known[p] = changed = true;
      const Part& x = c.parts[p];
      const bool own = x.kind == "contact" || x.zone == Zone::pocket;   // serves both sides, yet sits on one
      side[p] = sides.size() == 1 ? *sides.begin() : own ? (x.side == Side::centre ? Side::left : x.side) : Side::centre;
      if (own && sides == std::set<Side>{Side::centre, Side::left}) side[p] = Side::left;
      if (own && sides == std::set<Side>{Side::centre, Side::right}) side[p] = Side::right;
    }
  }
  // A splice that gathers the returns of added lamps stands on their side.
  for (std::size_t p = 0; p < n; ++p) {
    if (!fitted_splice(p)) continue;
    std::set<Side> lamps;
    for (int q : flow.before[p])
      if (c.parts[at(q)].kind == "lamp" && c.parts[at(q)].side != Side::centre) lamps.insert(c.parts[at(q)].side);
    if (lamps.size() == 1) side[p] = *lamps.begin();
  }
  return side;
}

bool is_mirrored(const Circuit& c) {
  const auto any = [&](Side side) { return std::any_of(c.parts.begin(), c.parts.end(), [&](const Part& p) { return p.kind == "lamp" && p.side == side; }); };
  return any(Side::left) == any(Side::right);
}

std::vector<int> find_twins(const Circuit& c, const Flow& flow, const std::vector<Side>& side) {
  std::vector<int> twin;
  twin.assign(c.parts.size(), -1);
  if (!is_mirrored(c)) return twin;   // a side that leads to no lamp need not reach as far out as the other
  std::map<std::string, std::vector<int>> of[2];
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    const Part& x = c.parts[p];
    if (side[p] == Side::centre || c.parts[p].kind == "stud" || x.kind == "splice") continue;
    const bool begins = x.kind == "reference" && !flow.next[p].empty();   // what comes from a sheet is no image of what goes to one
    const std::string key = x.kind + (begins ? " from|" : "|") + without_side(x.function) + "|" + without_side(x.group) + "|" + std::to_string(static_cast<int>(x.zone));
    of[side[p] == Side::left ? 0 : 1][key].push_back(static_cast<int>(p));
  }
  for (const auto& [key, lefts] : of[0]) {
    const auto rights = of[1].find(key);
    if (rights == of[1].end()) continue;
    for (std::size_t i = 0; i < std::min(lefts.size(), rights->second.size()); ++i) {
      twin[at(lefts[i])] = rights->second[i];
      twin[at(rights->second[i])] = lefts[i];
    }
  }
  return twin;
}

}  // namespace towloom
