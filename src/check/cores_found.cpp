// The cores of a cord as they were metered, as a change of the cord as it should be.
#include <algorithm>

#include "check/observe.hpp"

namespace towloom {
namespace {

std::optional<std::string> contact_number(const Circuit& c, const std::string& connector, const std::string& said) {
  for (const Part& p : c.parts)
    if (p.kind == "contact" && p.group == connector && (p.contact == said || p.title == said)) return p.contact;
  return std::nullopt;
}

}  // namespace

// Cores as metered, outlet's contact to inlet's: exchanged until each stands where it was found; one that was found
// on a contact without a core of this job, or on none, is open.
std::vector<Change> cores_as_metered(const Circuit& c, const Plug& plug, const AsFoundRow& row, std::vector<LooseCore>& loose, Diagnostics& diagnostics) {
  std::vector<PartId> outlet;
  for (std::size_t p = 0; p < c.parts.size(); ++p)
    if (c.parts[p].kind == "contact" && c.parts[p].group == plug.outlet_id()) outlet.push_back({static_cast<int>(p)});
  const auto core_of = [&](PartId id) {
    for (std::size_t w = 0; w < c.wires.size(); ++w)
      if (is_core(c.wires[w]) && (c.wires[w].from == TerminalRef{id, 1} || c.wires[w].to == TerminalRef{id, 1})) return static_cast<int>(w);
    return -1;
  };
  const auto lands = [&](int wire) {   // the inlet's contact at the far end of a core
    const Wire& w = c.wires[static_cast<std::size_t>(wire)];
    const Part& far = c.part(c.part(w.from.part).group == plug.inlet_id() ? w.from.part : w.to.part);
    return far.contact;
  };
  std::map<int, std::string> said;
  std::map<int, int> has, wants;   // by place in `outlet`: the core there now, and the one that was found there; -1 none
  for (std::size_t i = 0; i < outlet.size(); ++i) has[static_cast<int>(i)] = wants[static_cast<int>(i)] = core_of(outlet[i]);
  for (const auto& [from, to] : row.cores) {
    const auto number = contact_number(c, plug.outlet_id(), from.value);
    if (!number) {
      diagnostics.error("as-found", from.place, "the job uses no contact '" + from.value + "' of the outlet");
      continue;
    }
    for (std::size_t i = 0; i < outlet.size(); ++i) {
      if (c.part(outlet[i]).contact != *number) continue;
      const auto far = contact_number(c, plug.inlet_id(), to.value);
      wants[static_cast<int>(i)] = -1;
      said[static_cast<int>(i)] = to.value;
      for (const auto& [place, core] : has)
        if (far && core >= 0 && lands(core) == *far) wants[static_cast<int>(i)] = core;
    }
  }
  std::vector<Change> out;
  for (auto& [place, core] : wants) {
    if (core < 0 || has[place] == core) continue;
    for (auto& [other, there] : has)
      if (there == core && other != place) {
        out.push_back(LeadsExchanged{{outlet[static_cast<std::size_t>(place)], 1}, {outlet[static_cast<std::size_t>(other)], 1}});
        std::swap(has[place], there);
        break;
      }
  }
  for (const auto& [place, core] : has) {
    const bool wanted = std::any_of(wants.begin(), wants.end(), [&, c2 = core](const auto& w) { return w.second == c2; });
    if (core < 0 || wanted) continue;
    out.push_back(WireInSeries{{core}, open_ohm});
    loose.push_back({{core}, plug.inlet_id(), said.count(place) != 0 ? said.at(place) : ""});
  }
  return out;
}

}  // namespace towloom
