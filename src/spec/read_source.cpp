// What lights a lamp: "P21/5W bright", "2 x R5W", "1.86 A", "LED 0.25 A", "LED 3.2 W from 9 V".
#include <charconv>

#include "spec/parts.hpp"

namespace towloom {
namespace {

constexpr int most_lamps = 20;           // on one wire; common practice, no source
constexpr double design_v = 12.8;        // SAE lamp design volts, at which a lamp's current is measured
const char* const led_forms = "write it like LED 0.25 A, LED 3.2 W from 9 V, or LED 20 ohm from 7 V";

// The text behind "2 x "; nothing after an error.
std::optional<std::string> take_count(LampRow& row, Diagnostics& diagnostics) {
  const std::string& text = row.source.value;
  const std::size_t x = text.find(" x ");
  if (x == std::string::npos) return text;
  const auto read = std::from_chars(text.data(), text.data() + x, row.count);
  if (read.ec == std::errc{} && read.ptr == text.data() + x && row.count >= 1 && row.count <= most_lamps) return trimmed(text.substr(x + 3));
  row.count = 1;
  diagnostics.error("lamp-source", row.source.place, "'" + text + "' does not begin with a count", "write 2 x R5W for two bulbs on one wire");
  return std::nullopt;
}

// A figure above zero and not above `most`; true when the text is one of this unit at all.
bool take(std::optional<double>& into, const std::string& text, Unit unit, double most, const LampRow& row, Diagnostics& diagnostics) {
  const char* what = unit == Unit::ampere ? "current" : unit == Unit::watt ? "power" : unit == Unit::ohm ? "resistance" : "voltage";
  const auto value = parse_quantity(text, unit);
  if (!value) return false;
  if (*value > 0 && *value <= most)
    into = value;
  else
    diagnostics.error("out-of-range", row.source.place, std::string("this lamp's ") + what + ", " + text + ", cannot be right",
                      "expected above 0 and at most " + format_plain(most) + ", like " + unit_example(unit));
  return true;
}

// "0.25 A", "0.29 A from 7 V", "3.2 W from 9 V", "20 ohm from 7 V".
void read_led(LampRow& row, const std::string& text, Diagnostics& diagnostics) {
  const auto parts = split(text, " from ");
  if (parts.size() == 2) {
    // At and above its design volts a vehicle lamp is meant to be lit.
    if (!take(row.from_v, parts[1], Unit::volt, design_v - 0.1, row, diagnostics))
      return diagnostics.error("lamp-source", row.source.place, "'" + parts[1] + "' is no voltage from which the lamp lights", led_forms);
    if (!row.from_v) return;
  }
  const bool read = parts.size() <= 2 && (take(row.amps, parts[0], Unit::ampere, most_a, row, diagnostics) ||
                                          take(row.watts, parts[0], Unit::watt, most_w, row, diagnostics) ||
                                          take(row.ohm, parts[0], Unit::ohm, most_ohm, row, diagnostics));
  if (!read)
    diagnostics.error("lamp-source", row.source.place,
                      text.empty() ? "the LED lamp's current is missing" : "'" + text + "' says nothing of the LED lamp's current", led_forms);
  else if ((row.watts || row.ohm) && !row.from_v)
    diagnostics.error("lamp-source", row.source.place, "the volts are missing from which this LED lamp lights",
                      "raise the volts on a bench supply until it lights: " + text + " from 9 V");
}

}  // namespace

void read_source(LampRow& row, Diagnostics& diagnostics) {
  const auto text = take_count(row, diagnostics);
  if (!text) return;
  row.led = *text == "LED" || text->rfind("LED ", 0) == 0;
  if (row.led) return read_led(row, trimmed(text->substr(3)), diagnostics);
  if (take(row.amps, *text, Unit::ampere, most_a, row, diagnostics)) return;
  if (text->empty()) return diagnostics.error("lamp-source", row.source.place, "the lamp's bulb or current is missing", "like P21W, 1.86 A, or LED 0.25 A");
  const std::size_t space = text->find(' ');
  row.bulb = text->substr(0, space);
  if (space != std::string::npos) row.filament = trimmed(text->substr(space));
}

}  // namespace towloom
