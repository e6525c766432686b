// Readings that tell faults apart where the lamps do not: the meter's next place, and what each reading means.
#pragma once

#include "solve/faults.hpp"

namespace towloom {

struct Split {
  std::vector<int> faults;     // indices of FaultTable::rows that are still possible
  double volts = 0;            // the reading that led here, mean of its faults; of no meaning at the top
  TerminalRef at;              // where to read next, against body; without part: nothing tells these apart
  std::vector<Split> next;     // by falling volts
};
// For one class, in its first scene with a symptom, flash on: each reading leaves as few faults as can be in the
// worst case. Readings count as different beyond twice the catalogue's reading band; each is solved with the
// 10 Mohm meter attached. Coach-side terminals of mated contacts cannot be reached.
Split split_class(const Circuit&, const Catalogue&, const States&, const FaultTable&, const FaultClass&);

}  // namespace towloom
