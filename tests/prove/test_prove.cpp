// Each defect is put once into a clean drawing made by hand and must be found and named.
#include <doctest/doctest.h>

#include <stdexcept>

#include "prove/drawn.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {
std::string listing(const std::vector<Defect>& all) {
  std::string out;
  for (const Defect& d : all) out += d.kind + ": " + d.message + "\n";
  return out;
}
}  // namespace

TEST_CASE("a clean drawing has no defect") {
  const Example e = example();
  CHECK(listing(proved(e)) == "");
}

TEST_CASE("wires against pins") {
  Example e = example();
  SUBCASE("an end beside its pin") {
    wire(e, "W4").path.back().x -= mm(0.5);
    CHECK(names(of_kind(proved(e), "pin-miss"), "W4"));
    CHECK(names(of_kind(proved(e), "wrong-ends"), "W4"));
  }
  SUBCASE("an end on another pin") {
    wire(e, "W5").path = {at_mm(130, 70), at_mm(145, 70), at_mm(145, 50), at_mm(155, 50)};
    const auto found = proved(e);
    CHECK(names(of_kind(found, "wrong-pin"), "G1.1"));
    CHECK(names(of_kind(found, "wrong-ends"), "W5"));
    CHECK(names(of_kind(found, "split-net"), "G2.1"));
  }
  SUBCASE("drawn right, but the data names other terminals") {
    wire(e, "W4").to = "G2.1";
    CHECK(names(of_kind(proved(e), "wrong-data"), "W4"));
  }
  SUBCASE("two wires swapped in picture and data alike") {  // only the circuit can tell
    wire(e, "W4").path = {at_mm(130, 50), at_mm(140, 50), at_mm(140, 60),
                          at_mm(150, 60), at_mm(150, 70), at_mm(155, 70)};
    wire(e, "W5").path = {at_mm(130, 70), at_mm(145, 70), at_mm(145, 50), at_mm(155, 50)};
    wire(e, "W4").to = "G2.1";
    wire(e, "W5").to = "G1.1";
    part(e, "G1").pins[0].net = "N3";
    part(e, "G2").pins[0].net = "N2";
    const auto found = proved(e);
    CHECK(names(of_kind(found, "wrong-ends"), "W4"));
    CHECK(of_kind(found, "split-net") != "");
    CHECK(of_kind(found, "extra-net") != "");
  }
  SUBCASE("aslant") {
    wire(e, "W4").path[1].y += mm(5);
    CHECK(names(of_kind(proved(e), "diagonal"), "W4"));
  }
  SUBCASE("back on itself") {
    wire(e, "W4").path = {at_mm(130, 50), at_mm(150, 50), at_mm(140, 50), at_mm(155, 50)};
    CHECK(names(of_kind(proved(e), "fold-back"), "W4"));
  }
}

TEST_CASE("wires against one another") {
  Example e = example();
  SUBCASE("on one line") {
    wire(e, "W6").path = {at_mm(60, 35), at_mm(60, 50), at_mm(70, 50),
                          at_mm(70, 60), at_mm(60, 60), at_mm(60, 80)};
    const auto found = proved(e);
    CHECK(names(of_kind(found, "overlap"), "W6"));
    CHECK(of_kind(found, "extra-net") != "");  // a reader takes them for one
  }
  SUBCASE("closer than 2 mm") {
    wire(e, "W6").path = {at_mm(60, 35), at_mm(60, 48.5), at_mm(70, 48.5),
                          at_mm(70, 60), at_mm(60, 60),   at_mm(60, 80)};
    CHECK(names(of_kind(proved(e), "too-near"), "W6"));
  }
  SUBCASE("exactly 2 mm apart is good") {
    wire(e, "W6").path = {at_mm(60, 35), at_mm(60, 48), at_mm(70, 48),
                          at_mm(70, 60), at_mm(60, 60), at_mm(60, 80)};
    CHECK(listing(proved(e)) == "");
  }
  SUBCASE("a bend on a foreign wire") {
    wire(e, "W6").path = {at_mm(60, 35), at_mm(60, 50), at_mm(60, 80)};
    CHECK(names(of_kind(proved(e), "false-junction"), "W6"));
    CHECK(of_kind(proved(e), "extra-net") != "");
  }
  SUBCASE("over a foreign pin") {
    part(e, "X").body = box_mm(70, 30, 20, 5);
    part(e, "X").pins[0].at = at_mm(80, 35);
    part(e, "Y").body = box_mm(75, 80, 10, 5);
    part(e, "Y").pins[0].at = at_mm(80, 80);
    wire(e, "W6").path = {at_mm(80, 35), at_mm(80, 80)};
    CHECK(names(of_kind(proved(e), "false-junction"), "S1.1"));
  }
}

