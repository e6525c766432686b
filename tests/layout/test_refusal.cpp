// What is said of a circuit that does not fit the paper.
#include "layout/style_fixture.hpp"
#include "sheets/bench_page.hpp"

using namespace towloom;

TEST_CASE("a circuit that does not fit: the sheet that is too large, the next larger paper, and the part where most wires end") {
  const fixture::Looks looks;
  PageCircuit page;
  page.group = "group-lamps";
  page.part = 1;
  page.parts = 2;
  Part hub;
  hub.id = "S1";
  hub.kind = "splice";
  page.circuit.parts.push_back(hub);
  for (int i = 1; i <= 9; ++i) {
    Part lamp;
    lamp.id = "E" + std::to_string(i);
    lamp.kind = "lamp";
    page.circuit.parts.push_back(lamp);
    Wire wire;
    wire.from = {PartId{0}, 0};
    wire.to = {PartId{i}, 0};
    page.circuit.wires.push_back(wire);
  }
  const std::vector<PageCircuit> pages{page, page};
  // Sizes of ISO 216: A3 is 1.41 times as high as A4, A1 2.8 times.
  const Refusal high = refusal(*looks.style, "a4", pages, 1, {"it needs 260 mm in height and finds 200", 1.3, false});
  CHECK(high.message == "the bench sheet does not fit a4 paper, even as 2 sheets; \"lamps 1 of 2\": it needs 260 mm in height and finds 200");
  CHECK(high.hint == "draw it on a3, or join fewer wires at S1, where 9 end");
  CHECK(refusal(*looks.style, "letter", pages, 1, {"", 1.2, true}).hint == "draw it on tabloid");
  CHECK(refusal(*looks.style, "a4", pages, 1, {"", 2.5, true}).hint == "draw it on a1");
  CHECK(refusal(*looks.style, "a1", pages, 1, {"", 2, true}).hint == "no larger paper is known: divide the job, or leave out an extra");
}
