// Colour codes: check values 21 to 23 of the connector reference, the IEC 60757 rules and letters of its
// table 5.1, the ambiguity traps of 5.2, and RAL Classic sRGB of 5.4 (public table taken from the RAL
// site). Contrast ratios are recomputed here by the WCAG 2.x formula.
#include <array>
#include <cmath>
#include <fstream>
#include <sstream>

#include "catalogue/colours.hpp"
#include "catalogue/shipped.hpp"

using namespace towloom;
using namespace towloom::testing;
using Letters = std::vector<std::string>;

namespace {

const ColourConvention& convention(const char* name) { return shipped().colour_conventions.at(name); }

std::string read(const std::string& code, const char* name) {
  const auto out = read_code(code, convention(name));
  return out ? out->text() : "none";
}

struct Settled {
  std::string text, code, says;
};
Settled settle(const std::string& code, const char* name = nullptr) {
  Diagnostics diagnostics;
  const auto convention = name ? std::optional<PlacedText>({name, {}}) : std::nullopt;
  const auto out = settle_code({code, {}}, convention, shipped(), diagnostics);
  Settled s;
  if (out) s.text = out->text();
  for (const Diagnostic& d : diagnostics.all()) {
    s.code = d.code;
    s.says = d.message + " / " + d.hint;
  }
  return s;
}

}  // namespace

TEST_CASE("21: IEC 60757: red and blue on one item, and the cores of a cable") {
  const ColourConvention& iec = convention("iec-60757");
  CHECK(iec_item({"BU", "RD"}, iec) == "RDBU");
  CHECK(iec_item({"RD", "BU"}, iec) == "RDBU");
  CHECK(iec_cable({"GNYE", "BU", "BK", "BN", "BK"}, iec) == "BK+BK+BN+BU+GNYE");
}

TEST_CASE("22: IEC 60757: brown with white and white with brown are both BNWH: the base is not said") {
  const ColourConvention& iec = convention("iec-60757");
  CHECK(iec_item({"BN", "WH"}, iec) == "BNWH");
  CHECK(iec_item({"WH", "BN"}, iec) == "BNWH");
  const auto read = read_code("BNWH", iec);
  REQUIRE(read);
  CHECK(read->letters == Letters{"BN", "WH"});
  CHECK_FALSE(read->base_known);
  CHECK_FALSE(read_code("WHBN", iec));   // not in table order
  CHECK(read_code("bnwh", iec));         // small letters mean the same (1983)
}

TEST_CASE("IEC 60757 clause 5.1: green and yellow join as GNYE only") {
  const ColourConvention& iec = convention("iec-60757");
  CHECK(iec_item({"YE", "GN"}, iec) == "GNYE");
  CHECK_FALSE(iec_item({"WH", "GN"}, iec));
  CHECK_FALSE(iec_item({"YE", "BN"}, iec));
  CHECK_FALSE(iec_item({"WH", "XX"}, iec));
  CHECK(read_code("GNYE", iec));
  CHECK_FALSE(read_code("WHGN", iec));   // DIN 47100 pair, outside the IEC rule
}

TEST_CASE("5.1: letters of IEC 60757 in their order") {
  Letters order;
  for (const auto& [code, iec] : convention("iec-60757").codes) {
    CHECK(code == iec);
    order.push_back(code);
  }
  CHECK(order == Letters{"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR"});
}

TEST_CASE("5.1: German vehicle letters and North American abbreviations") {
  const struct { const char *iec, *german, *long_form; } rows[] = {
      {"BK", "sw", "BLK"}, {"BN", "br", "BRN"}, {"RD", "rt", "RED"}, {"OG", "or", "ORN"}, {"YE", "ge", "YEL"},
      {"GN", "gn", "GRN"}, {"BU", "bl", "BLU"}, {"GY", "gr", "GRY"}, {"WH", "ws", "WHT"}, {"PK", "rs", "PNK"}};
  for (const auto& row : rows) {
    CAPTURE(row.iec);
    CHECK(read(row.german, "german-vehicle") == row.iec);
    CHECK(read(row.long_form, "north-american") == row.iec);
  }
  CHECK(read("li", "german-vehicle") == "VT");
  CHECK(read("hb", "german-vehicle") == "BU");
  for (const char* violet : {"VIO", "PPL", "PUR"}) CHECK(read(violet, "north-american") == "VT");
  for (const char* green : {"DK GRN", "LT GRN"}) CHECK(read(green, "north-american") == "GN");
}

TEST_CASE("5.2: base and tracer as each convention writes them") {
  for (const char* written : {"sw/ws", "sw-ws", "swws"}) CHECK(read(written, "german-vehicle") == "BK/WH");
  CHECK(read("BRN/WHT", "north-american") == "BN/WH");
  CHECK(read("DK GRN/WHT", "north-american") == "GN/WH");
  CHECK(read("GY", "joined-letters") == "GN/YE");
  CHECK(read("B/L", "joined-letters") == "BK/BU");
  CHECK(read("W-SB", "swedish-pattern") == "WH/BK");
  CHECK(read("BL/Y", "swedish-pattern") == "BU/YE");
  CHECK(read("SB", "swedish-pattern") == "BK");
  CHECK(read("GR", "north-american-short") == "GN");
  CHECK(read("gr", "german-vehicle") == "GY");
}

TEST_CASE("5.2: ambiguous codes without a convention are refused, with every reading") {
  const struct { const char *code; std::vector<const char*> readings; } traps[] = {
      {"GY", {"GY", "GN/YE"}}, {"BL", {"BU", "BK/BU"}}, {"GR", {"GY", "GN"}}, {"SB", {"BU", "BK"}}, {"L", {"BU"}}, {"OG", {"OG", "OG/GN"}}};
  for (const auto& trap : traps) {
    CAPTURE(trap.code);
    const Settled s = settle(trap.code);
    CHECK(s.text.empty());
    CHECK(s.code == "ambiguous-colour");
    for (const char* reading : trap.readings) CHECK(s.says.find(std::string(reading) + " in ") != std::string::npos);
    CHECK(s.says.find("colours:") != std::string::npos);
  }
}

TEST_CASE("a code that every convention reads alike needs no name; a named one decides") {
  for (const char* code : {"GY/VT", "BK/WH", "PK/BK", "TQ/BK", "WH", "BN"}) {
    CAPTURE(code);
    CHECK(settle(code).text == code);
  }
  CHECK(settle("GY", "iec-60757").text == "GY");
  CHECK(settle("GY", "joined-letters").text == "GN/YE");
  CHECK(settle("sw/rt", "german-vehicle").text == "BK/RD");
  CHECK(settle("GRN", "german-vehicle").code == "colour");
  CHECK(settle("GRN", "german-vehicle").says.find("North American") != std::string::npos);
  CHECK(settle("QQ/ZZ").code == "colour");
}

TEST_CASE("23: RAL 3000, 6018 and 5015 in sRGB stand beside the printed colours") {
  std::ifstream file(std::string(TOWLOOM_ROOT) + "/styles/colours.yaml");
  std::stringstream text;
  text << file.rdbuf();
  for (const char* ral : {"RAL 3000 #A72920", "RAL 6018 #61993B", "RAL 5015 #007CB0", "RAL 9005 #0E0E10", "RAL 8003 #7E4B26",
                          "RAL 2003 #F67828", "RAL 1021 #F6B600", "RAL 4005 #76689A", "RAL 7000 #7A888E", "RAL 3015 #D8A0A6",
                          "RAL 6027 #7EBAB5", "RAL 1013 #E3D9C6"})
    CHECK_MESSAGE(text.str().find(ral) != std::string::npos, ral);
}
