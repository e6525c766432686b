// An installation as it was found: the intended circuit with every observation in it, solved as it is, and which
// observation explains what.
#pragma once

#include "check/observe.hpp"
#include "check/check.hpp"

namespace towloom {

struct AsFound {
  Facts facts;                      // the patched circuit, its states and findings; required lamps as of the sound one
  struct Row {
    std::string words;              // "G-X: on plastic"
    std::string fault;              // the known single fault that it is; "" where it is none
    bool alone = false;             // by itself it changes a lamp of the sound circuit
    bool mends = false;             // mending it alone changes a lamp
    std::vector<std::string> shows; // what mending it alone changes: "left rear stop: flashing, then dark, in 'left'"
    std::vector<std::string> findings;   // rules that fall silent when it is mended alone
    bool masked() const { return alone && !mends; }   // hidden by the others
  };
  std::vector<Row> rows;            // in the job's order
  struct Reading {
    std::string at, scene;
    double sound_v = 0, found_v = 0, measured_v = 0;   // meter of 10 Mohm attached
    bool explained = false;         // found and measured agree within the reading band
    std::vector<int> by;            // rows without which they would not
    std::vector<std::string> suspects;   // unexplained: single faults that, added, would explain it
  };
  std::vector<Reading> readings;    // of the job's measured: rows
};
// Nothing when the job records nothing, or after an error: an observation that this circuit cannot have.
std::optional<AsFound> solve_as_found(const Facts&, const Catalogue&, Diagnostics&);
// The function matrix as found, each observation with reason and date, the readings, the findings of what is there.
std::string as_found_text(const AsFound&);

}  // namespace towloom
