// A circuit too large for one page, taken apart by function: lamps; supply and auxiliaries; the car's own side.
// Where that is not enough, the lamps by side and in their order, and the car's own side by its feeds; what is then too
// wide for the paper is cut across, between parts that follow each other.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "circuit/circuit.hpp"

namespace towloom {

struct PageCircuit {
  std::string group;             // word key: group-all, group-signals, group-lamps, group-auxiliaries, group-car, group-sources …
  int part = 0, parts = 1;       // of a group that takes several pages, from 1
  Circuit circuit;               // the page's parts, and a reference where a wire goes on elsewhere
  std::vector<int> wire_of;      // by wire of the page: index in the whole circuit
  std::vector<int> part_of;      // by part of the page: index in the whole circuit, -1 = reference
  std::vector<int> lamp_of;      // by lamp of the page
  std::vector<int> leads_to;     // by part: for a reference, the page on which its wire goes on; else -1
};
// How far the circuit is taken apart, and into how many pages the lamps and the car's own side go.
struct Apart {
  enum Level { nothing, auxiliaries, lamps, all } level = nothing;
  int lamp_pages = 1, car_pages = 1;
  int signal_pages = 0;          // of what feeds lamps of several pages, before theirs; 0: it stands on the first of theirs
  bool contacts_apart = false;   // by zone: coach, cord and inlet on the page of the signals
  // Last of all across: in how many lengths each page of signals, lamps, auxiliaries, the car's own side is cut.
  std::array<int, 4> lengths{1, 1, 1, 1};
};
// One step further, for the sake of a page of this group that needs so many `times` the room there is; several steps at
// once where that is much; `wide`: it is the width that lacks. Nothing where it cannot be divided any more.
std::optional<Apart> further(const Apart&, const std::string& group, double times = 1, bool wide = false);
// A page without parts is left out. No part is divided, but the coach's loom, studs, and joints of very many
// wires stand on each page with the wires of that page.
// `joined`, by page as divided: it stands with the page before it, of the same group; empty = none does.
std::vector<PageCircuit> split(const Circuit&, Apart, const std::vector<bool>& joined = {});

}  // namespace towloom
