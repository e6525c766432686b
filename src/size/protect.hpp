// Which fuse stands between a wire and the sources that can feed a fault in it.
#pragma once

#include "circuit/circuit.hpp"

namespace towloom {

// Over all sources the largest fuse that a fault current must pass; where a source reaches the wire without
// any fuse, `open` is set; of a lead from a source to a fuse `amps` is that fuse, whose current it must carry. Behind a
// unit (kind load) its return counts as its feed does; behind lamps and coils nothing reaches a wire: amps 0, open false.
struct Protection {
  double amps = 0;
  bool open = false;
  std::string fuse;            // "the coach's 20 A fuse", "FU2"
  Place place;
};
// Amps of a fuse or breaker; nothing for any other part.
std::optional<double> fuse_rating(const Part&);
// The smallest fuse of the catalogue that is rated for at least so many amps; the largest where none is.
double next_fuse(const Catalogue&, double amps);
std::vector<Protection> find_protection(const Circuit&, const Spec&);   // by wire

}  // namespace towloom
