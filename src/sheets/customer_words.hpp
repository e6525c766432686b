// What a driver is told: the sentences of the customer's page, in their order.
#pragma once

#include <string>
#include <vector>

#include "check/check.hpp"
#include "drawing/style.hpp"

namespace towloom {

std::vector<std::string> before_towing(const Facts&, const Catalogue&, const Style&);
std::vector<std::string> after_towing(const Facts&, const Catalogue&, const Style&);
std::vector<std::string> fuse_places(const Facts&, const Catalogue&, const Style&);
// What a customer may take for a fault.
std::vector<std::string> odd_but_right(const Facts&, const Catalogue&, const Style&);

}  // namespace towloom
