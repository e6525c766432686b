// The operating point: Kirchhoff holds, floating pieces have the answer of their leaks, nonsense is refused.
#include <cmath>
#include <limits>
#include <random>

#include "solve/bench.hpp"
#include "solve/solve.hpp"

using namespace towloom;
using bench::Bench;

TEST_CASE("a divider") {
  Bench b;
  b.source("s", "0", 12, 1);
  b.resistor("s", "m", 2);
  b.resistor("m", "0", 3);
  b.run();
  CHECK(b.volts("s") == doctest::Approx(10).epsilon(1e-8));
  CHECK(b.volts("m") == doctest::Approx(6).epsilon(1e-8));
}

TEST_CASE("a loose end behind a blocked diode rises to what leak and diode share") {
  Bench b;
  b.source("s", "0", 10, 0.1);
  b.resistor("s", "x", 1e9);  // 1 nS in, 1 nS out
  b.resistor("x", "y", 1e-4);  // joined firmly: y leaks 1 nS too
  b.run();
  CHECK(b.volts("x") == doctest::Approx(10.0 / 3).epsilon(1e-6));
  CHECK(b.volts("y") == doctest::Approx(10.0 / 3).epsilon(1e-6));
}

TEST_CASE("2000 random networks converge, and currents sum to nothing at every point") {
  std::mt19937 random(20261124);
  const auto pick = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  int worst = 0;
  for (int round = 0; round < 2000; ++round) {
    Bench b;
    const int points = 3 + pick(30), elements = points + pick(2 * points);
    const auto name = [&](int p) { return p == 0 ? std::string("0") : "n" + std::to_string(p); };
    for (int i = 0; i < elements; ++i) {
      // First a tree, so that every point is used; then anything between anything.
      const int a = i + 1 < points ? i + 1 : 1 + pick(points - 1);
      const int to = i + 1 < points ? pick(i + 1) : pick(points);
      if (a == to) continue;
      switch (pick(6)) {
        case 0: b.source(name(a), name(to), 12 + pick(3), 0.05); break;
        case 1: b.lamp(name(a), name(to), 0.3 + 0.3 * pick(6), 12.8); break;
        case 2: b.led(name(a), name(to), 0.25, 12.8, 7); break;
        case 3: b.diode(name(a), name(to), bench::silicon); break;
        case 4: b.diode(name(to), name(a), bench::schottky); break;
        default: b.resistor(name(a), name(to), std::pow(10.0, pick(10) - 4)); break;
      }
    }
    CAPTURE(round);
    b.run();
    worst = std::max(worst, b.operating.iterations);
    std::vector<double> sum(b.circuit.parts[0].terminals.size(), 0), size = sum;
    for (std::size_t e = 0; e < b.circuit.parts[0].elements.size(); ++e) {
      const Element& element = b.circuit.parts[0].elements[e];
      const double amps = b.amps(static_cast<int>(e));
      sum[static_cast<std::size_t>(element.a)] += amps;
      sum[static_cast<std::size_t>(element.b)] -= amps;
      size[static_cast<std::size_t>(element.a)] += std::fabs(amps);
      size[static_cast<std::size_t>(element.b)] += std::fabs(amps);
    }
    for (std::size_t p = 1; p < sum.size(); ++p) {
      const double leak = point_leak * b.volts(b.circuit.parts[0].terminals[p]);
      REQUIRE(std::fabs(sum[p] + leak) < 1e-8 + 1e-9 * size[p]);
    }
  }
  CHECK(worst < 150);
}

TEST_CASE("what is not a number is never a solution") {
  for (const double bad : {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    Bench b;
    b.source("s", "0", bad, 1);
    b.resistor("s", "0", 3);
    const Solved solved = solve(b.circuit, b.catalogue, {});
    CHECK_FALSE(solved.converged());
  }
}

TEST_CASE("gates open and close with their signal, both flash phases are solved") {
  Bench b;
  const int left = b.source("l", "0", 12, 1), idle = b.source("i", "0", 12, 1), plugged = b.source("p", "0", 12, 1);
  b.gate(left, Gate::lit, "coach.left");
  b.gate(idle, Gate::idle, "coach.left");
  b.gate(plugged, Gate::selected, "coach.left");
  for (const char* n : {"l", "i", "p"}) b.resistor(n, "0", 1);
  const auto volts = [&](Wave wave, int phases, int phase, const char* name) {
    const Solved s = solve(b.circuit, b.catalogue, Scene{"", "", "", {{"coach.left", wave}}});
    REQUIRE(s.converged());
    REQUIRE(s.phases == phases);
    return s.phase[static_cast<std::size_t>(phase)].volts[static_cast<std::size_t>(b.at(name).index)];
  };
  CHECK(volts(Wave::on, 1, 0, "l") == doctest::Approx(6));
  CHECK(volts(Wave::off, 1, 0, "l") == 0);
  CHECK(volts(Wave::flash, 2, 0, "l") == doctest::Approx(6));
  CHECK(volts(Wave::flash, 2, 1, "l") == 0);
  CHECK(volts(Wave::counterflash, 2, 0, "l") == 0);
  CHECK(volts(Wave::counterflash, 2, 1, "l") == doctest::Approx(6));
  CHECK(volts(Wave::off, 1, 0, "i") == doctest::Approx(6));
  CHECK(volts(Wave::flash, 2, 1, "i") == 0);  // a turn switch stays thrown between two flashes
  CHECK(volts(Wave::flash, 2, 1, "p") == doctest::Approx(6));
  CHECK(volts(Wave::off, 1, 0, "p") == 0);
}

TEST_CASE("a meter is part of the circuit while it reads") {
  Bench b;
  b.source("s", "0", 12, 1e-3);
  b.resistor("s", "x", 1000);
  const auto read = [&](const std::vector<Attached>& load) {
    const Solved s = solve(b.circuit, b.catalogue, {}, load);
    REQUIRE(s.converged());
    return s.phase[0].volts[static_cast<std::size_t>(b.at("x").index)];
  };
  CHECK(read({}) == doctest::Approx(12).epsilon(1e-5));
  CHECK(read({{b.at("x"), TerminalRef{}, 1000}}) == doctest::Approx(6).epsilon(1e-5));
}

// A joint that feeds n lamps has n neighbours: removed before them it would leave each lamp joined to each other.
TEST_CASE("points are not removed where that makes the rest dense") {
  constexpr int lamps = 500;
  std::vector<std::pair<int, int>> pairs;
  std::vector<char> last(lamps + 1, 1);
  last[0] = 0;
  for (int i = 1; i <= lamps; ++i) pairs.push_back({0, i});
  const Mesh mesh(lamps + 1, pairs, last);
  CHECK(mesh.left().size() == lamps);
  CHECK(mesh.marked().size() == lamps + 1);
}
