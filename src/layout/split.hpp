// A circuit too large for one page, taken apart by function: lamps; supply and auxiliaries; the car's own side.
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"

namespace towloom {

struct PageCircuit {
  std::string group;             // word key: group-all, group-lamps, group-auxiliaries, group-car, group-sources
  Circuit circuit;               // the page's parts, and a reference where a wire goes on elsewhere
  std::vector<int> wire_of;      // by wire of the page: index in the whole circuit
  std::vector<int> part_of;      // by part of the page: index in the whole circuit, -1 = reference
  std::vector<int> lamp_of;      // by lamp of the page
  std::vector<int> leads_to;     // by part: for a reference, the page on which its wire goes on; else -1
};
// How far the circuit is taken apart.
enum class Apart { nothing, auxiliaries, lamps, all };
// Into one, two (auxiliaries by themselves; lamps by themselves) or three pages; a page without parts is left out. No part is divided, but the coach's loom
// stands on each page with the contacts of that page.
std::vector<PageCircuit> split(const Circuit&, Apart);

}  // namespace towloom
