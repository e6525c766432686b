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

// Between ends of one form, also where one of them is put to another use.
void go_straight(const Connector& from, const Connector& to, CordMap& out) {
  for (const ConnectorContact& c : from.contacts) {
    const ConnectorContact* other = to.contact(c.number);
    if (carries_nothing(c.function) && carries_nothing(other->function)) continue;
    out.pairs.push_back({&c, other, c.function == other->function ? "" : "the two ends use it differently", c.function == other->function});
  }
}

}  // namespace

bool carries_nothing(const std::string& function) {
  return function == "spare" || function == "reserved" || function == "nothing";
}

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
  const bool lamps = has(from, "left") && has(to, "left");
  out.stop_apart_differs = lamps && has(from, "stop") != has(to, "stop");
  if (from.form == to.form) {
    go_straight(from, to, out);
    return out;
  }
  std::vector<const ConnectorContact*> taken;
  const auto join = [&](const ConnectorContact& a, const ConnectorContact* b, const char* note) {
    if (b == nullptr) return false;
    out.pairs.push_back({&a, b, note});
    taken.push_back(b);
    return true;
  };
  const bool from_sides = has(from, "left-tail") && !has(from, "tail"), to_sides = has(to, "left-tail") && !has(to, "tail");
  for (const ConnectorContact& c : from.contacts) {
    if (carries_nothing(c.function)) continue;
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
    if (!carries_nothing(c.function) && std::find(taken.begin(), taken.end(), &c) == taken.end()) out.only_to.push_back(&c);
  return out;
}

}  // namespace towloom
