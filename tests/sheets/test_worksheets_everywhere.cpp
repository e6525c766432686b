// Every shown job has its worksheets; none shows what it asks for, and the keys agree with the solved circuit.
#include <doctest/doctest.h>

#include <cmath>
#include <filesystem>

#include "prove/prove.hpp"
#include "sheets/worksheet_fixture.hpp"

namespace towloom {
namespace {

using namespace fixture;

std::vector<std::string> job_names() {
  std::vector<std::string> out;
  for (const auto& file : std::filesystem::directory_iterator(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs"))
    if (file.path().extension() == ".yaml") out.push_back(file.path().stem().string());
  std::sort(out.begin(), out.end());
  return out;
}

void check_drawn(const std::vector<Drawing>& pages) {
  std::size_t number = 0;
  for (const Drawing& page : pages) {
    CAPTURE(page.title);
    CHECK(prints(page, std::to_string(++number) + " of " + std::to_string(pages.size())));
    for (const Defect& d : prove_geometry(page)) FAIL_CHECK(d.kind << ": " << d.message);
    if (page.sheet == "key") continue;
    for (const Item& item : page.items) {   // nothing that names a wire, a part or a contact to a program
      const auto* label = std::get_if<Label>(&item);
      const bool mute = std::get_if<Decor>(&item) != nullptr || (label != nullptr && label->about.empty() && label->wire.empty() && label->page == 0);
      CHECK(mute);
    }
  }
}

// The number that stands before " V" at the end of a text.
double volts_of(const std::string& text) {
  const auto end = text.rfind(" V"), begin = text.rfind(' ', end - 1);
  return std::stod(text.substr(begin == std::string::npos ? 0 : begin + 1, end));
}

// What the learner reckons is what the circuit has: two hundredths of a volt for the rounding of some twenty lines.
void check_measured(const Worksheets& w) {
  double reckoned = -1, solved = -2;
  for (const Drawing* page : w.of("Key F"))
    for (const auto& row : rows(*page)) {
      for (const std::string& text : row)
        if (text.rfind("By the solved circuit", 0) == 0 && text.find(" V.") != std::string::npos) solved = volts_of(text);
      const auto at = std::find(row.begin(), row.end(), "volts at the lamp");
      if (at != row.end() && row.end() - at >= 3) reckoned = volts_of(*(at + 2));
    }
  CHECK(std::fabs(reckoned - solved) <= 0.02);
}

// "The fault: W5 open. Mend: ..." of the key stands nowhere on the worksheet.
void check_fault_hidden(const Worksheets& w) {
  for (const Drawing* page : w.of("Key H")) {
    const std::string all = all_text(*page);
    const auto from = all.find("The fault: "), to = all.find(" Mend: ");
    if (from == std::string::npos) continue;
    REQUIRE(to != std::string::npos);
    const std::string fault = all.substr(from + 11, to - from - 12);
    CAPTURE(fault);
    CHECK(fault.size() > 5);
    for (const Drawing* sheet : w.of("Worksheet H")) CHECK(all_text(*sheet).find(fault) == std::string::npos);
  }
}

}  // namespace

TEST_CASE("every shown job has worksheets on A4 that hold their answers back") {
  const Looks looks;
  for (const std::string& name : job_names()) {
    CAPTURE(name);
    const Worksheets w = worksheets(name, looks);
    check_drawn(w.pages);
    check_measured(w);
    for (const char letter : {'A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'I'}) {
      CAPTURE(letter);
      const std::string l(1, letter);
      const bool drawn = !w.of("Worksheet " + l).empty(), said = prints(w.pages.front(), "Worksheet " + l + ":");
      CHECK(said);                                    // as a sheet, or as left out
      CHECK(drawn == !w.of("Key " + l).empty());
      if (letter == 'A' || letter == 'B' || letter == 'F' || letter == 'G' || letter == 'I') CHECK(drawn);   // the others ask for what some jobs have not
    }
    if (!w.of("Worksheet H").empty()) check_fault_hidden(w);
    for (const Drawing* page : w.of("Worksheet D")) {
      for (const auto& [key, method] : w.job.catalogue->methods) CHECK(!prints(*page, method.title));
      if (!w.facts.spec.job.title.value.empty()) CHECK(!prints(*page, w.facts.spec.job.title.value));
    }
  }
}

TEST_CASE("worksheets fit letter and A3 too") {
  const Looks looks;
  for (const char* name : {"plain-hatchback", "compact-sedan"}) {
    Worksheets w = worksheets(name, looks, "letter");
    CAPTURE(name);
    check_drawn(w.pages);
    check_drawn(worksheets_of(w.job, w.facts, looks, "a3"));
  }
}

}  // namespace towloom
