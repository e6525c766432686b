// UTF-8 as it comes in files of others.
#pragma once

#include <cstddef>
#include <string>

namespace towloom {

// Bytes of the valid sequence that begins at text[at], 1 to 4; 0 where none does. RFC 3629 section 4.
std::size_t utf8_length(const std::string& text, std::size_t at);
// A code point of so many bytes that a terminal or a reader's eye cannot be trusted with: control characters but the
// tab, and overrides of the writing direction, which make a line read differently from what it does.
bool steers_terminal(const std::string& text, std::size_t at, std::size_t bytes);
// The text with '?' for each byte that is no text and for what steers a terminal.
std::string printable(const std::string& text);

}  // namespace towloom
