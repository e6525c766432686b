// What the files of this room share: one wire as it is reported.
#pragma once

#include "export/export.hpp"
#include "size/protect.hpp"

namespace towloom {

struct WireRow {
  const Wire* wire = nullptr;
  double mm2 = 0;               // 0 where the size is in no table
  double amps_max = 0, drop_v = 0;   // worst over all scenes
  Protection fuse;
};
std::vector<WireRow> wire_rows(const Facts&, const Catalogue&);   // by wire

// A wire that the fitter cuts from a reel.
bool is_bought(const Wire&);
// Rounded up to the rule's next step: what is cut is never shorter than what is drawn.
double cut_length(const Wire&, const Catalogue&);
const char* to_text(Status);
double rounded(double value, double step);   // to whole steps

}  // namespace towloom
