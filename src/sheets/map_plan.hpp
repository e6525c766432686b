// The plan map before it is drawn: what is at which place of the car, and which wires lie between.
#pragma once

#include <string>
#include <vector>

#include "check/check.hpp"
#include "drawing/style.hpp"

namespace towloom::map {

// On the car from above. along: 0 at the nose, 1 at the tail. across: -1 at the right edge of the vehicle, 1 at the left.
struct Standing {
  double along = -1, across = 0;
  bool known() const { return along >= 0; }
};
struct Spot {                    // one place
  std::string place;             // as the job names it: "left rear"
  std::string name;              // printed: "battery, engine bay left"
  Standing at;
  bool unsure = false;           // neither its name nor its runs tell where: it stands amidships
  std::vector<std::string> inlets;   // J2, J4 where connectors sit here
  std::vector<PartId> parts;     // fitted for towing, and the grounds, lamps and battery that are there
  std::vector<int> cuts;         // of the circuit, whose ends land here
  std::vector<WireId> passing;   // wires that come by one run and leave by another
};
struct Way {                     // a run; or what joins two places outside the runs: a ground's lead, a plate lamp's
  const RunRow* run = nullptr;
  int from = 0, to = 0;          // spots
  std::vector<WireId> wires;
};
struct Plan {
  std::vector<Spot> spots;       // from front to rear, at the same length from left to right of the vehicle
  std::vector<Way> ways;         // runs in the job's order, then leads
};
Plan make_plan(const Facts&, const Style&);

// Where a place stands by the words of its name; nothing known where it has none of them.
Standing standing_of(const std::string& place, const Spec&, const Style&);

}  // namespace towloom::map
