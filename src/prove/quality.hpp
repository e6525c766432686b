// Inside the room: figures that take_apart's page is measured by, beside its defects.
#pragma once

#include "prove/page.hpp"

namespace towloom {

void add_quality(const Page&, SheetStats&);   // needs the crossings counted

}  // namespace towloom
