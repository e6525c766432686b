// In which scenes a fault shows, in the fewest words that are exact.
#pragma once

#include "check/check.hpp"

namespace towloom {

// `where`: indices of States::scenes in which lamp `lamp` of States::lamps looks other than it should, and dark,
// dimmer or brighter instead of lit. "always": wherever it should be lit; "in tow, always"; "in tow, by the
// motorhome's signals": but not in each with the pedal pressed; "driven alone, always"; "by the car's own signals": also in
// some in tow with the pedal pressed. Else, and where `lamp` is none of these lamps
// or it should be dark, the first scenes by name: "left; hazard; and 3 more".
std::string where_it_shows(const States&, int lamp, bool should_be_lit, const std::vector<int>& where);

}  // namespace towloom
