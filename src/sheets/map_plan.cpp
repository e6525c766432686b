#include "sheets/map_plan.hpp"

#include <algorithm>
#include <set>

#include "sheets/names.hpp"

namespace towloom::map {
namespace {

struct Maker {
  const Facts& facts;
  const Style& style;
  Plan plan = {};

  const Circuit& circuit() const { return facts.circuit(); }
  const Spec& spec() const { return facts.spec; }

  std::string place_of(const Part& part) const { return part.kind == "battery" ? "battery" : part.place; }
  std::string name_of(const std::string& place) const {
    const std::string at = place == "inlet" ? spec().car.inlet.at : place == "battery" ? spec().car.battery : "";
    return at.empty() || at == place ? place : place + ", " + at;
  }
  int spot(const std::string& place) {
    for (std::size_t s = 0; s < plan.spots.size(); ++s)
      if (plan.spots[s].place == place) return static_cast<int>(s);
    Spot out;
    out.place = place;
    out.name = name_of(place);
    out.at = standing_of(place == "battery" ? spec().car.battery : place, spec(), style);
    plan.spots.push_back(std::move(out));
    return static_cast<int>(plan.spots.size()) - 1;
  }
  Spot& at(int s) { return plan.spots[static_cast<std::size_t>(s)]; }
  const Part& end(TerminalRef t) const { return circuit().part(t.part); }
};

const GroundRow* ground_row(const Spec& spec, const Part& stud) {
  for (const GroundRow& g : spec.grounds)
    if (g.name.value == stud.id) return &g;
  return nullptr;
}

// What the fitter meets there: what is fitted, and of the car's own what the job tells the place of.
bool shown(const Maker& m, const Part& part, const std::set<int>& landing, int index) {
  if (part.place.empty() || part.kind == "joint" || part.kind == "contact" || part.kind == "cut") return false;
  if (part.kind == "lamp" || part.kind == "battery") return true;
  if (part.kind == "stud") return ground_row(m.spec(), part) != nullptr || landing.count(index) != 0;
  return part.status == Status::fitted;
}

void add_parts(Maker& m) {
  std::set<int> landing;   // parts at which a new wire ends
  for (const Wire& w : m.circuit().wires)
    if (is_new(w)) landing.insert({w.from.part.v, w.to.part.v});
  for (std::size_t p = 0; p < m.circuit().parts.size(); ++p) {
    const Part& part = m.circuit().parts[p];
    if (part.kind == "contact" && part.zone == Zone::inlet) {
      std::vector<std::string>& inlets = m.at(m.spot("inlet")).inlets;
      if (std::find(inlets.begin(), inlets.end(), part.group) == inlets.end()) inlets.push_back(part.group);
    }
    if (!shown(m, part, landing, static_cast<int>(p))) continue;
    Spot& spot = m.at(m.spot(m.place_of(part)));
    spot.parts.push_back({static_cast<int>(p)});
    if (part.kind != "stud") continue;
    if (const GroundRow* row = ground_row(m.spec(), part)) {   // its own words first, then what it serves
      const std::string beside = row->beside ? row->beside->value : row->takes ? "inlet" : "";
      if (!beside.empty() && !spot.at.known()) spot.at = standing_of(beside, m.spec(), m.style);
    }
  }
  for (std::size_t c = 0; c < m.circuit().cuts.size(); ++c) {
    const CutPoint& cut = m.circuit().cuts[c];
    const auto wire = [&](WireId id) -> const Wire& { return m.circuit().wires[static_cast<std::size_t>(id.v)]; };
    std::string place = cut.car_side ? m.end(wire(cut.car_side).to).place : "";
    if (place.empty() && cut.lamp_side) place = m.end(wire(cut.lamp_side).from).place;
    if (!place.empty()) m.at(m.spot(place)).cuts.push_back(static_cast<int>(c));
  }
}

// A wire's way as the spots that it comes by; `leads`: how many stretches lie in no run.
struct Walk {
  std::vector<std::pair<int, std::pair<int, int>>> stretches;   // run or -1, its two spots
  int leads = 0;
};
Walk walk(Maker& m, int from, int to, const std::vector<int>& runs) {
  Walk out;
  int here = from;
  const auto lead = [&](int there) {
    if (here == there) return;
    out.stretches.push_back({-1, {here, there}});
    ++out.leads;
    here = there;
  };
  for (std::size_t r = 0; r < runs.size(); ++r) {
    const Way& way = m.plan.ways[static_cast<std::size_t>(runs[r])];
    if (here != way.from && here != way.to) {   // begins beside the run: at the end from which it goes on
      bool leave_by_to = true;
      if (r + 1 < runs.size()) {
        const Way& next = m.plan.ways[static_cast<std::size_t>(runs[r + 1])];
        leave_by_to = way.to == next.from || way.to == next.to;
      } else {
        leave_by_to = way.from != to;
      }
      lead(leave_by_to ? way.from : way.to);
    }
    const int there = here == way.from ? way.to : way.from;
    out.stretches.push_back({runs[r], {here, there}});
    here = there;
  }
  lead(to);
  return out;
}

void add_wire(Maker& m, std::size_t index) {
  const Wire& w = m.circuit().wires[index];
  if (!is_new(w) || is_core(w) || m.end(w.from).place.empty() || m.end(w.to).place.empty()) return;
  const WireId id{static_cast<int>(index)};
  std::vector<int> runs;
  for (const std::string& name : w.runs)
    for (std::size_t r = 0; r < m.spec().runs.size(); ++r)
      if (m.spec().runs[r].name.value == name) runs.push_back(static_cast<int>(r));
  const int from = m.spot(m.place_of(m.end(w.from))), to = m.spot(m.place_of(m.end(w.to)));
  Walk best = walk(m, from, to, runs);
  std::reverse(runs.begin(), runs.end());   // a return's runs are written from its root
  if (Walk back = walk(m, from, to, runs); back.leads < best.leads) best = std::move(back);
  for (const auto& [run, ends] : best.stretches) {
    if (run >= 0) {
      m.plan.ways[static_cast<std::size_t>(run)].wires.push_back(id);
    } else {
      const auto [a, b] = std::minmax(ends.first, ends.second);
      auto way = std::find_if(m.plan.ways.begin(), m.plan.ways.end(), [&, one = a, other = b](const Way& x) { return x.run == nullptr && x.from == one && x.to == other; });
      if (way == m.plan.ways.end()) way = m.plan.ways.insert(m.plan.ways.end(), {nullptr, a, b, {}});
      way->wires.push_back(id);
    }
    if (ends.second != to) m.at(ends.second).passing.push_back(id);
  }
}

// A place whose name tells nothing stands between its neighbours along the runs.
void stand_between(Plan& plan) {
  for (std::size_t round = 0; round < plan.spots.size(); ++round)
    for (std::size_t s = 0; s < plan.spots.size(); ++s) {
      if (plan.spots[s].at.known()) continue;
      double along = 0, across = 0;
      int known = 0;
      for (const Way& way : plan.ways) {
        if (way.from != static_cast<int>(s) && way.to != static_cast<int>(s)) continue;
        const Standing& other = plan.spots[static_cast<std::size_t>(way.from == static_cast<int>(s) ? way.to : way.from)].at;
        if (!other.known()) continue;
        along += other.along, across += other.across;
        ++known;
      }
      if (known == 0) continue;
      plan.spots[s].at.along = along / known;
      if (plan.spots[s].at.across == 0) plan.spots[s].at.across = across / known;
    }
  for (Spot& s : plan.spots)
    if (!s.at.known()) s.at.along = 0.5, s.unsure = true;
}

// Studs stand aside, so that the ways along the sides stay straight.
void set_studs_aside(Plan& plan, const Circuit& circuit) {
  for (Spot& s : plan.spots) {
    const bool studs = !s.parts.empty() && std::all_of(s.parts.begin(), s.parts.end(), [&](PartId id) { return circuit.part(id).kind == "stud"; });
    if (studs && s.at.across != 0) s.at = {s.at.along - 0.07, s.at.across * 0.5};
  }
}

void sort_spots(Plan& plan) {
  std::vector<int> order(plan.spots.size()), rank(plan.spots.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    const Standing &x = plan.spots[static_cast<std::size_t>(a)].at, &y = plan.spots[static_cast<std::size_t>(b)].at;
    return x.along != y.along ? x.along < y.along : x.across > y.across;
  });
  std::vector<Spot> sorted;
  for (std::size_t i = 0; i < order.size(); ++i) {
    rank[static_cast<std::size_t>(order[i])] = static_cast<int>(i);
    sorted.push_back(std::move(plan.spots[static_cast<std::size_t>(order[i])]));
  }
  plan.spots = std::move(sorted);
  for (Way& way : plan.ways) way.from = rank[static_cast<std::size_t>(way.from)], way.to = rank[static_cast<std::size_t>(way.to)];
}

}  // namespace

Plan make_plan(const Facts& facts, const Style& style) {
  Maker m{facts, style};
  for (const RunRow& run : facts.spec.runs) {
    const int from = m.spot(run.from.value), to = m.spot(run.to.value);
    m.plan.ways.push_back({&run, from, to, {}});
  }
  add_parts(m);
  for (std::size_t w = 0; w < facts.circuit().wires.size(); ++w) add_wire(m, w);
  stand_between(m.plan);
  set_studs_aside(m.plan, facts.circuit());
  sort_spots(m.plan);
  return std::move(m.plan);
}

}  // namespace towloom::map
