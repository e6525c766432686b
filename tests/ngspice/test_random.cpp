// Random networks of fixed seeds: our operating point against ngspice's, from the deck we write.
#include <cmath>
#include <random>

#include "ngspice/run_deck.hpp"
#include "solve/bench.hpp"
#include "solve/solve.hpp"

using namespace towloom;
using bench::Bench;

namespace {

// Every point is held by this much: a piece held by 1 nS alone is not solved by ngspice to better
// than some 0.1 mV (see tests/solve/test_floating.cpp).
constexpr double held_ohm = 1e6;

// A tree first, so that every point is used, then branches between any two points. Every source has
// the resistance of a real one.
Bench make(unsigned seed, bool with_leds) {
  std::mt19937 random(seed);
  const auto pick = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  Bench b;
  const int points = 4 + pick(9), branches = points + pick(points);
  const auto name = [](int p) { return p == 0 ? std::string("0") : "n" + std::to_string(p); };
  b.source("n1", "0", 12 + 0.1 * pick(20), 0.1);
  for (int p = 1; p < points; ++p) b.resistor(name(p), "0", held_ohm);
  for (int i = 0; i < branches; ++i) {
    const int from = i + 1 < points ? i + 1 : 1 + pick(points - 1);
    const int to = i + 1 < points ? pick(i + 1) : pick(points);
    if (from == to) continue;
    switch (pick(with_leds ? 7 : 6)) {
      case 0: b.source(name(from), name(to), 12 + 0.1 * pick(20), 0.05 + 0.05 * pick(10)); break;
      case 1: b.lamp(name(from), name(to), 0.3 + 0.3 * pick(6), 12.8); break;
      case 2: b.lamp(name(from), name(to), 0.4, 13.5); break;
      case 3: b.diode(name(from), name(to), bench::silicon); break;
      case 4: b.diode(name(to), name(from), bench::schottky); break;
      case 6: b.led(name(from), name(to), 0.25, 12.8, 7); break;
      default: b.resistor(name(from), name(to), std::pow(10.0, pick(7) - 3)); break;
    }
  }
  return b;
}

// Compares all points; false when ngspice itself gave up.
bool same_as_ngspice(Bench& b, const std::map<std::string, double>& theirs) {
  const Solved ours = solve(b.circuit, b.catalogue, {});
  REQUIRE(ours.converged());
  if (theirs.empty()) return false;
  const Flat flat = flatten(b.circuit, b.catalogue, {}, 0);
  for (std::size_t p = 0; p < flat.point.size(); ++p) {
    if (flat.point[p] < 0) continue;
    const auto at = theirs.find("p" + std::to_string(flat.point[p]));
    REQUIRE(at != theirs.end());
    CAPTURE(b.circuit.parts[0].terminals[p]);
    CAPTURE(at->second);
    const double mine = ours.phase[0].volts[p];
    CAPTURE(mine);
    CHECK(std::fabs(mine - at->second) <= 10e-6 + 1e-6 * std::fabs(at->second));
  }
  return true;
}

// How many of these seeds' networks ngspice solves, all in one process.
int count_same(unsigned first, unsigned last, bool with_leds) {
  std::vector<Bench> networks;
  std::vector<std::string> decks;
  for (unsigned seed = first; seed <= last; ++seed) {
    networks.push_back(make(seed, with_leds));
    decks.push_back(netlist(networks.back().circuit, networks.back().catalogue, {}, 0));
  }
  const auto theirs = ngspice::volts_of_all(decks);
  int compared = 0;
  for (std::size_t i = 0; i < networks.size(); ++i) {
    CAPTURE(first + i);
    compared += same_as_ngspice(networks[i], theirs[i]);
  }
  return compared;
}

}  // namespace

TEST_CASE("120 random networks of sources, lamps, diodes and resistors are solved as ngspice does") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  CHECK(count_same(1, 120, false) >= 100);
}

TEST_CASE("30 random networks that hold LEDs too") {
  REQUIRE(ngspice::present());
  CHECK(count_same(1001, 1030, true) >= 20);
}
