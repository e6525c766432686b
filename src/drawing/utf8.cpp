#include "drawing/utf8.hpp"

namespace towloom {
namespace {

constexpr char32_t replacement = 0xFFFD;

// Bytes of the sequence that starts with `lead`, or 0.
int length_of(unsigned char lead) {
  if (lead < 0x80) return 1;
  if (lead >= 0xC2 && lead < 0xE0) return 2;
  if (lead >= 0xE0 && lead < 0xF0) return 3;
  return lead >= 0xF0 && lead < 0xF5 ? 4 : 0;
}

}  // namespace

char32_t next_code_point(std::string_view utf8, size_t& i) {
  const auto lead = static_cast<unsigned char>(utf8[i]);
  const int length = length_of(lead);
  if (length == 1) {
    ++i;
    return lead;
  }
  char32_t value = length == 0 ? 0 : lead & (0x7F >> length);
  bool whole = length > 1 && i + static_cast<size_t>(length) <= utf8.size();
  for (int k = 1; whole && k < length; ++k) {
    const auto next = static_cast<unsigned char>(utf8[i + static_cast<size_t>(k)]);
    whole = (next & 0xC0) == 0x80;
    value = (value << 6) | (next & 0x3F);
  }
  i += whole ? static_cast<size_t>(length) : 1;
  return whole ? value : replacement;
}

std::vector<char32_t> code_points(std::string_view utf8) {
  std::vector<char32_t> out;
  for (size_t i = 0; i < utf8.size();) out.push_back(next_code_point(utf8, i));
  return out;
}

std::vector<Word> words_of(std::string_view utf8) {
  std::vector<Word> out;
  bool inside = false;
  for (size_t i = 0; i < utf8.size(); ++i) {
    if (utf8[i] == ' ') {
      inside = false;
      continue;
    }
    if (!inside) out.push_back({{}, i});
    inside = true;
    out.back().text += utf8[i];
  }
  return out;
}

}  // namespace towloom
