// Shared by the files that settle a job against the catalogue.
#pragma once

#include "catalogue/catalogue.hpp"

namespace towloom {

template <class Map>
std::string names_of(const Map& map) {
  std::string out;
  for (const auto& [name, value] : map) out += (out.empty() ? "" : ", ") + name;
  return out.empty() ? "it has none" : "one of: " + out;
}

// What a mark that is no contact of a form can mean by DIN 72552; "" if it means nothing there.
std::string designation_says(const std::string& mark, const Catalogue&);
// False and an error if the catalogue has no such contact function.
bool check_function(const PlacedText& function, const Catalogue&, Diagnostics&);
// An outlet or inlet that differs from its form becomes a connector of its own in the catalogue.
// `coach`: an outlet, else an inlet; `where`: "outlet", "inlet of the charge plug".
void settle_outlet(Outlet&, bool coach, const std::string& where, Catalogue&, Diagnostics&);

}  // namespace towloom
