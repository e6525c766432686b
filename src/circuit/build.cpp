#include <algorithm>
#include <limits>
#include <queue>
#include <set>

#include "circuit/builder.hpp"

namespace towloom {

Side side_of_place(const std::string& place) {
  const auto has = [&](const char* word) {
    const std::string padded = " " + place + " ";
    return padded.find(" " + std::string(word) + " ") != std::string::npos;
  };
  return has("left") ? Side::left : has("right") ? Side::right : Side::centre;
}

void Builder::assume(const std::string& what, const std::string& why, const char* rule_name) {
  circuit.assumed.push_back({what, why, rule_name == nullptr ? Provenance{} : catalogue.rule(rule_name).provenance});
}

PartId Builder::add(Part part) {
  circuit.parts.push_back(std::move(part));
  return PartId{static_cast<int>(circuit.parts.size()) - 1};
}

namespace {

// By what its screw bites in, where the survey says so.
double stud_ohm(Builder& b, const std::string& id) {
  const auto row = std::find_if(b.spec.grounds.begin(), b.spec.grounds.end(), [&](const GroundRow& g) { return g.name.value == id; });
  if (row == b.spec.grounds.end() || !row->on) return b.rule("stud_ohm");
  if (const auto known = b.catalogue.surfaces.find(row->on->value); known != b.catalogue.surfaces.end()) return known->second.ohm;
  std::string list;
  for (const auto& [name, surface] : b.catalogue.surfaces) list += (list.empty() ? "" : ", ") + name;
  b.diagnostics.error("unknown-surface", row->on->place, "no surface '" + row->on->value + "' in the catalogue", "known: " + list);
  return b.rule("stud_ohm");
}

}  // namespace

PartId Builder::add_stud(const std::string& id, const std::string& place, Side side, Zone zone, Status status, Origin origin) {
  if (const PartId old = circuit.find(id)) return old;
  Part p;
  p.id = id;
  p.kind = "stud";
  p.title = id;
  p.value = place;
  p.place = place;
  p.joins = "body";
  p.side = side;
  p.zone = zone;
  p.status = status;
  p.terminals = {"1", "body"};
  p.elements = {resistor(0, 1, stud_ohm(*this, id))};
  p.origin = origin;
  return add(std::move(p));
}

PartId Builder::add_splice(const std::string& id, const std::string& place, Side side, Zone zone, Status status) {
  Part p;
  p.id = id;
  p.kind = "splice";
  p.place = place;
  p.side = side;
  p.zone = zone;
  p.status = status;
  p.terminals = {"1"};
  return add(std::move(p));
}

PartId Builder::add_fitted_splice(const std::string& place, const std::string& function) {
  std::string name;
  do name = "S" + std::to_string(++splices);   // a switch may bear the number
  while (circuit.find(name));
  const PartId id = add_splice(name, place, side_of_place(place), Zone::pocket, Status::fitted);
  circuit.parts[static_cast<std::size_t>(id.v)].function = function;
  return id;
}

int Builder::add_net(Net net) {
  nets.push_back(std::move(net));
  return static_cast<int>(nets.size()) - 1;
}

TerminalRef Builder::leg_from(const Leg& leg) const { return trunks[static_cast<std::size_t>(leg.trunk)].joint; }

double Builder::leg_length(const Leg& leg) const {
  const double along = distance("inlet", leg.place);
  if (along >= 0) return along;
  double longest = 0;  // a lamp that no run reaches: as far as the farthest place that one does
  for (const RunRow& run : spec.runs) longest = std::max(longest, distance("inlet", run.to.value));
  return longest;
}

WireId Builder::add_wire(Wire wire) {
  if (wire.id.empty())
    wire.id = wire.status == Status::fitted ? "W" + std::to_string(++fitted_wires) : "F" + std::to_string(++factory_wires);
  circuit.wires.push_back(std::move(wire));
  return WireId{static_cast<int>(circuit.wires.size()) - 1};
}

WireId Builder::factory_wire(TerminalRef from, TerminalRef to, const SizedColour& colour, double length_m, Origin origin) {
  Wire w;
  w.from = from;
  w.to = to;
  w.colour = colour.colour.value;
  w.status = Status::factory;
  w.length_m = length_m;
  w.origin = origin;
  w.size = colour.size ? colour.size->value : WireSizeName{"0.75", WireSizeName::System::mm2};
  w.size_fixed = true;
  w.group = "factory";
  return add_wire(std::move(w));
}

double Builder::distance(const std::string& from, const std::string& to) const {
  if (runs_at.empty())
    for (const RunRow& run : spec.runs)
      for (const PlacedText* end : {&run.from, &run.to}) runs_at[end->value].push_back(&run);
  const auto [known, fresh] = distances.try_emplace(from);
  std::map<std::string, double>& best = known->second;
  if (fresh) {
    best[from] = 0;
    std::set<std::pair<double, std::string>> open{{0, from}};
    while (!open.empty()) {
      const auto [length, place] = *open.begin();
      open.erase(open.begin());
      if (length > best.at(place)) continue;   // a shorter way was found since
      for (const RunRow* run : runs_at[place]) {
        const std::string& next = run->from.value == place ? run->to.value : run->from.value;
        const double through = length + run->length_m.value;
        const auto there = best.find(next);
        if (there != best.end() && there->second <= through) continue;
        best[next] = through;
        open.emplace(through, next);
      }
    }
  }
  const auto found = best.find(to);
  return found == best.end() ? -1 : found->second;
}

namespace {

// A size for a circuit that the job has not is a slip of the pen.
void check_groups(Builder& b) {
  std::vector<std::string> known = {"lamps"};
  for (const Wire& w : b.circuit.wires)
    if (w.status == Status::fitted) known.push_back(w.circuit);
  for (const auto& [group, size] : b.spec.wire.size) {
    if (std::find(known.begin(), known.end(), group) != known.end()) continue;
    const std::string near = did_you_mean(group, known);
    const auto place = b.spec.wire.named.find(group);
    b.diagnostics.error("wire-circuit", place == b.spec.wire.named.end() ? b.spec.wire.place : place->second,
                        "no new wire of this job belongs to '" + group + "'", near.empty() ? "" : "did you mean '" + near + "'?");
  }
}

void gather_signals(Circuit& circuit) {
  std::set<std::string> signals;
  for (const Part& part : circuit.parts)
    for (const Element& e : part.elements)
      if (!e.signal.empty()) signals.insert(e.signal);
  circuit.signals.assign(signals.begin(), signals.end());
}

}  // namespace

std::optional<Circuit> build(const Spec& spec, const Catalogue& catalogue, Diagnostics& diagnostics) {
  if (!check_names(spec, catalogue, diagnostics)) return std::nullopt;
  Diagnostics own;
  Builder b(spec, catalogue, own);
  b.circuit.wire_series = spec.wire.standard.value;
  b.circuit.wire_celsius = spec.limits.ambient_c ? spec.limits.ambient_c->value : b.rule("conductor_c");
  find_recipes(b);
  build_coach(b);
  build_lamps(b);
  build_factory(b);
  if (!own.has_errors()) build_isolation(b);
  if (!own.has_errors()) build_harness(b);
  if (!own.has_errors()) check_groups(b);
  for (const Diagnostic& d : own.all()) {
    if (d.severity == Severity::error)
      diagnostics.error(d.code, d.place, d.message, d.hint);
    else
      diagnostics.warning(d.code, d.place, d.message, d.hint);
  }
  if (own.has_errors()) return std::nullopt;
  add_probes(b);
  gather_signals(b.circuit);
  number_nets(b.circuit);
  return std::move(b.circuit);
}

}  // namespace towloom
