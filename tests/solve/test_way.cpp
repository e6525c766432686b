// The way of a lamp's current in the plain job, written by hand from its survey: flat four-way plug, ground on contact
// 1, left on 3; left lamp on stud G-RL, the coach's white wire on G-F.
#include "circuit/fixture.hpp"
#include "solve/network.hpp"
#include "solve/way.hpp"

using namespace towloom;

namespace {

struct Traced {
  fixture::Job job = fixture::built(fixture::plain_job());
  Way way(const Scene& scene, const char* lamp) {
    Circuit& c = *job.circuit;
    for (Wire& w : c.wires)
      if (!w.size && w.fixed_ohm < 0) w.size = parse_wire_size("16 AWG");
    const Solved solved = solve(c, *job.catalogue, scene);
    REQUIRE(solved.converged());
    const std::vector<Current> currents = find_currents(c, number_points(c), solved.phase[0], 0.001);
    const PartId id = c.find(lamp);
    for (const Current& a : currents)
      if (a.part == id) return find_way(flatten(c, *job.catalogue, scene, 0).point, currents, a);
    FAIL("the lamp carries no current");
    return {};
  }
  // The parts on the way, in order; wires apart.
  std::vector<std::string> parts(const Way& way) const {
    std::vector<std::string> out;
    for (const Current& a : way.steps)
      if (!a.wire) out.push_back(job.circuit->part(a.part).id);
    return out;
  }
};

}  // namespace

TEST_CASE("the coach's current goes through the lamp and back to the coach by car body and the white wire") {
  Traced t;
  const Way way = t.way({"", "", "", {{"coupled", Wave::on}, {"coach.left", Wave::on}}}, "E1");
  CHECK(way.closed);
  CHECK(t.parts(way) == std::vector<std::string>{"J1.3", "J2.3", "D1", "E1", "G-RL", "G-F", "J2.1", "J1.1"});
  CHECK(way.steps[way.lamp].part == t.job.circuit->find("E1"));
}

TEST_CASE("the car's current goes back to its battery's negative post, not to the coach") {
  Traced t;
  const Way way = t.way({"", "", "", {{"car.turn.left", Wave::on}, {"coupled", Wave::on}}}, "E1");
  CHECK(way.closed);
  CHECK(t.parts(way) == std::vector<std::string>{"FU1", "TURN", "D1", "E1", "G-RL", "G-BAT"});
}

// Both vehicles at once: what the battery feeds returns to the battery, what the coach feeds to the coach.
TEST_CASE("with two sources at work each lamp's way closes at its own source") {
  Traced t;
  const Scene both{"", "", "", {{"coupled", Wave::on}, {"coach.tail", Wave::on}, {"car.turn.left", Wave::on}}};
  const Way turn = t.way(both, "E1"), tail = t.way(both, "E3");
  CHECK(turn.closed);
  CHECK(tail.closed);
  CHECK(t.parts(turn).back() == "G-BAT");
  CHECK(t.parts(tail).back() == "J1.1");
}
