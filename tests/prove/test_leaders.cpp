// Thin lines that lead from a wire to its label, and the figures of a drawing that tell how well it reads.
#include <doctest/doctest.h>

#include "prove/drawn.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {

// The label of W2 far above its wire, with or without a line to it.
Example far_label() {
  Example e = example();
  Label& label = item<Label>(e, 0);
  label.room = box_mm(95, 20, 12, 3.5);
  label.at = {label.room.x, label.room.bottom() - 80};
  return e;
}
void lead(Example& e, Point dot, Point end) {
  Decor leader;
  leader.marks.push_back(line(dot, end, Pen{mm(0.18), {}, {}, false}));
  leader.marks.push_back(Disc{dot, mm(0.45), {}, true, {}});
  e.drawing.items.push_back(leader);
}

}  // namespace

TEST_CASE("a label far from its wire needs a line that leads to it") {
  Example e = far_label();
  CHECK(names(of_kind(proved(e), "label-far"), "W2"));
  lead(e, at_mm(105, 50), at_mm(101, 24));   // W2 lies level at 50 mm, the label ends at 23.5 mm
  CHECK(proved(e).empty());
}

TEST_CASE("a line that leads nowhere, from nowhere, or through something is a defect") {
  SUBCASE("from no wire") {
    Example e = far_label();
    lead(e, at_mm(105, 45), at_mm(101, 24));
    CHECK(of_kind(proved(e), "leader-loose") != "");
    CHECK(of_kind(proved(e), "label-far") != "");
  }
  SUBCASE("from another's wire") {
    Example e = far_label();
    lead(e, at_mm(140, 50), at_mm(101, 24));   // W4
    CHECK(of_kind(proved(e), "leader-loose") != "");
  }
  SUBCASE("to no label") {
    Example e = example();
    lead(e, at_mm(105, 50), at_mm(105, 30));
    CHECK(of_kind(proved(e), "leader-loose") != "");
  }
  SUBCASE("through another label") {
    Example e = far_label();
    add_label(e, "note", "", box_mm(98, 33, 12, 3.5));
    lead(e, at_mm(105, 50), at_mm(101, 24));
    CHECK(names(of_kind(proved(e), "leader-crossed"), "note"));
  }
  SUBCASE("across another wire") {
    Example e = far_label();
    item<Label>(e, 0).room = box_mm(95, 84, 12, 3.5);   // below W3, which lies level at 70 mm
    lead(e, at_mm(105, 50), at_mm(101, 84));
    CHECK(names(of_kind(proved(e), "leader-crossed"), "W3"));
  }
}

// Worked out by hand on the example: W3 has one bend from a dot to a lamp, as few as it can have; all others none.
TEST_CASE("excess bends, flow and alignment of the example") {
  const SheetStats s = measure(example().drawing);
  CHECK(s.most_bends == 1);
  CHECK(s.excess_bends == doctest::Approx(0));
  CHECK(s.flow_share == doctest::Approx(1));            // W6 runs downwards
  CHECK(s.aligned_share == doctest::Approx(6.0 / 8));   // A S1 L1 L2 G1 G2 stand level with a neighbour; X and Y do not
}
