// The rate of turn signals, flashes a minute.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "catalogue/catalogue.hpp"

namespace towloom {

// The mean of the rates of the cycles, each lit and dark in seconds: SAE J945 (Feb 1966) paragraph 3, as quoted by
// NHTSA in 2002. 0 without a cycle.
double flash_rate(const std::vector<std::pair<double, double>>& cycles_s);

struct FlashLimits { double least = 0, most = 0; };
// `kind`: fixed load | variable load.
FlashLimits flash_limits(const std::string& kind, const Catalogue&);

// What a flasher that has lost one of its lamps does with the others; empty: nothing is seen. An unknown kind: `may`.
std::string flash_with_lamp_out(const std::string& kind, const Catalogue&);

}  // namespace towloom
