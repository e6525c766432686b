// Which methods of isolation suit a survey: each is tried, built, sized and solved.
#pragma once

#include "check/check.hpp"

namespace towloom {

enum class Advice { works, with_extras, does_not };
struct Candidate {
  const Method* method = nullptr;
  Advice advice = Advice::does_not;
  std::vector<std::string> extras;   // converter, extras or choices that it needs here, by name
  std::string why;                   // the reason, one sentence; empty where it simply works
  std::vector<std::string> doubts;   // what only the car can prove, or is poor though it works
  double least_v = 0;                // at the dimmest lit lamp in tow; 0 where it was not solved
  bool dim = false;                  // that is below what is accepted of such a lamp
  double watts = 0;                  // of the hottest part
  int parts = 0, wires = 0, cuts = 0;   // fitted parts without splices; new wires; factory wires cut
  double hours_from = 0, hours_to = 0;  // the method with what it needs; an estimate; 0 where none is known
  bool own_lamps() const { return method->added_lamps; }
};
// The job's own isolation is left aside; its extras stay. Best first: the car's own lamps before lamps brought along;
// sure before doubtful; bright before dim; fitted once before put on for each journey; then the fewer hours, then
// the fewer parts and wires, then the brighter. What does not work stands last. A car with turn lamps of its own behind combined signals
// has each method twice: stop lamps only, and all lamps behind a converter.
std::vector<Candidate> advise(const Spec&, const Catalogue&);

}  // namespace towloom
