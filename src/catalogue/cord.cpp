#include "catalogue/cord.hpp"

#include <algorithm>

namespace towloom {
namespace {

const ConnectorContact* partner(const CordMap& map, const ConnectorContact* from) {
  for (const CordPair& pair : map.pairs)
    if (pair.from == from) return pair.to;
  return nullptr;
}

// A cord is made for the form, not for what a job puts on a contact of this very part.
Connector as_made(Connector c) {
  const auto made = c.allocations.find(as_made_key);
  if (made == c.allocations.end()) return c;
  for (ConnectorContact& k : c.contacts)
    if (const auto use = made->second.contacts.find(k.number); use != made->second.contacts.end()) k.function = use->second.function;
  return c;
}

CordMap map_of(const Spec& spec, const Connector& outlet, const Connector& inlet, int plug) {
  const Connector from = as_made(outlet), to = as_made(inlet);
  CordMap out = cord_map(from, to);
  const auto own = [](const ConnectorContact*& c, const Connector& made, const Connector& is) {
    c = &is.contacts[static_cast<std::size_t>(c - made.contacts.data())];
  };
  for (CordPair& pair : out.pairs) {
    const bool same = pair.from->function == outlet.contact(pair.from->number)->function && pair.to->function == inlet.contact(pair.to->number)->function;
    pair.meant = pair.meant && same;
    own(pair.from, from, outlet);
    own(pair.to, to, inlet);
  }
  for (const ConnectorContact*& c : out.only_from) own(c, from, outlet);
  for (const ConnectorContact*& c : out.only_to) own(c, to, inlet);
  // What the form's cord leaves free joins what the job states for a free contact.
  for (const ConnectorContact* c : out.only_from) {
    const FoundContact* found = found_row(spec.coach, *c, plug);
    const std::string& carried = found != nullptr && found->does ? found->does->value : c->function;
    for (const ConnectorContact* other : out.only_to)
      if (other->stated && other->function == carried) out.pairs.push_back({c, other, "as this job uses it", true});
  }
  return out;
}

// What the car takes from a contact of the inlet: what was found at the other end of its core, unless the job
// says what the contact is for; else what the form has there.
std::string meaning(const ConnectorContact& inlet, const CordMap& map, const Coach& coach, int plug) {
  if (inlet.stated) return inlet.function;
  for (const CordPair& pair : map.pairs) {
    if (pair.to != &inlet) continue;
    const FoundContact* found = found_row(coach, *pair.from, plug);
    if (found != nullptr && found->does && found->does->value != pair.from->function) return found->does->value;
  }
  return inlet.function;
}

bool crossed(const JobCord& cord, const ConnectorContact& from, const ConnectorContact* to) {
  return to != nullptr && !carries_nothing(cord.carries.at(from.number)) && !cord.right(from, *to);
}

void add_metered(JobCord& out, const Cord& cord, const Connector& outlet, const Connector& inlet, Lies lies) {
  for (const auto& [a, b] : cord.continuity) {
    const ConnectorContact *from = outlet.contact(a.value), *to = inlet.contact(b.value);   // none: no contact
    if (from == nullptr) continue;
    const bool wrong = to == nullptr || crossed(out, *from, to);
    if (wrong && lies == Lies::as_it_should) continue;
    out.cores.push_back({from, to, "", wrong ? partner(out.map, from) : nullptr, to != nullptr && wrong, b.place});
  }
}

}  // namespace

const FoundContact* found_row(const Coach& coach, const ConnectorContact& contact, int plug) {
  for (const FoundContact& f : coach.found)
    if (f.plug == plug)
      for (const std::string* name : {&contact.number, &contact.mark, &contact.terminal})
        if (!name->empty() && f.contact.value == *name) return &f;
  return nullptr;
}

bool JobCord::right(const ConnectorContact& from, const ConnectorContact& to) const {
  const std::string &brought = carries.at(from.number), &taken = meant.at(to.number);
  if (brought == taken) return true;
  // A tail lead may be joined to those of the sides; where the survey says otherwise, that decides.
  return std::any_of(map.pairs.begin(), map.pairs.end(), [&](const CordPair& p) {
    return p.from == &from && p.to == &to && p.meant && brought == from.function && taken == to.function;
  });
}

JobCord job_cord(const Spec& spec, const Connector& outlet, const Connector& inlet, Lies lies, int plug) {
  JobCord out;
  const Cord& own = *plugs(spec)[static_cast<std::size_t>(plug)].cord;
  out.map = map_of(spec, outlet, inlet, plug);
  for (const ConnectorContact& c : outlet.contacts) {
    const FoundContact* found = found_row(spec.coach, c, plug);
    out.carries[c.number] = found != nullptr && found->does ? found->does->value : c.function;
  }
  for (const ConnectorContact& c : inlet.contacts) out.meant[c.number] = meaning(c, out.map, spec.coach, plug);
  add_metered(out, own, outlet, inlet, lies);
  // What was not metered is as it should be.
  const std::vector<CordCore> metered = out.cores;
  for (const CordPair& pair : out.map.pairs) {
    const bool known = std::any_of(metered.begin(), metered.end(), [&](const CordCore& c) { return c.from == pair.from || (c.to == pair.to && !c.crossed); });
    if (!known) out.cores.push_back({pair.from, pair.to, pair.note, nullptr, crossed(out, *pair.from, pair.to), own.place});
  }
  const auto rank = [&](const CordCore& c) { return c.from - outlet.contacts.data(); };
  std::stable_sort(out.cores.begin(), out.cores.end(), [&](const CordCore& a, const CordCore& b) { return rank(a) < rank(b); });
  const auto joined = [&](const ConnectorContact& c) {
    return std::any_of(out.cores.begin(), out.cores.end(), [&](const CordCore& core) { return core.from == &c || core.to == &c; });
  };
  for (const ConnectorContact& c : outlet.contacts)
    if (!joined(c)) out.only_outlet.push_back(&c);
  for (const ConnectorContact& c : inlet.contacts)
    if (!joined(c)) out.only_inlet.push_back(&c);
  return out;
}

}  // namespace towloom
