// Colour codes of wires, read within a named convention only.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"

namespace towloom {

// IEC 60757 letters of one wire, base then tracer. `base_known` is false where the convention puts
// the colours in table order, which does not say which of them is the base.
struct WireCode {
  std::vector<std::string> letters;   // one or two
  bool base_known = true;
  std::string text() const;           // "GY/VT"
  bool operator==(const WireCode&) const = default;
};
// Nothing if the convention does not hold the code.
std::optional<WireCode> read_code(const std::string& code, const ColourConvention&);

// Several colours of one item as IEC 60757:2021 clause 5.1 joins them: in table order, "RDBU". Nothing
// if a letter is unknown, or if green or yellow stands in any other combination than GNYE.
std::optional<std::string> iec_item(std::vector<std::string> letters, const ColourConvention& iec);
// Separate items of one cable: "BK+BK+BN+BU+GNYE". Items as iec_item writes them, in table order.
std::string iec_cable(std::vector<std::string> items, const ColourConvention& iec);

// Reads a code in the named convention; without a name only where every convention that knows the code
// reads it alike. Says itself what is wrong: an ambiguous code with both readings.
std::optional<WireCode> settle_code(const PlacedText& code, const std::optional<PlacedText>& convention,
                                    const Catalogue&, Diagnostics&);

}  // namespace towloom
