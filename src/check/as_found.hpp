// An installation as it was found: the intended circuit with every recorded fault in it, solved as it is.
#pragma once

#include "check/check.hpp"

namespace towloom {

struct AsFound {
  Facts facts;                      // the faulty circuit and its states; required lamps as of the sound one
  std::vector<std::string> words;   // of each recorded fault, in the job's order
  std::vector<bool> masked;         // mending this one alone changes no lamp: the others hide it
};
// Nothing when the job records none, or after an error: a fault that this circuit cannot have.
std::optional<AsFound> solve_as_found(const Facts&, const Catalogue&, Diagnostics&);
// The function matrix as found, then each fault with reason and date.
std::string as_found_text(const AsFound&);

}  // namespace towloom
