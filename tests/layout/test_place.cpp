#include <algorithm>
#include <cstdlib>
#include <set>

#include "layout/style_fixture.hpp"
#include "layout/place.hpp"

using namespace towloom;

namespace {

struct Plain {
  fixture::Job job = fixture::built(fixture::plain_job());
  fixture::Looks looks;
  Problem problem;
  KnownOrders orders;
  OtherTries known{orders};
  std::optional<Placement> place;
  Plain() {
    REQUIRE(job.circuit.has_value());
    place = place_bench(*job.circuit, looks.look(), SheetRoom{}, Wishes{}, known, problem);
    INFO(problem.text);
    REQUIRE(place.has_value());
  }
  const Circuit& circuit() const { return *job.circuit; }
  const Standing& of(const std::string& id) const {
    const Standing* s = place->of(circuit().find(id));
    REQUIRE_MESSAGE(s != nullptr, id);
    return *s;
  }
};

bool apart(const GridBox& a, const GridBox& b) {
  return a.right < b.left || b.right < a.left || a.bottom < b.top || b.bottom < a.top;
}

bool within(const GridBox& b, int width, int height) {
  return b.left >= 0 && b.top >= 0 && b.right <= width && b.bottom <= height;
}

}  // namespace

TEST_CASE("the plain job: every part stands once, inside A4, on its own ground") {
  const Plain p;
  const auto& parts = p.place->parts;
  CHECK(parts.size() == p.circuit().parts.size());
  std::set<int> ids;
  for (const Standing& s : parts) {
    CHECK_FALSE(s.repeat);
    ids.insert(s.part.v);
    INFO(p.circuit().part(s.part).id);
    CHECK(within(s.body, 118, 84));  // 297 x 210 mm in whole modules of 2.5 mm
  }
  CHECK(ids.size() == parts.size());
  for (std::size_t i = 0; i < parts.size(); ++i)
    for (std::size_t k = i + 1; k < parts.size(); ++k) {
      INFO(p.circuit().part(parts[i].part).id << " and " << p.circuit().part(parts[k].part).id);
      CHECK(apart(parts[i].body, parts[k].body));
    }
}

TEST_CASE("the plain job: both ends of every wire stand at a terminal of the right part") {
  const Plain p;
  for (std::size_t w = 0; w < p.circuit().wires.size(); ++w)
    for (bool from : {true, false}) {
      const Wire& wire = p.circuit().wires[w];
      const TerminalRef t = from ? wire.from : wire.to;
      INFO(wire.id << (from ? " from " : " to ") << p.circuit().name(t));
      const auto end = p.place->ends.find({static_cast<int>(w), from});
      REQUIRE(end != p.place->ends.end());
      CHECK(end->second.terminal == t.index);
      const Standing* part = p.place->of(t.part);
      REQUIRE(part != nullptr);
      const GridPoint at = end->second.at;
      CHECK(std::any_of(part->pins.begin(), part->pins.end(),
                        [&](const PinSpot& s) { return s.at == at && s.terminal == t.index; }));
    }
}

TEST_CASE("the plain job: no two terminals of different parts share a place") {
  const Plain p;
  std::set<GridPoint> seen;
  for (const Standing& s : p.place->parts) {
    std::set<GridPoint> own;
    for (const PinSpot& pin : s.pins) own.insert(pin.at);
    for (GridPoint at : own) {
      INFO(p.circuit().part(s.part).id << " at " << at.x << ", " << at.y);
      CHECK(seen.insert(at).second);
    }
  }
}

TEST_CASE("the plain job: right above the axis, left below, twins mirrored") {
  const Plain p;
  const int axis = p.place->axis;
  // Left and right twins of the survey: blocks D1 and D2 (stop/turn), D3 and D4 (tail), in this
  // order.
  for (const auto& [left, right] : {std::pair("D1", "D2"), std::pair("D3", "D4")}) {
    const Standing &l = p.of(left), &r = p.of(right);
    CHECK(r.at.y < axis);
    CHECK(l.at.y > axis);
    CHECK(l.at.x == r.at.x);
    REQUIRE(l.pins.size() == r.pins.size());
    for (const PinSpot& a : l.pins)
      for (const PinSpot& b : r.pins)
        if (a.terminal == b.terminal) {
          CHECK(a.at.x == b.at.x);
          CHECK(a.at.y - axis == axis - b.at.y);
        }
    // The coach's input lies outside, the car's inside (A1 and A2 of the blocks).
    CHECK(std::abs(l.pins[0].at.y - axis) > std::abs(l.pins[1].at.y - axis));
  }
}

TEST_CASE(
    "the plain job: contacts from the top are right, ground, tail, left; each mated pair level") {
  const Plain p;
  int last = 0;
  for (const char* contact : {"4", "1", "2", "3"}) {  // four-flat: 1 ground 2 tail 3 left 4 right
    const Standing &outlet = p.of(std::string("J1.") + contact),
                   &inlet = p.of(std::string("J2.") + contact);
    CHECK(outlet.at.y == inlet.at.y);
    CHECK(outlet.at.x < inlet.at.x);
    CHECK(outlet.at.y > last);
    last = outlet.at.y;
  }
  CHECK(p.of("J2.1").at.y == p.place->axis);
}

TEST_CASE("the plain job: lamps lie at the right, each with a ground of its own unit") {
  const Plain p;
  for (const LampIntent& lamp : p.circuit().lamps) {
    const Standing* s = p.place->of(lamp.lamp);
    REQUIRE(s != nullptr);
    CHECK(s->body.left >= p.place->columns.lamp);
    CHECK(s->body.right < p.place->columns.end);
    const int d = s->at.y - p.place->axis;
    if (lamp.side == Side::left) CHECK(d > 0);
    if (lamp.side == Side::right) CHECK(d < 0);
  }
}

TEST_CASE("the plain job: every wire finds its way past all parts") {
  const Plain p;
  Grid grid{118, 84, {}, {}};
  std::vector<RouteRequest> requests;
  for (const Standing& s : p.place->parts) {
    grid.blocked.push_back(s.body);
    for (const PinSpot& pin : s.pins) grid.terminals.push_back(pin.at);
  }
  for (std::size_t w = 0; w < p.circuit().wires.size(); ++w) {
    const PinSpot &from = p.place->ends.at({static_cast<int>(w), true}),
                  &to = p.place->ends.at({static_cast<int>(w), false});
    requests.push_back({p.circuit().wires[w].id, from.at, to.at, from.way, to.way});
  }
  int straight = 0;
  for (const Routed& r : route(grid, requests)) {
    INFO(r.id);
    REQUIRE(r.path.size() >= 2);
    CHECK(r.path.size() <= 6);  // at most four bends (anchors A4)
    straight += r.path.size() == 2;
  }
  CHECK(straight * 100 >= 45 * static_cast<int>(requests.size()));  // anchors A4
}

TEST_CASE("a room too small is refused with what is missing") {
  const fixture::Looks looks;
  const Circuit circuit = *fixture::built(fixture::plain_job()).circuit;
  Problem problem;
  KnownOrders orders;
  OtherTries known{orders};
  CHECK_FALSE(place_bench(circuit, looks.look(), {8, 8, 114, 40}, {}, known, problem).has_value());
  CHECK(problem.text.find("height") != std::string::npos);
  CHECK_FALSE(place_bench(circuit, looks.look(), {8, 8, 70, 66}, {}, known, problem).has_value());
  CHECK(problem.text.find("width") != std::string::npos);
}
