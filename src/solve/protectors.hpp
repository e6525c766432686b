// Fuses, breakers and the coach's own fuses: what opens when a fault drives too much through it.
#pragma once

#include "solve/faults.hpp"

namespace towloom {

struct Protector {             // a fuse or breaker, or a coach feed by the fuse behind it
  PartId part;
  int element = 0;
  double opens_a = 0;
};
std::vector<Protector> find_protectors(const Circuit&, const Catalogue&);
// Index of the first that carries its opening current in this phase; -1 = none does.
int find_overloaded(const std::vector<Protector>&, const Phase&);
Fault opened(const Protector&);
constexpr int most_blown = 8;   // rounds of opening fuses in one scene

}  // namespace towloom
