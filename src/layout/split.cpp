#include "layout/split.hpp"

#include <algorithm>
#include <map>

#include "layout/page_of.hpp"

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

const char* zone_word(Zone zone) {
  switch (zone) {
    case Zone::coach: case Zone::cord: return "zone-coach";
    case Zone::inlet: return "zone-inlet";
    case Zone::pocket: return "zone-pocket";
    case Zone::lamp: return "zone-lamp";
    default: return "zone-run";
  }
}

}  // namespace

std::optional<Apart> further(const Apart& apart, const std::string& group, double times, bool wide) {
  constexpr int most_pages = 60;   // of one group: a thousand wires want about as many
  constexpr int most_without = 3;  // pages of lamps, the first of which holds all that feeds them
  constexpr double sparing = 0.75; // of the further pages that the room asks for: a page is not filled by height alone
  Apart out = apart;
  // Once the lamps have a page of their own, they are divided by themselves: supply and the car's own side stay together.
  if (apart.level < Apart::lamps || group == "group-sources") {
    out.level = static_cast<Apart::Level>(apart.level + 1);
    return out;
  }
  if (wide && !apart.contacts_apart && group != "group-signals") {   // more pages would not be narrower
    out.contacts_apart = true;
    out.signal_pages = std::max(1, out.signal_pages);
    return out;
  }
  constexpr int most_lengths = 4;  // the longest chain of a job has about as many parts as fit twice across A4
  static const std::map<std::string, std::size_t> cut{{"group-signals", 0}, {"group-lamps", 1}, {"group-auxiliaries", 2}, {"group-car", 3}};
  if (const auto g = cut.find(group); g != cut.end() && (wide || group == "group-auxiliaries") && out.lengths[g->second] < most_lengths) {
    ++out.lengths[g->second];
    return out;
  }
  int* pages = group == "group-lamps" ? &out.lamp_pages : group == "group-car" ? &out.car_pages : group == "group-signals" ? &out.signal_pages : nullptr;
  if (pages == nullptr || *pages == most_pages) return std::nullopt;
  *pages = std::min(most_pages, *pages + std::max(1, static_cast<int>(*pages * (times - 1) * sparing)));
  if (apart.signal_pages == 0 && out.lamp_pages > most_without) {
    out.lamp_pages = 2;
    out.signal_pages = 1;
  }
  return out;
}

std::vector<PageCircuit> split(const Circuit& c, Apart apart, const std::vector<bool>& joined) {
  const Pages pages = join_pages(assign_pages(c, apart), joined);
  const auto shared = [&](int p) { return bool(pages.shared[at(p)]); };
  std::vector<PageCircuit> out;
  for (const Pages::Head& head : pages.heads) out.push_back({head.group, head.part, head.parts, {}, {}, {}, {}, {}});
  const Points points = number_points(c);
  for (std::size_t n = 0; n < out.size(); ++n) {
    PageCircuit& page = out[n];
    Circuit& mine = page.circuit;
    mine.nets = c.nets;
    mine.wire_series = c.wire_series;
    mine.wire_celsius = c.wire_celsius;
    std::map<int, int> here;   // part of the whole -> part of the page
    const auto page_of = [&](int p) { return pages.of[at(p)]; };
    const auto add = [&](int p) {
      here[p] = static_cast<int>(mine.parts.size());
      mine.parts.push_back(c.parts[at(p)]);
      page.part_of.push_back(p);
      page.leads_to.push_back(-1);
      for (std::size_t t = 0; t < c.parts[at(p)].terminals.size(); ++t)
        mine.net_of.push_back(c.net_of[at(points.at({PartId{p}, static_cast<int>(t)}))]);
      for (int i = 0; i < c.parts[at(p)].inner_points; ++i) mine.net_of.push_back({});
    };
    const auto on_page = [&](const Wire& w, bool from) {   // which page this end is drawn on
      const int p = from ? w.from.part.v : w.to.part.v, q = from ? w.to.part.v : w.from.part.v;
      return shared(p) ? (shared(q) ? 0 : page_of(q)) : page_of(p);
    };
    std::vector<bool> wanted;
    for (std::size_t p = 0; p < c.parts.size(); ++p) wanted.push_back(!shared(static_cast<int>(p)) && page_of(static_cast<int>(p)) == static_cast<int>(n));
    for (const Wire& w : c.wires)
      for (const bool from : {true, false})
        if (const int p = (from ? w.from : w.to).part.v; shared(p) && on_page(w, from) == static_cast<int>(n)) wanted[at(p)] = true;
    for (std::size_t p = 0; p < c.parts.size(); ++p)
      if (wanted[p]) add(static_cast<int>(p));
    std::map<int, int> new_wire;
    for (std::size_t w = 0; w < c.wires.size(); ++w) {
      const int from = on_page(c.wires[w], true), to = on_page(c.wires[w], false);
      if (from != static_cast<int>(n) && to != static_cast<int>(n)) continue;
      Wire wire = c.wires[w];
      const NetId net = c.net(c.wires[w].from);
      for (const bool start : {true, false}) {
        TerminalRef& end = start ? wire.from : wire.to;
        const int other = start ? from : to;
        if (other == static_cast<int>(n)) {
          end.part = PartId{here.at(end.part.v)};
          continue;
        }
        const TerminalRef& near = start ? c.wires[w].to : c.wires[w].from;
        Part reference;
        reference.id = "to " + wire.id + (start ? " from" : " on");
        reference.kind = "reference";
        reference.terminals = {"1"};
        reference.zone = c.part(near.part).zone;
        reference.status = c.part(near.part).status;
        reference.function = c.part(near.part).kind == "contact" ? c.part(near.part).function : "";
        reference.side = c.part(near.part).side;
        reference.place = zone_word(c.part(start ? c.wires[w].from.part : c.wires[w].to.part).zone);
        end = {PartId{static_cast<int>(mine.parts.size())}, 0};
        mine.parts.push_back(std::move(reference));
        mine.net_of.push_back(net);
        page.part_of.push_back(-1);
        page.leads_to.push_back(other);
      }
      new_wire[static_cast<int>(w)] = static_cast<int>(mine.wires.size());
      mine.wires.push_back(std::move(wire));
      page.wire_of.push_back(static_cast<int>(w));
    }
    for (std::size_t l = 0; l < c.lamps.size(); ++l)
      if (const auto p = here.find(c.lamps[l].lamp.v); p != here.end()) {
        mine.lamps.push_back(c.lamps[l]);
        mine.lamps.back().lamp = PartId{p->second};
        mine.lamps.back().converter = {};
        page.lamp_of.push_back(static_cast<int>(l));
      }
    for (const CutPoint& cut : c.cuts)
      if (const auto w = new_wire.find(cut.car_side.v); w != new_wire.end() && on_page(c.wires[at(cut.car_side.v)], false) == static_cast<int>(n)) {
        mine.cuts.push_back(cut);
        mine.cuts.back().car_side = WireId{w->second};
        mine.cuts.back().lamp_side = {};
      }
  }
  return out;
}

}  // namespace towloom
