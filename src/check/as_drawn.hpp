// The installation as it was found in a form that can be drawn: resistances, breaks and bridges are parts of their own,
// exchanged leads end where they were found, and parts say how they were found.
#pragma once

#include "check/check.hpp"
#include "check/observe.hpp"

namespace towloom {

// The same volts as the intended circuit with every change of the observations. A part that an observation adds bears
// its letter: the first is A.
Circuit as_drawn(Circuit intended, const std::vector<Observed>&, const Spec&, const Catalogue&);
// The drawn circuit, solved and checked, with its flags. Nothing where the job records nothing, or what this circuit
// cannot have.
std::optional<Facts> facts_as_found(const Facts& intended, const Catalogue&);

}  // namespace towloom
