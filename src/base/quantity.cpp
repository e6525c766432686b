#include "base/quantity.hpp"

#include <charconv>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace towloom {
namespace {

struct Factor {
  Unit unit;
  const char* written;
  double scale, offset;
};
// Feet and inches: exact by definition (0.3048 m). Fahrenheit: (F - 32) * 5/9.
const Factor factors[] = {
    {Unit::metre, "m", 1, 0},        {Unit::metre, "cm", 0.01, 0},     {Unit::metre, "mm", 0.001, 0},
    {Unit::metre, "ft", 0.3048, 0},  {Unit::metre, "in", 0.0254, 0},   {Unit::volt, "V", 1, 0},
    {Unit::volt, "mV", 0.001, 0},    {Unit::ampere, "A", 1, 0},        {Unit::ampere, "mA", 0.001, 0},
    {Unit::ohm, "ohm", 1, 0},        {Unit::ohm, "mohm", 0.001, 0},    {Unit::ohm, "kohm", 1000, 0},
    {Unit::ohm, "Mohm", 1e6, 0},     {Unit::ohm, "Ω", 1, 0},           {Unit::ohm, "mΩ", 0.001, 0},
    {Unit::ohm, "kΩ", 1000, 0},      {Unit::kelvin_per_watt, "K/W", 1, 0}, {Unit::celsius, "°C", 1, 0},
    {Unit::celsius, "C", 1, 0},      {Unit::celsius, "°F", 5.0 / 9, -32}, {Unit::celsius, "F", 5.0 / 9, -32},
    {Unit::watt, "W", 1, 0},         {Unit::mm2, "mm2", 1, 0},         {Unit::mm2, "mm²", 1, 0},
    {Unit::percent, "%", 0.01, 0},   {Unit::plain, "", 1, 0},
};

std::string_view trim(std::string_view s) {
  while (!s.empty() && s.front() == ' ') s.remove_prefix(1);
  while (!s.empty() && s.back() == ' ') s.remove_suffix(1);
  return s;
}

}  // namespace

std::optional<double> parse_quantity(std::string_view text, Unit unit) {
  text = trim(text);
  double value = 0;
  const char* start = text.data();
  const char* end = start + text.size();
  if (start != end && *start == '+') ++start;
  // 1e9 too, so that what is absurd is said to be so; a size of wire is a name, written as it is sold.
  const auto [rest, error] = std::from_chars(start, end, value, unit == Unit::mm2 ? std::chars_format::fixed : std::chars_format::general);
  if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
  const std::string_view written = trim({rest, static_cast<std::size_t>(end - rest)});
  for (const Factor& f : factors)
    if (f.unit == unit && written == f.written) return (value + f.offset) * f.scale;
  return std::nullopt;
}

const char* unit_example(Unit unit) {
  switch (unit) {
    case Unit::metre: return "2.4 m or 8 ft";
    case Unit::volt: return "13.6 V";
    case Unit::ampere: return "4.2 A";
    case Unit::ohm: return "45 mohm";
    case Unit::kelvin_per_watt: return "20 K/W";
    case Unit::celsius: return "40 °C";
    case Unit::watt: return "21 W";
    case Unit::mm2: return "0.75 mm2";
    case Unit::percent: return "85 %";
    case Unit::plain: return "4";
  }
  return "";
}

std::string format_fixed(double value, int decimals) {
  if (!std::isfinite(value)) return "?";
  char buffer[400];
  const auto written = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals);
  std::string out(buffer, written.ptr);
  if (out[0] == '-' && out.find_first_not_of("-0.") == std::string::npos) out.erase(0, 1);
  return out;
}

std::string format_plain(double value) {
  if (!std::isfinite(value)) return "?";
  int decimals = 6;
  for (double big = std::fabs(value); big >= 10 && decimals > 0; big /= 10) --decimals;
  std::string out = format_fixed(value, decimals);
  if (out.find('.') == std::string::npos) return out;
  while (out.back() == '0') out.pop_back();
  if (out.back() == '.') out.pop_back();
  return out;
}

std::string WireSizeName::text() const { return number + (system == System::awg ? " AWG" : " mm²"); }

std::optional<WireSizeName> parse_wire_size(std::string_view text) {
  text = trim(text);
  static const std::vector<std::pair<std::string, WireSizeName::System>> endings = {
      {"AWG", WireSizeName::System::awg}, {"mm2", WireSizeName::System::mm2}, {"mm²", WireSizeName::System::mm2}};
  for (const auto& [ending, system] : endings) {
    if (text.size() <= ending.size() || text.substr(text.size() - ending.size()) != ending) continue;
    const std::string_view number = trim(text.substr(0, text.size() - ending.size()));
    double value = 0;
    const auto read = std::from_chars(number.data(), number.data() + number.size(), value, std::chars_format::fixed);
    if (number.size() == 3 && system == WireSizeName::System::awg && number.substr(1) == "/0" && number[0] >= '1' && number[0] <= '9')
      return WireSizeName{std::string(number), system};
    if (read.ec != std::errc{} || read.ptr != number.data() + number.size() || !(value > 0) || !std::isfinite(value)) return std::nullopt;
    return WireSizeName{format_plain(value), system};
  }
  return std::nullopt;
}

}  // namespace towloom
