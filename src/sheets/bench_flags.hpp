// What was found otherwise than drawn, in words: the bench sheet's letters and notes.
#pragma once

#include <string>

#include "sheets/table.hpp"

namespace towloom {

bool is_on(const Circuit& page, const Flag&);    // whether the page has the part or wire
bool is_drawn(const Circuit&, const Flag&);      // a part that bears its letter stands there
std::string flag_text(const Flag&, const Style&);   // one sentence for the notes
// "A C": the letters of what was found at this wire or at an end of it; "" = nothing.
std::string letters_at(const Facts&, const Wire&);
// Every row of as found: what was found, what should be, when and why.
SheetTable found_table(const Facts&, const Style&);

}  // namespace towloom
