// Expected volts of the lamps: each stands beside its lamp, or the notes say it.
#include <map>

#include "layout/drawn_job.hpp"
#include "sheets/bench_page.hpp"

using namespace towloom;

TEST_CASE("every lamp that lights in tow has its volts beside it on a full page; the notes say those without room") {
  const fixture::Looks looks;
  const fixture::DrawnJob drawn = fixture::drawn_job("touring-sedan", looks);
  const auto& [job, facts, pages] = drawn;
  REQUIRE(pages.size() == 1);
  std::map<std::string, std::string> volts;   // by lamp
  for (const Item& item : pages[0].items)
    if (const auto* label = std::get_if<Label>(&item); label != nullptr && label->text.size() > 2 && label->text.substr(label->text.size() - 2) == " V") volts[label->about] = label->text;
  // By the job: stop and tail on both sides, and the plate lamp; the turn lamps are dark.
  for (const char* id : {"E1", "E2", "E3", "E4", "E7"}) CHECK_MESSAGE(volts.count(id) == 1, id);
  for (const char* id : {"E5", "E6"}) CHECK_MESSAGE(volts.count(id) == 0, id);
  // The same volts in the notes, were there no room for those of the left stop lamp.
  const BenchSet set{facts, *job.catalogue, *looks.style, looks.measure, 1, 2};
  const PageCircuit page = split(facts.circuit(), Apart{}).front();
  const auto said = [&](const std::set<int>& far) {
    std::string out;
    for (const std::string& line : notes_of(set, page, {1, "a3", "", {}, far}, mm(380))) out += line + " ";
    return out;
  };
  REQUIRE(page.circuit.part(page.circuit.lamps[0].lamp).id == "E1");
  CHECK(said({}).find("left rear stop") == std::string::npos);
  CHECK(said({0}).find("Without room at the lamp: left rear stop " + volts["E1"] + ".") != std::string::npos);
}
