// What was found otherwise than drawn: a letter beside each, and its words in the notes.
#include <map>

#include "layout/style_fixture.hpp"
#include "sheets/sheets.hpp"

using namespace towloom;

TEST_CASE("each row of as found has its letter beside the part it is about, and its reason and date in the notes") {
  const fixture::Looks looks;
  // Rows of the job's `as found:` in their order; the cord is flagged at the outlet, the tow bar at the coach.
  const std::map<std::string, std::string> about = {{"A", "J1."}, {"B", "COACH"}, {"C", "G-X"}, {"D", "D4"}, {"E", "FU2"}, {"F", "D1"}};
  const char* said[] = {"metered core by core, outlet to inlet", "0.3 ohm", "G-X on plastic, 2026-11-24", "seen at the right tail", "FU2 not fitted", "0.9 V at 1.9 A"};
  fixture::Job job = fixture::built(fixture::job_file("inherited-hatchback"));
  REQUIRE(job.spec.has_value());
  Diagnostics diagnostics;
  const auto facts = find_facts(*job.spec, *job.catalogue, diagnostics);
  REQUIRE(facts.has_value());
  const auto pages = bench_sheet(*facts, *job.catalogue, *looks.style, looks.measure, 0, diagnostics);
  REQUIRE(pages.size() == 1);
  std::map<std::string, std::string> found;
  std::string notes;
  for (const Item& item : pages[0].items) {
    const auto* label = std::get_if<Label>(&item);
    if (label == nullptr) continue;
    if (label->decoration) notes += label->text + " ";
    else if (label->text.size() == 1 && about.count(label->text) != 0 && label->weight == Weight::semibold && !label->about.empty()) found[label->text] = label->about;
  }
  for (const auto& [letter, id] : about) {
    CAPTURE(letter);
    REQUIRE(found.count(letter) == 1);
    CHECK(found[letter].rfind(id, 0) == 0);
  }
  for (const char* words : said) CHECK_MESSAGE(notes.find(words) != std::string::npos, words);
}
