// What was found otherwise than drawn, in words: the bench sheet's letters and notes.
#pragma once

#include <string>

#include "check/check.hpp"

namespace towloom {

std::string letter_of(const Flag&);              // A, B, ...
bool is_on(const Circuit& page, const Flag&);    // whether the page has the part or wire
std::string flag_text(const Flag&);              // one sentence for the notes

}  // namespace towloom
