// Code points and words of a label's text. Bytes that are not UTF-8 become U+FFFD.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace towloom {

char32_t next_code_point(std::string_view utf8, size_t& at);   // at `at`, which moves on behind it
std::vector<char32_t> code_points(std::string_view utf8);

struct Word {
  std::string text;
  size_t offset = 0;  // bytes before it, blanks included
};
std::vector<Word> words_of(std::string_view utf8);

}  // namespace towloom