TEST_CASE("wires against parts") {
  Example e = example();
  SUBCASE("through a foreign part") {
    wire(e, "W6").path = {at_mm(60, 35), at_mm(60, 42), at_mm(37, 42),
                          at_mm(37, 60), at_mm(60, 60), at_mm(60, 80)};
    CHECK(names(of_kind(proved(e), "symbol-hit"), "W6 runs through A"));
  }
  SUBCASE("from behind through its own part") {
    wire(e, "W4").path = {at_mm(130, 50), at_mm(140, 50), at_mm(140, 40),
                          at_mm(170, 40), at_mm(170, 50), at_mm(155, 50)};
    CHECK(names(of_kind(proved(e), "symbol-hit"), "W4 runs through G1"));
  }
  SUBCASE("two parts on one place") {
    part(e, "Y").body = box_mm(55, 80, 10, 5);
    part(e, "X").body = box_mm(50, 30, 15, 52);
    CHECK(names(of_kind(proved(e), "part-overlap"), "Y"));
  }
}

TEST_CASE("dots") {
  Example e = example();
  Junction& dot = item<Junction>(e, 0);
  SUBCASE("three wires without one") {
    dot.at = at_mm(80, 70);
    const auto found = proved(e);
    CHECK(names(of_kind(found, "no-dot"), "(80.00, 50.00)"));
    CHECK(names(of_kind(found, "stray-dot"), "(80.00, 70.00)"));
  }
  SUBCASE("on a crossing of two nets") {
    dot.at = at_mm(60, 50);
    const auto found = proved(e);
    CHECK(names(of_kind(found, "false-junction"), "W6"));
    CHECK(of_kind(found, "extra-net") != "");
  }
  SUBCASE("four wires on one point") {
    add_part(e, "Z", "fuse", box_mm(75, 25, 10, 5), {{"1", at_mm(80, 30)}}, {"N1"});
    add_wire(e, "W7", "N1", "Z.1", "S1.1", {at_mm(80, 30), at_mm(80, 50)});
    CHECK(names(of_kind(proved(e), "crowded-point"), "(80.00, 50.00)"));
  }
}

TEST_CASE("a splice of four wires stands on a bar") {
  Example e = example();
  add_part(e, "Z", "fuse", box_mm(70, 20, 10, 5), {{"1", at_mm(75, 25)}}, {"N1"});
  add_wire(e, "W7", "N1", "Z.1", "S1.1", {at_mm(75, 25), at_mm(75, 45), at_mm(80, 45)});
  PartFigure& splice = part(e, "S1");
  splice.pins = {{"S1.1", "N1", at_mm(80, 45)},
                 {"S1.2", "N1", at_mm(80, 50)},
                 {"S1.3", "N1", at_mm(80, 55)},
                 {"S1.4", "N1", at_mm(80, 50)}};
  wire(e, "W1").to = "S1.2";
  wire(e, "W2").from = "S1.4";
  wire(e, "W3").from = "S1.3";
  wire(e, "W3").path = {at_mm(80, 55), at_mm(90, 55), at_mm(90, 70), at_mm(120, 70)};
  item<Junction>(e, 0).radius = 0;
  e.drawing.items.push_back(LinkBar{"S1", "N1", {at_mm(80, 45), at_mm(80, 55)}, {}});
  CHECK(listing(proved(e)) == "");
  SUBCASE("a pin beside the bar") {
    splice.pins[2].at = at_mm(85, 55);
    wire(e, "W3").path[0] = at_mm(85, 55);
    CHECK(names(of_kind(proved(e), "pin-miss"), "S1.3"));
  }
  SUBCASE("crossed by a foreign wire") {
    wire(e, "W6").path = {at_mm(60, 35), at_mm(60, 47.5), at_mm(100, 47.5), at_mm(100, 80),
                          at_mm(60, 80)};
    CHECK(names(of_kind(proved(e), "link-crossed"), "W6"));
  }
}

