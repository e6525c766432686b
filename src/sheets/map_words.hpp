// What the plan map says of a place and of a way.
#pragma once

#include "sheets/map_figure.hpp"
#include "sheets/table.hpp"

namespace towloom::map {

std::string number_of(const Plan&, int spot);                     // "5": its marker and its head
// "diodes", "fuse": what a part is called, by kind and by what it is for.
std::string kind_name(const Part&, bool several, const Style&);
TextBlock spot_block(const Plan&, int spot, const Facts&, const SheetPen&);
TextBlock way_block(const Way&, const Facts&, const SheetPen&);
// Place by place from front to rear: part, what is to be done, and what lands there.
SheetTable where_table(const Plan&, const Facts&, const Catalogue&, const Style&);

}  // namespace towloom::map
