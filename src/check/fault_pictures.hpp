// Single faults by what they show: pictures that the lamps cannot tell apart, and readings that do.
#pragma once

#include "check/check.hpp"

namespace towloom {

struct FaultReading {
  int depth = 0;               // follows the last reading of less depth
  double volts = 0;            // against body, 10 Mohm meter
  std::string at;              // terminal
  std::vector<std::string> faults;   // what is left; empty: read on
};
std::string text_of(const FaultReading&);   // "12.1 V at D1.K: W5 open; ..."
struct FaultCause {
  std::string fault;           // "W5 shorted to body"
  std::string opens;           // "the coach's fuse opens"; empty: nothing does
};
std::string text_of(const FaultCause&);     // "W5 shorted to body, and the coach's fuse opens"
struct FaultPicture {
  std::vector<std::string> shows;    // one line a lamp and look; empty: nothing shows
  std::vector<FaultCause> faults;
  std::string scene;           // in which the readings are taken, flash on
  std::vector<FaultReading> readings;
};
// In the order of the table's classes.
std::vector<FaultPicture> fault_pictures(const Facts&, const Catalogue&, const FaultTable&);

}  // namespace towloom
