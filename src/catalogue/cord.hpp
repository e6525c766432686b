// The cord of one job, core by core: the circuit follows it, the continuity table prints it.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "catalogue/mating.hpp"

namespace towloom {

struct CordCore {
  const ConnectorContact* from = nullptr;      // of the outlet
  const ConnectorContact* to = nullptr;        // of the inlet; nullptr: metered, and it leads nowhere
  std::string note;                            // "one tail lead feeds both sides"
  const ConnectorContact* belongs = nullptr;   // where it should end, if it is crossed or open
  bool crossed = false;
  Place place;                                 // in the job
};
struct JobCord {
  std::vector<CordCore> cores;                               // in the order of the outlet's contacts
  std::vector<const ConnectorContact*> only_outlet, only_inlet;   // without a core
  std::map<std::string, std::string> carries;  // outlet's contact number -> what the coach puts on it
  std::map<std::string, std::string> meant;    // inlet's contact number -> what the car takes from it
  // A core between these contacts brings what is meant to arrive.
  bool right(const ConnectorContact& from, const ConnectorContact& to) const;
  CordMap map;                                 // the cord as it should be
};
// As it should be: function by function, or as metered where that brings what is meant.
// As it lies: with the cores that were metered crossed or open.
enum class Lies { as_it_should, as_metered };
// `plug`: which one, 0 = the main one; outlet and inlet are its own.
JobCord job_cord(const Spec&, const Connector& outlet, const Connector& inlet, Lies = Lies::as_metered, int plug = 0);

// Name of the allocation in which an outlet or inlet as found keeps what its form has on the contacts.
inline constexpr const char* as_made_key = "as made";

// The row of the survey about this contact of that plug's outlet; nullptr if it was not tested.
const FoundContact* found_row(const Coach&, const ConnectorContact&, int plug = 0);

}  // namespace towloom