TEST_CASE("labels") {
  Example e = example();
  Label& w2 = item<Label>(e, 0);
  SUBCASE("on another label") {
    w2.room = box_mm(112, 40, 12, 3.5);
    CHECK(names(of_kind(proved(e), "label-overlap"), "stop"));
  }
  SUBCASE("on a foreign part") {
    w2.room = box_mm(112, 45.5, 12, 3.5);
    CHECK(names(of_kind(proved(e), "label-on-part"), "L1"));
  }
  SUBCASE("on its own part is good") {
    item<Label>(e, 2).room = box_mm(121, 46, 8, 3.5);
    CHECK(listing(proved(e)) == "");
  }
  SUBCASE("on a foreign wire") {
    w2.room = box_mm(95, 66.5, 12, 3.5);
    CHECK(names(of_kind(proved(e), "label-on-foreign-wire"), "W3"));
  }
  SUBCASE("struck through by its own wire") {
    w2.room = box_mm(95, 48, 12, 3.5);
    CHECK(names(of_kind(proved(e), "label-on-own-wire"), "W2"));
  }
  SUBCASE("too far") {
    w2.room = box_mm(95, 40, 12, 3.5);  // its lower edge is 6.5 mm above the wire
    CHECK(names(of_kind(proved(e), "label-far"), "W2"));
  }
  SUBCASE("nearer to a foreign wire") {
    w2.room = box_mm(95, 63, 12, 3.5);
    CHECK(names(of_kind(proved(e), "label-ambiguous"), "W3"));
  }
  SUBCASE("too small") {
    w2.size = mm(3.3);  // capitals 2.4 mm
    CHECK(names(of_kind(proved(e), "small-text"), "W2 YE"));
  }
  SUBCASE("over the frame line") {
    item<Label>(e, 2).room = box_mm(15, 40, 10, 3.5);
    CHECK(names(of_kind(proved(e), "outside-frame"), "stop"));
  }
  SUBCASE("on the face of a contact") {
    e.drawing.items.push_back(ContactFigure{
        "J1", "3", "left", "mating", at_mm(100, 46), {Disc{at_mm(100, 46), mm(2), {}, false, {}}}});
    CHECK(names(of_kind(proved(e), "label-on-part"), "J1.3"));
  }
}

TEST_CASE("nothing is left out, invented or drawn twice") {
  Example e = example();
  SUBCASE("a wire left out") {
    std::erase_if(e.drawing.items, [](const Item& i) {
      const WireRun* run = std::get_if<WireRun>(&i);
      return run != nullptr && run->wire == "W5";
    });
    CHECK(names(of_kind(proved(e), "missing-wire"), "W5"));
    CHECK(of_kind(proved(e), "split-net") != "");
  }
  SUBCASE("a part left out") {
    std::erase_if(e.drawing.items, [](const Item& i) {
      const PartFigure* figure = std::get_if<PartFigure>(&i);
      return figure != nullptr && figure->part == "G2";
    });
    CHECK(names(of_kind(proved(e), "missing-part"), "G2"));
    CHECK(names(of_kind(proved(e), "pin-miss"), "W5"));
  }
  SUBCASE("a wire too many") {
    e.circuit.wires.pop_back();
    CHECK(names(of_kind(proved(e), "extra-wire"), "W6"));
  }
  SUBCASE("a part too many") {
    part(e, "Y").part = "Q";
    CHECK(names(of_kind(proved(e), "extra-part"), "Q"));
  }
  SUBCASE("a terminal drawn twice") {
    part(e, "X").pins.push_back({"X.1", "N4", at_mm(65, 35)});
    CHECK(names(of_kind(proved(e), "repeated-terminal"), "X.1"));
  }
  SUBCASE("a terminal not drawn") {
    part(e, "L1").pins.pop_back();
    CHECK(names(of_kind(proved(e), "missing-pin"), "L1.return"));
  }
  SUBCASE("a net name that the geometry contradicts") {
    part(e, "G2").pins[0].net = "N2";
    CHECK(of_kind(proved(e), "wrong-net") != "");
  }
  SUBCASE("studs that no longer say what they join") {
    part(e, "G2").joins = "";
    CHECK(names(of_kind(proved(e), "wrong-data"), "G2"));
    CHECK(of_kind(proved(e), "split-net") != "");
  }
  SUBCASE("a wrong colour") {
    wire(e, "W1").colour = "BN";
    CHECK(names(of_kind(proved(e), "wrong-data"), "colour BN"));
  }
  SUBCASE("outside the frame") {
    part(e, "A").body = box_mm(15, 45, 25, 10);
    CHECK(names(of_kind(proved(e), "outside-frame"), "A"));
  }
  SUBCASE("a wire on the line of the frame") {   // ISO 5457: 20 mm from the left edge of the paper
    Polyline& path = wire(e, "W1").path;
    path.insert(path.begin() + 1, {Point{mm(20), path.front().y}});
    CHECK(names(of_kind(proved(e), "outside-frame"), "W1 lies on the frame"));
  }
}

