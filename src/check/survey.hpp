// A job as a survey alone, and what advise puts into it to try a method.
#pragma once

#include "catalogue/catalogue.hpp"

namespace towloom {

// The job without its isolation, its sizes and the lamps fitted for towing; its extras stay. Places that methods and
// extras name and no run reaches are reached by a run of an assumed length.
Spec without_isolation(const Spec&);
// Those runs: to the battery, to the stop switch, and to lamps that are to light in tow.
std::vector<RunRow> assumed_runs(const Spec&);
// Lamps that the method brings, one set a side where the car's lamps sit, and one for the plate.
void add_lamps(Spec&, const Method&);
// A lamp of the car, towed or not, has this function.
bool has_function(const Spec&, const std::string& function);
std::string tail_host(const Spec&);   // the first tail lamp of the car, "" = none
bool has_extra(const Spec&, const std::string& name);

}  // namespace towloom
