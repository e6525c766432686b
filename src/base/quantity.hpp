// Numbers with units, as people write them: "2.4 m", "8 ft", "13.6 V", "4.2 A", "45 mohm", "40 °C".
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace towloom {

enum class Unit { metre, volt, ampere, ohm, kelvin_per_watt, celsius, watt, mm2, percent, plain };

// Reads one quantity; the result is in the unit's SI form (metre, volt, ampere, ohm, °C, watt, mm²).
// Lengths take m, cm, mm, ft, in; resistance ohm, mohm, kohm, Ω, mΩ, kΩ; temperature °C, C, °F, F.
// Nothing if the number or unit cannot be read, or the value is not finite.
// Never depends on the locale.
std::optional<double> parse_quantity(std::string_view text, Unit unit);
const char* unit_example(Unit);  // "2.4 m", for error texts

// A fixed-point decimal without locale: format_fixed(12.3456, 2) == "12.35"; "-0.0" is written "0.0".
std::string format_fixed(double value, int decimals);
// Shortest plain decimal (at most 6 significant digits): 0.75 -> "0.75", 2 -> "2".
std::string format_plain(double value);

// A conductor size as sold: "16 AWG", "0.75 mm2". Kept as text, since it is a name in a series.
struct WireSizeName {
  std::string number;  // "16", "0.75"
  enum class System { awg, mm2 } system = System::awg;
  std::string text() const;  // "16 AWG" or "0.75 mm²"
  auto operator<=>(const WireSizeName&) const = default;
};
std::optional<WireSizeName> parse_wire_size(std::string_view text);

}  // namespace towloom
