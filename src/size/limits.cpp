#include <algorithm>
#include <cmath>
#include <set>

#include "size/parts.hpp"

namespace towloom {
namespace {

// Area that the contacts at a wire's ends ask for at least; 0 when they ask for nothing.
double least_area(const Wire& wire, const Circuit& circuit, const Catalogue& catalogue) {
  double area = 0;
  for (const TerminalRef& end : {wire.from, wire.to}) {
    const Part& part = circuit.part(end.part);
    const auto connector = catalogue.connectors.find(part.model);
    if (part.kind != "contact" || connector == catalogue.connectors.end()) continue;
    const ConnectorContact* contact = connector->second.contact(part.contact);
    if (contact == nullptr || contact->minimum_size.empty()) continue;
    const auto name = parse_wire_size(contact->minimum_size);
    const FoundSize found = name ? series_row(*name, circuit, catalogue) : FoundSize{};
    if (found.size != nullptr) area = std::max(area, found.size->area_mm2);
  }
  return area;
}

// A ribbon's ground lies beside the others for as far as they go together, though it leaves at its own stud.
void count_ground(SizeGroup& group, const Circuit& circuit) {
  bool along = false, beside = false;
  for (const WireId id : group.wires) {
    const Wire& wire = circuit.wires[static_cast<size_t>(id.v)];
    if (wire.circuit == "ground") beside = beside || (wire.runs.empty() && wire.status == Status::fitted);
    else along = along || !wire.runs.empty();
  }
  if (!along || !beside) return;
  group.beside = 1;
  ++group.bundle;
}

// A size that one wire of the group was given holds for all of them.
void spread_given(SizeGroup& group, const Circuit& circuit, Diagnostics& diagnostics) {
  const Wire* first = nullptr;
  for (const WireId id : group.wires) {
    const Wire& wire = circuit.wires[static_cast<size_t>(id.v)];
    if (!wire.size) continue;
    if (first != nullptr && *first->size != *wire.size)
      diagnostics.error("group-two-sizes", wire.origin.job,
                        "wires " + first->id + " (" + first->size->text() + ") and " + wire.id + " (" +
                            wire.size->text() + ") of '" + group.name + "' must be one size");
    if (first == nullptr) first = &wire;
  }
  group.given = first != nullptr;
}

void find_choices(SizeGroup& group, const Circuit& circuit, const Catalogue& catalogue) {
  const WireSeries& series = catalogue.wires.at(circuit.wire_series);
  double area = catalogue.rule("least_new_mm2").value;
  for (const WireId id : group.wires)
    area = std::max(area, least_area(circuit.wires[static_cast<size_t>(id.v)], circuit, catalogue));
  for (size_t s = 0; s < series.sizes.size(); ++s)
    if (series.sizes[s].area_mm2 > area * (1 - 1e-6)) group.choices.push_back(static_cast<int>(s));
}

void add_wire(std::vector<SizeGroup>& groups, const Wire& wire, int index, const Protection& protection) {
  const std::string name = wire.group.empty() ? wire.id : wire.group;
  auto at = std::find_if(groups.begin(), groups.end(), [&](const SizeGroup& g) { return g.name == name; });
  if (at == groups.end()) {
    groups.push_back({});
    at = groups.end() - 1;
    at->name = name;
  }
  at->wires.push_back({index});
  at->length_m += wire.length_m;
  at->fuses.push_back(protection);
  at->bundle = std::max(at->bundle, wire.bundle);
  at->ground = at->ground || wire.circuit == "ground";
}

// Left and right are laid in one size, but where the job gives one of them another.
void pair_twins(std::vector<SizeGroup>& groups) {
  const std::string left = "left", right = "right";
  for (size_t g = 0; g < groups.size(); ++g)
    for (const auto& [side, other] : {std::pair{left, right}, std::pair{right, left}}) {
      if (groups[g].given || groups[g].name.rfind(side, 0) != 0) continue;
      const std::string name = other + groups[g].name.substr(side.size());
      for (size_t before = 0; before < g; ++before) {
        SizeGroup& twin = groups[before];
        if (twin.given || twin.name != name) continue;
        groups[g].twin = before;
        std::vector<int> both;
        std::set_intersection(twin.choices.begin(), twin.choices.end(), groups[g].choices.begin(), groups[g].choices.end(), std::back_inserter(both));
        twin.choices = groups[g].choices = both;
      }
    }
}

}  // namespace

std::vector<SizeGroup> find_groups(const Circuit& circuit, const Catalogue& catalogue, const Spec& spec,
                                   Diagnostics& diagnostics) {
  std::vector<SizeGroup> groups;
  const std::vector<Protection> protection = find_protection(circuit, spec);
  for (size_t w = 0; w < circuit.wires.size(); ++w) {
    const Wire& wire = circuit.wires[w];
    if (wire.fixed_ohm >= 0) continue;
    if (wire.status == Status::factory) {
      if (!wire.size)
        diagnostics.error("factory-size", wire.origin.job, "factory wire " + wire.id + " has no size",
                          "state the size behind its colour, like GY/VT 0.75 mm2");
      continue;
    }
    add_wire(groups, wire, static_cast<int>(w), protection[w]);
  }
  for (SizeGroup& group : groups) {
    count_ground(group, circuit);
    spread_given(group, circuit, diagnostics);
    if (group.given) continue;
    find_choices(group, circuit, catalogue);
    if (group.choices.empty())
      diagnostics.error("no-size", circuit.wires[static_cast<size_t>(group.wires.front().v)].origin.job,
                        "the series " + circuit.wire_series + " has no wire as large as the contacts of '" +
                            group.name + "' ask for");
  }
  pair_twins(groups);
  return groups;
}

double ambient_c(const Catalogue& catalogue, const Spec& spec) {
  return spec.limits.ambient_c ? spec.limits.ambient_c->value : catalogue.rule("ambient_c").value;
}

const AmpacityBasis* basis_of(const Spec& spec, const Catalogue& catalogue, Diagnostics& diagnostics) {
  if (!spec.wire.basis) return nullptr;
  const AmpacityBasis& out = catalogue.ampacity.at(spec.wire.basis->value);
  if (out.weak())
    diagnostics.warning("from-memory", spec.wire.basis->place, "the figures of " + out.title + " are from memory",
                        "compare with the standard, or take 33 CFR");
  return &out;
}

double ampacity_of(const WireSize& size, double insulation_c, const AmpacityBasis& basis, int bundle, double ambient) {
  const int column = basis.column(insulation_c);
  if (column < 0) return 0;
  double factor = 1;
  for (const Bundling& row : basis.bundling)
    if (bundle >= row.from) factor = bundle <= row.to ? row.factor : std::min(factor, row.factor);
  const double class_c = basis.insulation_c[static_cast<size_t>(column)], room = (class_c - ambient) / (class_c - 30.0);
  return room <= 0 ? 0.0 : basis.amps(size, insulation_c) * factor * std::sqrt(room);
}

double Sizing::bears(const FoundSize& found, int bundle) const {
  const AmpacityBasis& by = basis != nullptr ? *basis : catalogue.ampacity.at(found.series->basis);
  return ampacity_of(*found.size, found.series->insulation_c, by, bundle, ambient);
}

void note_basis(Circuit& circuit, const Sizing& sizing) {
  std::set<std::string> said;
  for (const SizeGroup& group : sizing.groups)
    for (const WireId id : group.wires) {
      const FoundSize found = series_row(*circuit.wires[static_cast<size_t>(id.v)].size, circuit, sizing.catalogue);
      const AmpacityBasis& by = sizing.basis != nullptr ? *sizing.basis : sizing.catalogue.ampacity.at(found.series->basis);
      if (by.weak() && said.insert(by.name).second)
        circuit.assumed.push_back({"what wires may carry", by.title + "; compare with the standard", by.provenance.weak() ? by.provenance : by.bundling_provenance});
    }
}

FoundSize series_row(const WireSizeName& name, const Circuit& circuit, const Catalogue& catalogue) {
  // Metric names belong to the metric series, gauge numbers to the circuit's own or to AWG.
  const char* other = name.system == WireSizeName::System::mm2 ? "ISO" : "AWG";
  for (const std::string& title : {circuit.wire_series, std::string(other)}) {
    const auto found = catalogue.wires.find(title);
    if (found == catalogue.wires.end()) continue;
    if (const WireSize* size = found->second.find(name)) return {&found->second, size};
  }
  return {};
}

}  // namespace towloom
