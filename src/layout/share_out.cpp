// Lamps, and the car's own feeds, over several pages.
#include <algorithm>
#include <string>
#include <utility>

#include "layout/share.hpp"
#include "layout/sides.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

void share_lamps(const Circuit& c, const std::vector<bool>& shared, std::vector<Share>& share, int pages, int signal_pages) {
  std::vector<std::pair<std::pair<int, std::string>, int>> order;   // side and housing; part
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    const Part& part = c.parts[p];
    if (part.kind != "lamp") continue;
    const int side = part.side == Side::right ? 0 : part.side == Side::centre ? 1 : 2;
    order.push_back({{side, part.side == Side::centre ? "" : part.group}, static_cast<int>(p)});
  }
  std::stable_sort(order.begin(), order.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<bool> known(c.parts.size(), false);
  for (std::size_t i = 0; i < order.size(); ++i) {
    std::size_t first = i;   // of its housing
    while (first > 0 && order[first - 1].first == order[i].first && !order[i].first.second.empty()) --first;
    const std::size_t p = at(order[i].second);
    share[p].part = static_cast<int>(first * at(pages) / order.size());
    known[p] = true;
  }
  // What feeds one page's lamps stands there; what feeds several, on the first of them. What feeds none, a return
  // or a resistor to ground, goes with what it hangs on.
  Flow flow = flow_of(c);
  for (std::size_t p = 0; p < c.parts.size(); ++p)   // a relay in the return of a lamp stands for what feeds it
    for (const int lamp : flow.before[p])
      if (c.parts[p].kind == "relay" && c.parts[at(lamp)].kind == "lamp") flow.next[p].push_back(lamp), std::erase(flow.next[at(lamp)], static_cast<int>(p));
  std::vector<bool> feeds = known;
  for (bool changed = true; changed;) {
    changed = false;
    for (std::size_t p = 0; p < c.parts.size(); ++p)
      if (!feeds[p] && std::any_of(flow.next[p].begin(), flow.next[p].end(), [&](int q) { return feeds[at(q)]; })) feeds[p] = changed = true;
  }
  for (bool changed = true; changed;) {
    changed = false;
    for (std::size_t p = 0; p < c.parts.size(); ++p) {
      if (known[p] || share[p].group != lamps || shared[p]) continue;
      int least = pages, most = -1;
      bool ready = true, before_signals = false;
      for (int q : feeds[p] ? flow.next[p] : flow.before[p]) {
        before_signals = before_signals || (feeds[p] && share[at(q)].group == signals);
        if (share[at(q)].group != lamps || (feeds[p] && !feeds[at(q)])) continue;
        if (known[at(q)]) least = std::min(least, share[at(q)].part), most = std::max(most, share[at(q)].part);
        else ready = false;
      }
      if ((least == pages && !before_signals) || !ready) continue;
      if (signal_pages > 0 && feeds[p] && (before_signals || least < most)) share[p] = {signals, 0};
      else share[p].part = least;
      known[p] = changed = true;
    }
  }
  if (signal_pages == 0) return;
  for (std::size_t p = 0; p < c.parts.size(); ++p)   // the coach's return, and what hangs on it
    if (!known[p] && share[p].group == lamps && !shared[p]) share[p] = {signals, 0};
  if (signal_pages == 1) return;
  // Contacts on the first page; what divides their signals from there on, in runs of about equal number.
  const auto divides = [&](std::size_t p) { return share[p].group == signals && c.parts[p].kind != "contact"; };
  int total = 0, before = 0;
  for (std::size_t p = 0; p < c.parts.size(); ++p) total += divides(p);
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (divides(p)) share[p].part = before++ * signal_pages / total;
}

// The car's feeds behind its fuses in runs of about equal number of wires: each whole, unless it alone is more than a run;
// then along its wires, so that what hangs on one joint stays with it.
void share_car(const Circuit& c, const std::vector<bool>& shared, std::vector<Share>& share, int pages) {
  const Flow flow = flow_of(c);
  const auto supply = [&](int p) {
    const std::string& kind = c.parts[at(p)].kind;
    if (kind == "battery" || kind == "fuse") return true;
    return kind == "splice" && !flow.before[at(p)].empty() &&
           std::all_of(flow.before[at(p)].begin(), flow.before[at(p)].end(), [&](int q) { return c.parts[at(q)].kind == "fuse"; });
  };
  const auto mine = [&](int p) { return share[at(p)].group == car && !supply(p) && !shared[at(p)]; };
  std::vector<int> wires(c.parts.size(), 0);
  std::vector<std::vector<int>> beside(c.parts.size());   // along the wires first, then against them
  int total = 0;
  for (const Wire& w : c.wires)
    for (const auto& [me, other] : {std::pair{w.from.part.v, w.to.part.v}, {w.to.part.v, w.from.part.v}})
      if (mine(me)) {
        ++wires[at(me)], ++total;
        if (mine(other)) beside[at(me)].push_back(other);
      }
  std::vector<bool> seen(c.parts.size(), false);
  const auto along = [&](int first) {   // what one feed consists of, each branch to its end before the next
    std::vector<int> out, open{first};
    while (!open.empty()) {
      const int p = open.back();
      open.pop_back();
      if (seen[at(p)]) continue;
      seen[at(p)] = true;
      out.push_back(p);
      open.insert(open.end(), beside[at(p)].rbegin(), beside[at(p)].rend());
    }
    return out;
  };
  const int run = std::max(1, (total + pages - 1) / pages);
  int before = 0;
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    if (!mine(static_cast<int>(p)) || seen[p]) continue;
    const std::vector<int> feed = along(static_cast<int>(p));
    int size = 0, passed = 0;
    for (int q : feed) size += wires[at(q)];
    for (int q : feed) {
      share[at(q)].part = std::min(pages - 1, (before + (size > run ? passed : 0)) / run);
      passed += wires[at(q)];
    }
    before += size;
  }
}

}  // namespace towloom
