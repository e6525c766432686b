// Pieces of XML text: escaping, ids, numbers. Locale-free.
#pragma once

#include <string>
#include <string_view>

#include "base/geometry.hpp"
#include "drawing/drawing.hpp"

namespace towloom {

// Markup escaped; characters that XML 1.0 forbids left out; bytes that are not UTF-8 as U+FFFD.
std::string xml_escape(std::string_view utf8);
// The same characters without the escapes.
std::string plain_text(std::string_view utf8);
// Letters, digits, '-', '_' and '.' kept, all else '_': fit for an id behind a prefix.
std::string xml_id(std::string_view name);
std::string mm_text(Mm100);                                       // "12.50", "-0.05"
std::string colour_text(Rgb);                                     // "#7e4b26"
std::string attribute(const char* name, std::string_view value);  // ` name="value"`

}  // namespace towloom
