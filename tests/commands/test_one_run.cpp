// One run says everything that is wrong with a file: rows, names of the job's own and names of the catalogue.
#include <doctest/doctest.h>

#include "commands/program.hpp"

using namespace towloom::testing;

TEST_CASE("slips of every kind in one job are all said in one run, each with its advice") {
  const auto folder = fresh("one-run");
  std::string text = bytes(TOWLOOM_ROOT "/specs/jobs/plain-hatchback.yaml");
  for (const auto& [from, to] : {std::pair{"half: trailer", "half: trialer"}, std::pair{"2 x R5W", "2 x R7W"},
                                 std::pair{"monitoring:", "monitorng:"}, std::pair{"length: 1.3 m", "length: -5 m"},
                                 std::pair{"method: two-way-diodes", "method: two-way-diode"}, std::pair{"cord: {length: 2.4 m, wire: 16 AWG", "cord: {length: 2.4 m, wire: 17 AWG"},
                                 std::pair{"feed: WH/VT 0.5 mm2", "feed: QQ/VT 0.5 mm2"}, std::pair{"to G-RL", "to G-LR"}, std::pair{"date: 2026-11-24", "date: 2026-02-31"},
                                 std::pair{"upstream of left rear", "upsteam of left rear"}}) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    text.replace(at, std::string(from).size(), to);
  }
  write(folder / "job.yaml", text);
  const Outcome o = towloom_run("check " + (folder / "job.yaml").string());
  CAPTURE(o.text);
  CHECK(o.status == 2);
  for (const char* said : {"'trialer' is no half", "no lamp 'R7W'", "did you mean 'monitoring'", "'length' cannot be right", "did you mean 'two-way-diodes'",
                           "no wire of size 17 AWG", "'QQ/VT' is no colour in any convention", "did you mean 'G-RL'", "'2026-02-31' is not a date", "did you mean 'upstream of'"})
    CHECK(has(o, said));
}

TEST_CASE("a text that runs on to the next line is refused at its place") {
  const auto folder = fresh("run-on");
  const Outcome o = towloom_run("check " + altered(folder, "battery: engine bay left", "battery: engine bay\n    left"));
  CHECK(o.status == 2);
  CHECK(has(o, "this text runs over several lines"));
  CHECK(has(o, "engine bay"));
  CHECK(has(o, "write it on one line"));
}
