#include "base/utf8.hpp"

#include <algorithm>

namespace towloom {
namespace {

// Left-to-right overrides and isolates could make a file read differently from what it does.
bool is_bidi_control(const std::string& s, std::size_t i, std::size_t n) {
  if (n != 3 || static_cast<unsigned char>(s[i]) != 0xE2) return false;
  const unsigned a = static_cast<unsigned char>(s[i + 1]), b = static_cast<unsigned char>(s[i + 2]);
  return (a == 0x80 && b >= 0xAA && b <= 0xAE) || (a == 0x81 && b >= 0xA6 && b <= 0xA9);
}

}  // namespace

std::size_t utf8_length(const std::string& s, std::size_t i) {
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(s[k]); };
  const unsigned char c = byte(i);
  const std::size_t n = c < 0x80 ? 1 : c >= 0xC2 && c < 0xE0 ? 2 : c >= 0xE0 && c < 0xF0 ? 3 : c >= 0xF0 && c < 0xF5 ? 4 : 0;
  if (n == 0 || i + n > s.size()) return 0;
  for (std::size_t k = 1; k < n; ++k)
    if ((byte(i + k) & 0xC0) != 0x80) return 0;
  if (n == 3 && ((c == 0xE0 && byte(i + 1) < 0xA0) || (c == 0xED && byte(i + 1) > 0x9F))) return 0;
  if (n == 4 && ((c == 0xF0 && byte(i + 1) < 0x90) || (c == 0xF4 && byte(i + 1) > 0x8F))) return 0;
  return n;
}

bool steers_terminal(const std::string& s, std::size_t i, std::size_t n) {
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(s[k]); };
  const bool c0 = (byte(i) < 0x20 && byte(i) != '\t') || byte(i) == 0x7F, c1 = n == 2 && byte(i) == 0xC2 && byte(i + 1) < 0xA0;
  return c0 || c1 || is_bidi_control(s, i, n);
}

std::string printable(const std::string& text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t n = utf8_length(text, i);
    if (n == 0 || steers_terminal(text, i, n))
      out += '?';
    else
      out += text.substr(i, n);
    i += std::max<std::size_t>(n, 1);
  }
  return out;
}

}  // namespace towloom
