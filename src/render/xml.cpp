#include "render/xml.hpp"

#include <cstdlib>

#include "drawing/utf8.hpp"

namespace towloom {
namespace {

void append_utf8(std::string& out, char32_t c) {
  const auto byte = [&](char32_t v) { out += static_cast<char>(v); };
  if (c < 0x80) return byte(c);
  if (c < 0x800) return byte(0xC0 | (c >> 6)), byte(0x80 | (c & 0x3F));
  if (c < 0x10000)
    return byte(0xE0 | (c >> 12)), byte(0x80 | ((c >> 6) & 0x3F)), byte(0x80 | (c & 0x3F));
  byte(0xF0 | (c >> 18)), byte(0x80 | ((c >> 12) & 0x3F)), byte(0x80 | ((c >> 6) & 0x3F)),
      byte(0x80 | (c & 0x3F));
}

// The Char production of XML 1.0.
bool allowed(char32_t c) {
  return c == 9 || c == 10 || c == 13 || (c >= 0x20 && c < 0xD800) || (c >= 0xE000 && c < 0xFFFE) ||
         (c >= 0x10000 && c < 0x110000);
}

}  // namespace

std::string xml_escape(std::string_view utf8) {
  std::string out;
  for (char32_t c : code_points(utf8)) {
    if (!allowed(c)) continue;
    switch (c) {
      case U'&':
        out += "&amp;";
        break;
      case U'<':
        out += "&lt;";
        break;
      case U'>':
        out += "&gt;";
        break;
      case U'"':
        out += "&quot;";
        break;
      case U'\'':
        out += "&#39;";
        break;
      default:
        append_utf8(out, c);
    }
  }
  return out;
}

std::string plain_text(std::string_view utf8) {
  std::string out;
  for (char32_t c : code_points(utf8))
    if (allowed(c)) append_utf8(out, c);
  return out;
}

std::string xml_id(std::string_view name) {
  std::string out;
  for (char c : name) {
    const bool letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    out += letter || (c >= '0' && c <= '9') || c == '-' || c == '.' ? c : '_';
  }
  return out;
}

std::string mm_text(Mm100 v) {
  const long long size = std::llabs(static_cast<long long>(v));
  const std::string cents = std::to_string(size % 100);
  return (v < 0 ? "-" : "") + std::to_string(size / 100) + "." + (cents.size() < 2 ? "0" : "") +
         cents;
}

std::string colour_text(Rgb c) {
  static const char digits[] = "0123456789abcdef";
  std::string out = "#";
  for (unsigned char v : {c.r, c.g, c.b}) out += {digits[v >> 4], digits[v & 15]};
  return out;
}

std::string attribute(const char* name, std::string_view value) {
  return std::string(" ") + name + "=\"" + xml_escape(value) + "\"";
}

}  // namespace towloom
