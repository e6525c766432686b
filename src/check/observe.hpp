// What was seen or read at the car, as a change of the intended circuit.
#pragma once

#include "catalogue/catalogue.hpp"
#include "solve/faults.hpp"

namespace towloom {

struct LooseCore {             // a core that was found to end where this job uses no contact
  WireId core;
  std::string inlet, on;       // "J2"; its contact as the row names it, or "nothing"
};
struct Observed {
  const AsFoundRow* row = nullptr;
  std::string about;           // id of the part or wire
  std::string seen;            // "on plastic", "loses 0.9 V at 1.9 A"
  std::string should;          // "on bare steel", "0.01 V at 1.9 A"; as the intended circuit has it
  Fault fault;                 // its changes; kind and at of the known single fault that it is, "" where it is none
  PartId missing;              // a part that is not there: its wires are joined
  std::vector<LooseCore> loose;
};
// Of every row of as found:, in the job's order; rows that this circuit cannot have are errors and left out.
std::vector<Observed> read_observations(const Spec&, const Circuit& intended, const Catalogue&, Diagnostics&);
// Cores as metered, outlet's contact to inlet's, as exchanges of their ends; what ends where this job has no contact is
// open, and in `loose`.
std::vector<Change> cores_as_metered(const Circuit&, const Plug&, const AsFoundRow&, std::vector<LooseCore>& loose, Diagnostics&);
// "2.5 Mohm", "0.8 ohm", "5 mohm": as a fitter reads it.
std::string ohm_text(double ohm);
// What stands in the intended circuit where this was seen.
std::string should_be(const Observed&, const std::vector<Plug>&, const Spec&, const Circuit& intended, const Catalogue&);
Circuit with_observed(Circuit, const Observed&, const Catalogue&);

}  // namespace towloom
