// Which check values of the reference (E01 to E50, electrical.md 14) the tests reproduce, and which not and why.
#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <string>

namespace {

// The file whose test cases bear the value's id.
const std::map<std::string, std::string> covered = {
    {"E01", "test_wire"},   {"E02", "test_wire"},   {"E03", "test_wire"},   {"E04", "test_wire"},   {"E05", "test_wire"},
    {"E06", "test_wire"},   {"E07", "test_wire"},   {"E08", "test_wire"},   {"E09", "test_wire"},   {"E10", "test_wire"},
    {"E11", "test_wire"},   {"E16", "test_wire"},   {"E17", "test_wire"},   {"E18", "test_wire"},   {"E19", "test_wire"},
    {"E22", "test_wire"},   {"E23", "test_wire"},   {"E24", "test_wire"},   {"E45", "test_wire"},
    {"E25", "test_electrical_checks"}, {"E26", "test_electrical_checks"}, {"E27", "test_electrical_checks"},
    {"E29", "test_electrical_checks"}, {"E32", "test_electrical_checks"}, {"E33", "test_electrical_checks"},
    {"E34", "test_electrical_checks"}, {"E35", "test_electrical_checks"}, {"E47", "test_electrical_checks"},
    {"E48", "test_electrical_checks"}, {"E49", "test_electrical_checks"}, {"E50", "test_electrical_checks"},
    {"E42", "test_flash"},  {"E43", "test_flash"},
    {"E30", "test_lamps"},  {"E31", "test_lamps"},
    {"E36", "test_decks"},  {"E37", "test_decks"},  {"E38", "test_decks"},  {"E39", "test_decks"},  {"E40", "test_decks"},  {"E41", "test_decks"}};

// Named by a range in a title: "E11 to E16", "E19 to E22".
const std::map<std::string, std::string> by_range = {{"E12", "E11 to E16"}, {"E13", "E11 to E16"}, {"E14", "E11 to E16"}, {"E15", "E11 to E16"},
                                                     {"E20", "E19 to E22"}, {"E21", "E19 to E22"}};

const std::map<std::string, std::string> left_out = {
    {"E28", "lamp life: nothing is computed or printed of it"},
    {"E44", "large blade fuses: the catalogue holds medium ones; their opening current is the rule fuse_opens, 2 x"},
    {"E46", "crimps: 0.55 mohm is a tenth of the contact it sits in, whose 5 mohm (upper value) holds both"}};

std::string text_of(const std::string& name) {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "tests" / "published" / (name + ".cpp"));
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

// True if a title of a test case in this text holds the words.
bool titled(const std::string& text, const std::string& words) {
  for (std::size_t at = text.find("TEST_CASE("); at != std::string::npos; at = text.find("TEST_CASE(", at + 1)) {
    const std::size_t end = text.find(") {", at), found = text.find(words, at);
    if (found < end) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("every check value of the reference is reproduced, or said why not") {
  for (int n = 1; n <= 50; ++n) {
    const std::string id = (n < 10 ? "E0" : "E") + std::to_string(n);
    CAPTURE(id);
    CHECK(covered.count(id) + by_range.count(id) + left_out.count(id) == 1);
  }
  for (const auto& [id, file] : covered) {
    CAPTURE(id);
    CHECK(titled(text_of(file), id));
  }
  for (const auto& [id, range] : by_range) CHECK(titled(text_of("test_wire"), range));
  for (const auto& [id, why] : left_out) CHECK(why.size() > 20);
}