TEST_CASE("a wire that continues on another page") {
  Example e = example();
  Drawing second = e.drawing;
  second.items.clear();
  PartFigure there = part(e, "G1");
  std::erase_if(e.drawing.items, [](const Item& i) {
    const PartFigure* figure = std::get_if<PartFigure>(&i);
    return figure != nullptr && figure->part == "G1";
  });
  const auto reference = [](const std::string& id, Point at) {
    PartFigure out;
    out.part = id;
    out.kind = "reference";
    out.body = {at.x, at.y - mm(2), mm(6), mm(4)};
    out.pins = {{id + ".1", "N2", at}};
    return out;
  };
  WireRun& run = wire(e, "W4");
  run.pieces = 2;
  WireRun rest = run;
  rest.piece = 2;
  e.drawing.items.push_back(reference("R1", at_mm(155, 50)));
  PartFigure back = reference("R2", at_mm(130, 50));
  back.body.x -= mm(6);
  second.items.push_back(back);
  second.items.push_back(there);
  second.items.push_back(rest);
  CHECK(listing(prove({e.drawing, second}, e.circuit)) == "");
  SUBCASE("its other piece left out") {
    second.items.pop_back();
    const auto found = prove({e.drawing, second}, e.circuit);
    CHECK(names(of_kind(found, "missing-piece"), "W4"));
    CHECK(names(of_kind(found, "wrong-ends"), "W4"));
  }
}

TEST_CASE("figures of a drawing") {
  const SheetStats s = measure(example().drawing);
  CHECK(s.wires == 6);
  CHECK(s.crossings == 1);
  CHECK(s.bends == 1);
  CHECK(s.straight == 5);
  CHECK(s.straight_share == doctest::Approx(5.0 / 6));
  CHECK(s.length_ratio == doctest::Approx(1.0));
  CHECK(s.worst_detour == doctest::Approx(1.0));
  CHECK(s.min_gap_mm == doctest::Approx(20.0));  // W4 above W5, and W6 left of W3
  CHECK(s.twin_symmetry == doctest::Approx(1.0));
  CHECK(s.overlaps == 0);
  SUBCASE("a detour and a twin out of place, by hand") {
    Example e = example();
    wire(e, "W4").path = {at_mm(130, 50), at_mm(140, 50), at_mm(140, 40),
                          at_mm(150, 40), at_mm(150, 50), at_mm(155, 50)};
    part(e, "L2").body.x += mm(5);
    const SheetStats t = measure(e.drawing);
    CHECK(t.worst_detour == doctest::Approx(45.0 / 25));
    CHECK(t.twin_symmetry == doctest::Approx(0.5));  // 5 mm of 10
    CHECK(t.bends == 5);
  }
  SUBCASE("of two pairs one lamp hangs 4 mm too low: 1 - mean of 2 mm and 2 mm of 10, about the common axis") {
    Example e = example();   // the lamps' middles at 50 and 70: twice the axis is 120
    add_part(e, "L3", "lamp", box_mm(120, 25, 10, 10), {{"feed", at_mm(120, 30)}}, {"N5"}, "", "left tail");
    add_part(e, "L4", "lamp", box_mm(120, 89, 10, 10), {{"feed", at_mm(120, 94)}}, {"N6"}, "", "right tail");
    CHECK(measure(e.drawing).twin_symmetry == doctest::Approx(0.8));   // sums 120 and 124, mean 122
  }
}

TEST_CASE("the layered count: two wires that change places ask for one crossing, two that do not for none") {
  // Two parts with two pins at the left, two at the right; right angles drawn by hand.
  const auto part = [](const std::string& id, double x, const std::string& upper, const std::string& lower) {
    PartFigure f;
    f.part = id;
    f.kind = "box";
    f.body = {mm(x), mm(0), mm(10), mm(40)};
    f.pins = {{id + ".1", upper, {mm(x), mm(10)}}, {id + ".2", lower, {mm(x), mm(30)}}};
    return f;
  };
  const auto wire = [](const std::string& id, const std::string& net, Polyline path) {
    WireRun run;
    run.wire = id;
    run.net = net;
    run.path = std::move(path);
    run.core = {mm(0.5), {}, {}, false};
    return run;
  };
  for (const bool change : {true, false}) {
    Drawing d;
    d.items.emplace_back(part("A", 10, "N1", "N2"));
    d.items.emplace_back(part("B", 60, change ? "N2" : "N1", change ? "N1" : "N2"));
    const double to_1 = change ? 30 : 10, to_2 = change ? 10 : 30;
    if (change) {
      d.items.emplace_back(wire("W1", "N1", {{mm(10), mm(10)}, {mm(40), mm(10)}, {mm(40), mm(to_1)}, {mm(60), mm(to_1)}}));
      d.items.emplace_back(wire("W2", "N2", {{mm(10), mm(30)}, {mm(30), mm(30)}, {mm(30), mm(to_2)}, {mm(60), mm(to_2)}}));
    } else {
      d.items.emplace_back(wire("W1", "N1", {{mm(10), mm(10)}, {mm(60), mm(10)}}));
      d.items.emplace_back(wire("W2", "N2", {{mm(10), mm(30)}, {mm(60), mm(30)}}));
    }
    CHECK(measure(d).layered_crossings == (change ? 1 : 0));
  }
}
