// What the files of this room share.
#pragma once

#include <set>
#include <utility>

#include "size/protect.hpp"
#include "size/size.hpp"

namespace towloom {

// How the current reaches one lamp from the coach's outlet in one phase.
struct LampPath {
  bool found = false;
  double drop_v = 0;             // outlet volts - lamp volts - isolating elements
  std::vector<WireId> wires;     // feed side only, from the lamp back to the outlet
};
// The phase in which the lamp has most volts; nothing found when its coach signal is off.
LampPath find_lamp_path(const Circuit&, const Points&, const LampIntent&, const Scene&, const Solved&);

// Wires that share one size. `choices` are indices into the series, in rising area, that the contacts
// they end in accept.
struct SizeGroup {
  std::string name;
  std::vector<WireId> wires;
  bool given = false, ground = false;
  double length_m = 0;
  std::vector<Protection> fuses;  // by wire
  int bundle = 1;                // its fullest
  int beside = 0;                // loaded conductors beside its runs that own none: a ribbon's ground
  std::vector<int> choices;
  std::optional<std::size_t> twin;   // its other side, which stands before it: both are one size
};
std::vector<SizeGroup> find_groups(const Circuit&, const Catalogue&, const Spec&, Diagnostics&);

double ambient_c(const Catalogue&, const Spec&);
// The basis that the job asks for; nullptr = the usual one of each wire's series. A warning where it is from memory.
const AmpacityBasis* basis_of(const Spec&, const Catalogue&, Diagnostics&);
// Table x bundling x sqrt((Tins - Tamb) / (Tins - 30)), Tins being the table's column: electrical.md 2.1
// reproduces the published factors within 0.006.
double ampacity_of(const WireSize&, double insulation_c, const AmpacityBasis&, int bundle, double ambient_c);
// The row that bears this name, with its series; the circuit's own series first; nullptr when unknown.
struct FoundSize {
  const WireSeries* series = nullptr;
  const WireSize* size = nullptr;
};
FoundSize series_row(const WireSizeName&, const Circuit&, const Catalogue&);

// The worst of one group over all scenes.
struct GroupLoad {
  double drop_v = 0, amps = 0, ampacity_a = 0;
  Protection fuse;               // the one that its wire bears worst
  double bears_a = 0;            // what that wire bears
  std::string worst;
};
using SceneLamp = std::pair<std::string, int>;   // name of a scene, index of Circuit::lamps
struct Trial {                   // one assignment, solved
  bool converged = true, drop_ok = true, ampacity_ok = true, fuse_ok = true;
  bool passes() const { return converged && drop_ok && ampacity_ok && fuse_ok; }
  std::vector<GroupLoad> loads;  // by group
  double worst_drop_v = 0;
  std::string worst;             // "tail + left: left rear stop-turn"
  std::string short_group;       // a group whose wire bears too little
  // Of the first requirement that failed: the groups on its way, and the volts or amps that are too many.
  std::vector<char> blamed;
  double too_many = 0;
  std::set<SceneLamp> unlit;     // over the budget, but no light: a little current that comes some other way
};
struct Sizing {
  const Catalogue& catalogue;
  std::vector<Scene> scenes;     // towing
  std::vector<SizeGroup> groups;
  double drop_limit_v = 0, ambient = 30;
  std::set<SceneLamp> unlit;     // with the largest wires: what is dark there is no matter of copper, and for the checks
  const AmpacityBasis* basis = nullptr;   // nullptr: that of each wire's series
  double bears(const FoundSize&, int bundle) const;   // A
};
// A rule that is known from memory only is named among what the circuit assumes, beside the figures that follow from it.
void note_basis(Circuit&, const Sizing&);
// `whole` = every scene and every load; otherwise it stops at the first scene that fails.
Trial try_sizes(const Circuit&, const Sizing&, bool whole, size_t& first_scene);

}  // namespace towloom
