// Which halves of connectors go together, and which contact of one end of a cord goes to which of the other.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "catalogue/catalogue.hpp"

namespace towloom {

struct End {                       // one half of a connector
  const Connector* connector = nullptr;
  std::string half;
};
struct Mating {
  bool mates = false;
  std::string why;                 // why not; or what to mind though they mate; "" = the intended mate
  Provenance provenance;           // of `why`, where the catalogue says it
};
Mating mating(const End&, const End&);

// A core joins contacts of one function; between two ends of one form it goes straight, number to number. A tail
// lamp lead and its two sides are one function where only one end parts them; which core then carries what is
// said in `note`.
struct CordPair {
  const ConnectorContact* from = nullptr;
  const ConnectorContact* to = nullptr;
  std::string note;
  bool meant = true;               // false: it goes straight between contacts that the two ends use differently
};
struct CordMap {
  std::vector<CordPair> pairs;                              // in the order of the first end's contacts
  std::vector<const ConnectorContact*> only_from, only_to;  // without a partner
  bool stop_apart_differs = false;  // one end has a stop contact of its own, the other shares it with turn
};
CordMap cord_map(const Connector& from, const Connector& to);

// Spare, reserved, coding or found to do nothing: no core is made for it.
bool carries_nothing(const std::string& function);

}  // namespace towloom
