#include "size/size.hpp"

#include <algorithm>

#include "size/search.hpp"

namespace towloom {
namespace {

// What refuses the next smaller size of one group, the others kept.
std::string what_decided(Search& search, const Assignment& best, size_t group) {
  if (search.sizing.groups[group].given) return "given";
  if (best[group] == 0) return "minimum";
  Assignment smaller = best;
  set_size(search, smaller, search.sizing.groups[group].twin.value_or(group), best[group] - 1);
  const Trial trial = try_assignment(search, smaller, true);
  if (!trial.drop_ok) return "drop";
  if (!trial.ampacity_ok) return "ampacity";
  if (!trial.fuse_ok) return "fuse";
  return "drop";   // passes alone only where a dearer neighbour pays for it: the drop is shared
}

std::vector<SizeChoice> explain(Search& search, const Found& found, const Circuit& sized) {
  const Trial trial = try_assignment(search, *found.best, true);
  std::vector<SizeChoice> out;
  for (size_t g = 0; g < search.sizing.groups.size(); ++g) {
    const SizeGroup& group = search.sizing.groups[g];
    SizeChoice choice;
    choice.group = group.name;
    choice.wires = group.wires;
    choice.size = *sized.wires[static_cast<size_t>(group.wires.front().v)].size;
    if (!group.given && found.second) choice.runner_up = size_at(search, g, *found.second).name;
    choice.decided_by = what_decided(search, *found.best, g);
    choice.drop_v = trial.loads[g].drop_v;
    choice.drop_limit_v = search.sizing.drop_limit_v;
    choice.amps = trial.loads[g].amps;
    choice.ampacity_a = trial.loads[g].ampacity_a;
    choice.fuse_a = trial.loads[g].fuse.amps;
    choice.bears_a = trial.loads[g].bears_a;
    choice.fuse = trial.loads[g].fuse.fuse;
    choice.fuse_place = trial.loads[g].fuse.place;
    choice.worst = trial.loads[g].worst;
    choice.proved_minimal = found.proved;
    out.push_back(std::move(choice));
  }
  return out;
}

void report_none(const Search& search, const Trial& trial, const Spec& spec, Diagnostics& diagnostics) {
  const double limit = search.sizing.drop_limit_v;
  if (!trial.converged) {
    diagnostics.error("not-solved", spec.wire.place, "the circuit has no operating point with the largest wire");
  } else if (!trial.drop_ok) {
    diagnostics.error("drop-budget", spec.limits.drop_v ? spec.limits.drop_v->place : spec.wire.place,
                      "no wire of " + search.series.name + " keeps the drop: " + trial.worst + " loses " +
                          format_fixed(trial.worst_drop_v, 2) + " V, " +
                          format_fixed(trial.worst_drop_v - limit, 2) + " V more than the budget of " +
                          format_fixed(limit, 2) + " V",
                      "shorten the runs, give the given sizes more copper, or raise limits: drop");
  } else {
    diagnostics.error(trial.ampacity_ok ? "fuse-above-wire" : "ampacity", spec.wire.place,
                      std::string("no wire of ") + search.series.name + " bears the " +
                          (trial.ampacity_ok ? "fuse" : "current") + " of '" + trial.short_group + "' at " +
                          format_fixed(search.sizing.ambient, 0) + " °C");
  }
}

// Where every size is given there is nothing to choose: the figures are reported as they are.
bool anything_free(const Sizing& sizing) {
  return std::any_of(sizing.groups.begin(), sizing.groups.end(), [](const SizeGroup& g) { return !g.given; });
}

bool sizes_known(const Circuit& circuit, const Catalogue& catalogue, Diagnostics& diagnostics) {
  bool known = true;
  for (const Wire& wire : circuit.wires) {
    if (!wire.size || series_row(*wire.size, circuit, catalogue).size != nullptr) continue;
    diagnostics.error("unknown-size", wire.origin.job, "wire " + wire.id + ": no series has " + wire.size->text());
    known = false;
  }
  return known;
}

Sizing make_sizing(const Circuit& circuit, const Catalogue& catalogue, const Spec& spec, Diagnostics& diagnostics) {
  Sizing out{catalogue, {}, find_groups(circuit, catalogue, spec, diagnostics), 0, ambient_c(catalogue, spec), {},
             basis_of(spec, catalogue, diagnostics)};
  out.drop_limit_v = spec.limits.drop_v ? spec.limits.drop_v->value : catalogue.rule("drop_budget_v").value;
  for (Scene& scene : list_scenes(circuit, catalogue, spec))
    if (scene.kind == "towing") out.scenes.push_back(std::move(scene));
  return out;
}

}  // namespace

std::optional<Sized> size(Circuit circuit, const Catalogue& catalogue, const Spec& spec, Diagnostics& diagnostics) {
  const auto series = catalogue.wires.find(circuit.wire_series);
  if (series == catalogue.wires.end()) {
    diagnostics.error("wire-series", spec.wire.standard.place, "no wire series is called '" + circuit.wire_series + "'");
    return std::nullopt;
  }
  Diagnostics own;
  Sizing sizing = sizes_known(circuit, catalogue, own) ? make_sizing(circuit, catalogue, spec, own)
                                                       : Sizing{catalogue, {}, {}, 0, 0, {}, nullptr};
  for (const Diagnostic& d : own.all()) {
    if (d.severity == Severity::error) diagnostics.error(d.code, d.place, d.message, d.hint);
    else diagnostics.warning(d.code, d.place, d.message, d.hint);
  }
  if (own.has_errors()) return std::nullopt;

  Search search{circuit, sizing, series->second};
  Found found;
  if (anything_free(sizing)) {
    Trial most = try_assignment(search, largest(sizing), true);
    if (!most.drop_ok && !most.unlit.empty()) {
      sizing.unlit = most.unlit;
      most = try_assignment(search, largest(sizing), true);
    }
    if (!most.passes()) {
      report_none(search, most, spec, diagnostics);
      return std::nullopt;
    }
    found = enumerate(search);
  } else {
    found.best = Assignment(sizing.groups.size(), 0);
  }
  Sized out;
  out.circuit = with_sizes(search, *found.best);
  out.why = explain(search, found, out.circuit);
  note_basis(out.circuit, sizing);
  return out;
}

}  // namespace towloom
