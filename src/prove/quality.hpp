// Inside the room: figures that take_apart's page is measured by, beside its defects.
#pragma once

#include "prove/page.hpp"

namespace towloom {

// Crossings that no routing between the columns of terminals can save: pairs of wires of different nets that change
// their order from one column to the next (the count of a layered drawing). Wires that turn back are left out.
int layered_crossings(const Page&);
void add_quality(const Page&, SheetStats&);   // needs the crossings counted

}  // namespace towloom
