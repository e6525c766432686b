// Which methods of isolation suit a survey: each is tried, built, sized and solved.
#pragma once

#include "check/check.hpp"

namespace towloom {

enum class Advice { works, with_extras, does_not };
struct Candidate {
  const Method* method = nullptr;
  Advice advice = Advice::does_not;
  std::vector<std::string> extras;   // converter or extras that it needs here, by name
  std::string why;                   // the reason, one sentence; empty where it simply works
  double least_v = 0;                // at the dimmest lit lamp in tow; 0 where it was not solved
  double watts = 0;                  // of the hottest part
  int parts = 0, cuts = 0;           // fitted parts without splices; factory wires cut
};
// The job's own isolation is left aside; its extras stay. Best first: what works before what needs extras, the
// brighter lamp before the dimmer, then fewer parts.
std::vector<Candidate> advise(const Spec&, const Catalogue&);

}  // namespace towloom
