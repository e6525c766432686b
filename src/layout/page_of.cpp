#include "layout/page_of.hpp"

#include <algorithm>
#include <map>
#include <string>
#include <utility>

#include "layout/share.hpp"

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
  cut_across(c, out.shared, share, apart.lengths);
  mate_contacts(c, share);
  if (together)
    for (Share& s : share)
      if (s.group == car) s.group = auxiliaries;
  out.of.assign(c.parts.size(), 0);
  const char* words[] = {"group-signals", "group-lamps", together ? "group-sources" : "group-auxiliaries", "group-car"};
  std::map<Share, int> page;   // those that have a part of their own
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (!out.shared[p]) page[share[p]] = 0;
  std::map<int, int> count;
  for (auto& [key, index] : page) {
    index = static_cast<int>(out.heads.size());
    out.heads.push_back({words[key.group], ++count[key.group], 1});
  }
  for (const auto& [key, index] : page) out.heads[at(index)].parts = count[key.group];
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (!out.shared[p]) out.of[p] = page.at(share[p]);
  if (out.heads.size() == 1) out.heads.front() = {"group-all", 1, 1};
  return out;
}

Pages join_pages(Pages pages, const std::vector<bool>& joined) {
  std::vector<int> becomes;
  std::vector<Pages::Head> heads;
  std::map<std::string, int> count;
  for (std::size_t p = 0; p < pages.heads.size(); ++p) {
    const bool with_last = p < joined.size() && joined[p] && !heads.empty() && heads.back().group == pages.heads[p].group;
    if (!with_last) heads.push_back({pages.heads[p].group, ++count[pages.heads[p].group], 1});
    becomes.push_back(static_cast<int>(heads.size()) - 1);
  }
  for (Pages::Head& head : heads) head.parts = count[head.group];
  for (std::size_t p = 0; p < pages.of.size(); ++p)
    if (!pages.shared[p]) pages.of[p] = becomes[at(pages.of[p])];
  pages.heads = std::move(heads);
  return pages;
}

}  // namespace towloom
