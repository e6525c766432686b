#include "layout/page_of.hpp"

#include <algorithm>
#include <map>

#include "layout/share.hpp"
#include "layout/sides.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

// The coach's loom and the studs; once a group goes over several pages, also joints of more wires than a page holds
// references beside each other.
std::vector<bool> find_shared(const Circuit& c, const Apart& apart) {
  constexpr int most_legs = 20;
  const bool large = apart.lamp_pages > 1 || apart.car_pages > 1;
  std::vector<int> wires(c.parts.size(), 0);
  for (const Wire& w : c.wires) ++wires[at(w.from.part.v)], ++wires[at(w.to.part.v)];
  std::vector<bool> out;
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    const std::string& kind = c.parts[p].kind;
    out.push_back(kind == "coach-feed" || kind == "stud" || (large && (kind == "splice" || kind == "joint") && wires[p] > most_legs));
  }
  return out;
}

bool has_factory_wire(const Circuit& c, int part) {
  return std::any_of(c.wires.begin(), c.wires.end(), [&](const Wire& w) {
    const int other = w.from.part.v == part ? w.to.part.v : w.to.part.v == part ? w.from.part.v : -1;
    return other >= 0 && w.status == Status::factory && c.parts[at(other)].kind != "battery";
  });
}

// Parts that only feed what is on another page go there too: contacts, splices.
void follow(const Circuit& c, std::vector<Share>& share, Group to) {
  for (bool changed = true; changed;) {
    changed = false;
    for (std::size_t p = 0; p < c.parts.size(); ++p) {
      const Part& part = c.parts[p];
      if (share[p].group == to || (part.kind != "contact" && !(part.kind == "splice" && part.status == Status::fitted))) continue;
      bool any = false, all = true;
      for (const Wire& w : c.wires) {
        if (w.from.part.v != static_cast<int>(p)) continue;
        any = true;
        all = all && share[at(w.to.part.v)].group == to;
      }
      if (!any || !all) continue;
      share[p].group = to;
      changed = true;
    }
  }
}

std::vector<Share> by_function(const Circuit& c, Apart::Level wanted) {
  std::vector<Share> out(c.parts.size());
  if (wanted != Apart::nothing) {
    for (std::size_t p = 0; p < c.parts.size(); ++p) {
      const Part& part = c.parts[p];
      const bool apart = part.status == Status::fitted && (part.zone == Zone::run || part.zone == Zone::source) && part.kind != "module" &&
                         part.kind != "stud" && part.kind != "splice" && !has_factory_wire(c, static_cast<int>(p));
      if (apart) out[p].group = auxiliaries;
    }
    follow(c, out, auxiliaries);
  }
  if (wanted == Apart::lamps || wanted == Apart::all)
    for (std::size_t p = 0; p < c.parts.size(); ++p)
      if (c.parts[p].status == Status::factory && c.parts[p].zone == Zone::source) out[p].group = car;
  return out;
}

// Lamps in their order, right, centre, left, in runs of about equal number; whole housings stay together.
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

}  // namespace

Pages assign_pages(const Circuit& c, Apart apart) {
  Pages out;
  out.shared = find_shared(c, apart);
  std::vector<Share> share = by_function(c, apart.level);
  const auto any = [&](Group g) { return std::any_of(share.begin(), share.end(), [&](const Share& s) { return s.group == g; }); };
  // Supply, auxiliaries and the car's own side on one page.
  const bool together = apart.level == Apart::lamps && any(auxiliaries) && any(car);
  if (apart.lamp_pages > 1) share_lamps(c, out.shared, share, apart.lamp_pages, apart.signal_pages);
  if (apart.car_pages > 1) share_car(c, out.shared, share, apart.car_pages);
  if (apart.contacts_apart) contacts_to_signals(c, share);
  share_contacts(c, out.shared, share, apart.signal_pages);
  mate_contacts(c, share);
  if (together)
    for (Share& s : share)
      if (s.group == car) s.group = auxiliaries;
  out.of.assign(c.parts.size(), 0);
  const char* words[] = {"group-signals", "group-lamps", together ? "group-sources" : "group-auxiliaries", "group-car"};
  std::map<std::pair<int, int>, int> page;   // group and part that have a part of their own
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (!out.shared[p]) page[{share[p].group, share[p].part}] = 0;
  std::map<int, int> count;
  for (auto& [key, index] : page) {
    index = static_cast<int>(out.heads.size());
    out.heads.push_back({words[key.first], ++count[key.first], 1});
  }
  for (const auto& [key, index] : page) out.heads[at(index)].parts = count[key.first];
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (!out.shared[p]) out.of[p] = page.at({share[p].group, share[p].part});
  if (out.heads.size() == 1) out.heads.front() = {"group-all", 1, 1};
  return out;
}

}  // namespace towloom
