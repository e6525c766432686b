#include "layout/split.hpp"

#include <algorithm>
#include <map>

namespace towloom {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }
enum Group : int { lamps, auxiliaries, car };

bool has_factory_wire(const Circuit& c, int part) {
  return std::any_of(c.wires.begin(), c.wires.end(), [&](const Wire& w) {
    const int other = w.from.part.v == part ? w.to.part.v : w.to.part.v == part ? w.from.part.v : -1;
    return other >= 0 && w.status == Status::factory && c.parts[at(other)].kind != "battery";
  });
}

// Parts that only feed what is on another page go there too: contacts, splices.
void follow(const Circuit& c, std::vector<int>& group, Group to) {
  for (bool changed = true; changed;) {
    changed = false;
    for (std::size_t p = 0; p < c.parts.size(); ++p) {
      const Part& part = c.parts[p];
      if (group[p] == to || (part.kind != "contact" && !(part.kind == "splice" && part.status == Status::fitted))) continue;
      bool any = false, all = true;
      for (const Wire& w : c.wires) {
        if (w.from.part.v != static_cast<int>(p)) continue;
        any = true;
        all = all && group[at(w.to.part.v)] == to;
      }
      if (!any || !all) continue;
      group[p] = to;
      changed = true;
    }
  }
}

std::vector<int> groups(const Circuit& c, Apart wanted) {
  std::vector<int> out(c.parts.size(), lamps);
  if (wanted != Apart::nothing) {
    for (std::size_t p = 0; p < c.parts.size(); ++p) {
      const Part& part = c.parts[p];
      const bool apart = part.status == Status::fitted && (part.zone == Zone::run || part.zone == Zone::source) && part.kind != "module" &&
                         part.kind != "stud" && part.kind != "splice" && !has_factory_wire(c, static_cast<int>(p));
      if (apart) out[p] = auxiliaries;
    }
    follow(c, out, auxiliaries);
  }
  if (wanted == Apart::lamps || wanted == Apart::all)
    for (std::size_t p = 0; p < c.parts.size(); ++p)
      if (c.parts[p].status == Status::factory && c.parts[p].zone == Zone::source) out[p] = car;
  return out;
}

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

std::vector<PageCircuit> split(const Circuit& c, Apart apart) {
  std::vector<int> group = groups(c, apart);
  // Supply, auxiliaries and the car's own side on one page.
  const auto any = [&](Group g) { return std::find(group.begin(), group.end(), g) != group.end(); };
  const bool together = apart == Apart::lamps && any(auxiliaries) && any(car);
  if (together) std::replace(group.begin(), group.end(), static_cast<int>(car), static_cast<int>(auxiliaries));
  // The coach's loom and the studs have a share of every page that has a wire to them.
  const auto shared = [&](int p) { return c.parts[at(p)].kind == "coach-feed" || c.parts[at(p)].kind == "stud"; };
  std::vector<int> page_of_group(3, -1);
  std::vector<PageCircuit> out;
  const char* words[] = {"group-lamps", together ? "group-sources" : "group-auxiliaries", "group-car"};
  for (int g = 0; g < 3; ++g)
    for (std::size_t p = 0; p < c.parts.size() && page_of_group[at(g)] < 0; ++p)
      if (group[p] == g && !shared(static_cast<int>(p))) {
        page_of_group[at(g)] = static_cast<int>(out.size());
        out.push_back({words[g], {}, {}, {}, {}, {}});
      }
  const Points points = number_points(c);
  for (std::size_t n = 0; n < out.size(); ++n) {
    PageCircuit& page = out[n];
    if (out.size() == 1) page.group = "group-all";
    Circuit& mine = page.circuit;
    mine.nets = c.nets;
    mine.wire_series = c.wire_series;
    mine.wire_celsius = c.wire_celsius;
    std::map<int, int> here;   // part of the whole -> part of the page
    const auto page_of = [&](int p) { return page_of_group[at(group[at(p)])]; };
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
    for (std::size_t p = 0; p < c.parts.size(); ++p) {
      bool wanted = !shared(static_cast<int>(p)) && page_of(static_cast<int>(p)) == static_cast<int>(n);
      if (shared(static_cast<int>(p)))
        for (const Wire& w : c.wires)
          for (const bool from : {true, false})
            wanted = wanted || ((from ? w.from : w.to).part.v == static_cast<int>(p) && on_page(w, from) == static_cast<int>(n));
      if (wanted) add(static_cast<int>(p));
    }
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
