// Findings: one small function per rule, all in one table; and Facts, all that sheets may print.
#pragma once

#include <string>
#include <vector>

#include "size/size.hpp"
#include "solve/faults.hpp"

namespace towloom {

struct Finding {
  std::string rule;               // id in the rule table: "lamp-differs"
  Severity severity = Severity::error;
  std::string message, action, reason;
  Place place;
  std::vector<std::string> about; // part and wire ids
};
// What was found otherwise than meant, for the drawing: a numbered mark at its place and a line in a corner.
struct Flag {
  int number = 0;
  std::string about;              // id of the part or wire
  std::string what;               // as the job names it: "G-X", "cord", "D4.A"
  std::string found, should;      // "on plastic", "on bare steel"
  std::string why, date;          // reason, ISO date
};
std::string flag_letter(int number);   // 1 is A
struct Facts {
  Spec spec;
  Sized sized;
  States states;
  std::vector<Finding> findings;
  std::vector<Flag> flags = {};   // of the job's as found: rows
  bool found = false;             // the circuit is the one that was found, not the intended one
  const Circuit& circuit() const { return sized.circuit; }
};
std::vector<Finding> check(const Spec&, const Catalogue&, const Sized&, const States&);
// read → build → size → solve → check, the whole way. Nothing if the job cannot be built.
std::optional<Facts> find_facts(const Spec&, const Catalogue&, Diagnostics&);
// The function matrix as text: one row a scene, one column a lamp, required against solved.
std::string matrix_text(const Facts&);
// The symptom table as text: what shows, then the faults that show so.
std::string faults_text(const Facts&, const Catalogue&, const FaultTable&);

}  // namespace towloom
