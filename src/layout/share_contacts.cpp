// Which page the contacts of coach, cord and inlet stand on.
#include <map>

#include "layout/share.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

}  // namespace

void contacts_to_signals(const Circuit& c, std::vector<Share>& share) {
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (c.parts[p].zone == Zone::coach || c.parts[p].zone == Zone::cord || c.parts[p].zone == Zone::inlet) share[p] = {signals, 0};
}

void share_contacts(const Circuit& c, const std::vector<bool>& shared, std::vector<Share>& share, int signal_pages) {
  std::vector<std::size_t> contacts;
  int others = 0;
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    if (share[p].group != signals || shared[p]) continue;
    const bool contact = c.parts[p].kind == "contact";
    if (contact && c.parts[p].zone == Zone::inlet) contacts.push_back(p);
    others += !contact;
  }
  const int pages = signal_pages - others;
  if (pages < 2) return;
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (share[p].group == signals && c.parts[p].kind != "contact") share[p].part += pages - 1;
  for (std::size_t i = 0; i < contacts.size(); ++i) share[contacts[i]].part = static_cast<int>(i * at(pages) / contacts.size());
}

void mate_contacts(const Circuit& c, std::vector<Share>& share) {
  std::map<TerminalRef, int> first;   // contact of each terminal of the loom
  const auto mate = [&](int contact) {
    for (const Wire& w : c.wires)
      if (is_core(w) && (w.from.part.v == contact || w.to.part.v == contact)) return w.from.part.v == contact ? w.to.part.v : w.from.part.v;
    return contact;
  };
  for (const Wire& w : c.wires)
    for (const auto& [loom, contact] : {std::pair{w.from, w.to.part.v}, {w.to, w.from.part.v}}) {
      if (c.part(loom.part).kind != "coach-feed") continue;
      const auto [found, fresh] = first.emplace(loom, contact);
      if (!fresh) share[at(mate(contact))] = share[at(mate(found->second))];
    }
  for (const Wire& w : c.wires) {
    if (!is_core(w)) continue;
    const bool forward = c.part(w.to.part).zone == Zone::inlet;
    const int inlet = forward ? w.to.part.v : w.from.part.v, coach = forward ? w.from.part.v : w.to.part.v;
    share[at(coach)] = share[at(inlet)];
  }
}

}  // namespace towloom
