#include "catalogue/mating.hpp"

#include <algorithm>

namespace towloom {
namespace {

const MatingNote* note_between(const Connector& a, const Connector& b) {
  for (const auto& [one, other] : {std::pair{&a, &b}, std::pair{&b, &a}}) {
    const auto found = one->others.find(other->form);
    if (found != one->others.end()) return &found->second;
  }
  return nullptr;
}

bool has(const Connector& c, const char* function) {
  return std::any_of(c.contacts.begin(), c.contacts.end(), [&](const ConnectorContact& k) { return k.function == function; });
}

const ConnectorContact* carrying(const Connector& c, const std::string& function) {
  for (const ConnectorContact& k : c.contacts)
    if (k.function == function) return &k;
  return nullptr;
}

bool unused(const std::string& function) { return function == "spare" || function == "reserved" || function == "coding"; }

}  // namespace

Mating mating(const End& a, const End& b) {
  const ConnectorHalf *one = a.connector->half(a.half), *other = b.connector->half(b.half);
  if (one == nullptr || other == nullptr)
    return {false, "'" + (one == nullptr ? a.half + "' is no half of the " + a.connector->title : b.half + "' is no half of the " + b.connector->title), {}};
  const bool same_form = a.connector->form == b.connector->form;
  const MatingNote* note = same_form ? nullptr : note_between(*a.connector, *b.connector);
  if (!same_form && note == nullptr)
    return {false, "a " + a.connector->title + " and a " + b.connector->title + " are different forms", {}};
  if (note != nullptr && !note->mates) return {false, note->says, note->provenance};
  if (a.half == b.half) return {false, "both are the " + one->title, {}};
  if (note != nullptr) return {true, note->says, note->provenance};
  return {true, "", {}};
}

CordMap cord_map(const Connector& from, const Connector& to) {
  CordMap out;
  std::vector<const ConnectorContact*> taken;
  const auto join = [&](const ConnectorContact& a, const ConnectorContact* b, const char* note) {
    if (b == nullptr) return false;
    out.pairs.push_back({&a, b, note});
    taken.push_back(b);
    return true;
  };
  const bool from_sides = has(from, "left-tail") && !has(from, "tail"), to_sides = has(to, "left-tail") && !has(to, "tail");
  for (const ConnectorContact& c : from.contacts) {
    if (unused(c.function)) continue;
    bool joined = false;
    if (c.function == "tail" && to_sides) {
      joined = join(c, carrying(to, "left-tail"), "one tail lead feeds both sides");
      joined = join(c, carrying(to, "right-tail"), "one tail lead feeds both sides") || joined;
    } else if (c.function == "left-tail" && !from_sides) {
      joined = join(c, carrying(to, "left-tail"), "");
    } else if (c.function == "left-tail" && !to_sides && has(to, "tail")) {
      // The sides are never tied together: one of them feeds the common lead.
      joined = join(c, carrying(to, "tail"), "the left side alone feeds the common tail lead");
    } else if (c.function == "aux" && carrying(to, "aux") != nullptr) {
      // Auxiliary contacts go by number: each carries what the fitter gave it.
      const ConnectorContact* same = to.contact(c.number);
      joined = join(c, same != nullptr && same->function == "aux" ? same : carrying(to, "aux"), "auxiliary: meter both ends");
    } else {
      joined = join(c, carrying(to, c.function), "");
    }
    if (!joined) out.only_from.push_back(&c);
  }
  for (const ConnectorContact& c : to.contacts)
    if (!unused(c.function) && std::find(taken.begin(), taken.end(), &c) == taken.end()) out.only_to.push_back(&c);
  const bool lamps = has(from, "left") && has(to, "left");
  out.stop_apart_differs = lamps && has(from, "stop") != has(to, "stop");
  return out;
}

std::vector<CrossedCore> crossed_cores(const Connector& from, const Connector& to,
                                       const std::vector<std::pair<std::string, std::string>>& measured) {
  std::vector<CrossedCore> out;
  const CordMap map = cord_map(from, to);
  for (const auto& [a, b] : measured) {
    CrossedCore core{from.contact(a), to.contact(b), nullptr};
    if (core.from == nullptr || core.to == nullptr) continue;
    bool right = false;
    for (const CordPair& pair : map.pairs) {
      if (pair.from != core.from) continue;
      right = right || pair.to == core.to;
      if (core.expected == nullptr) core.expected = pair.to;
    }
    if (!right) out.push_back(core);
  }
  return out;
}

}  // namespace towloom
