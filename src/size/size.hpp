// Wire sizes: the least copper that passes the solved scenes; and what decided.
#pragma once

#include <string>
#include <vector>

#include "solve/solve.hpp"

namespace towloom {

struct SizeChoice {
  std::string group;              // size group
  std::vector<WireId> wires;
  WireSizeName size, runner_up;   // runner_up: the next assignment in cost for this group
  std::string decided_by;         // drop | ampacity | fuse | minimum | given
  double drop_v = 0, drop_limit_v = 0;       // worst lamp path: wire, contacts and return
  double amps = 0, ampacity_a = 0;           // worst wire, after bundling and ambient
  double fuse_a = 0;                         // the largest fuse before it; 0 = none known
  double bears_a = 0;                        // what its most crowded wire bears
  std::string fuse;                          // "FU2, 15 A,": which one
  Place fuse_place;
  std::string worst;              // "tail + left + right: right stop/turn"
  bool proved_minimal = true;
};
struct Sized {
  Circuit circuit;                // every size set
  std::vector<SizeChoice> why;
};
// Wire, contacts and return lost between the coach's outlet and each lamp in `scene`, isolating
// elements apart, V, by Circuit::lamps index (0 where dark).
std::vector<double> path_drop(const Circuit&, const Catalogue&, const Scene&, const Solved&);

// Enumerates assignments of size groups in rising Σ length × area; the first that passes every
// towing scene is the minimum. Errors when none passes, naming the lamp and the volts missing.
std::optional<Sized> size(Circuit, const Catalogue&, const Spec&, Diagnostics&);

}  // namespace towloom
