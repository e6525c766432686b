// Relays against ngspice's own hysteresis switch: a deck written by hand, beside the same circuit in our values.
// VT and VH of the switch: on above VT + VH = 8 V, off below VT - VH = 1.2 V.
#include <cmath>

#include "ngspice/run_deck.hpp"
#include "solve/bench.hpp"
#include "solve/solve.hpp"

using namespace towloom;

namespace {

// Coach line with 0.42 ohm feeds the coil (85 ohm); the lamp hangs on the car at rest, on the coach when pulled in.
std::string deck(double coach_v, double car_v) {
  const auto text = [](double v) { return std::to_string(v); };
  return "* change-over by hysteresis switches\n.options reltol=1e-7 vntol=1e-9 abstol=1e-13\n"
         "Vcoach ic 0 " + text(coach_v) + "\nRcoach ic coach 0.42\nRcoil coach 0 85\n"
         "Vcar iv 0 " + text(car_v) + "\nRcar iv car 0.1\n"
         "S87 coach lamp coach 0 work\nS87a car lamp coach 0 rest\n"
         "Blamp lamp 0 I = 2.1*(V(lamp)/12.8)*pow((V(lamp)/12.8)*(V(lamp)/12.8)+0.0034*0.0034,-0.225)\n"
         ".model work SW(VT=4.6 VH=3.4 RON=0.005 ROFF=1e12)\n"
         ".model rest SW(VT=4.6 VH=3.4 RON=1e12 ROFF=0.005)\n"
         ".control\nset numdgt=12\nop\nprint v(coach)\nprint v(car)\nprint v(lamp)\nquit\n.endc\n.end\n";
}

struct RelayJob : bench::Bench {
  RelayJob(double coach_v, double car_v) {
    source("coach", "0", coach_v, 0.42);
    resistor("coach", "0", 85);
    source("car", "0", car_v, 0.1);
    contact("coach", Gate::pulled);
    contact("car", Gate::rest);
    lamp("lamp", "0", 2.1, 12.8);
    circuit.parts[0].devices.push_back({"coil", 1, 0, 8, 1.2, false, -1});   // terminal 1 is "coach"
  }
  void contact(const char* from, Gate gate) {
    resistor(from, "lamp", 0.005);
    circuit.parts[0].elements.back().gate = gate;
    circuit.parts[0].elements.back().device = 0;
  }
};

}  // namespace

TEST_CASE("a change-over relay pulls in or rests as ngspice's hysteresis switch does") {
  REQUIRE_MESSAGE(ngspice::present(), "this test needs the ngspice command");
  int pulled = 0, rested = 0;
  for (const double coach_v : {0.0, 1.0, 5.0, 7.0, 11.0, 12.8, 14.4}) {
    CAPTURE(coach_v);
    const auto theirs = ngspice::volts(deck(coach_v, 6.3));
    REQUIRE(theirs.size() == 3);
    RelayJob job(coach_v, 6.3);
    const Solved ours = solve(job.circuit, job.catalogue, {});
    REQUIRE(ours.converged());
    REQUIRE(ours.chatter.empty());
    const auto& names = job.circuit.parts[0].terminals;
    for (std::size_t t = 1; t < names.size(); ++t) {
      CAPTURE(names[t]);
      CHECK(std::fabs(ours.phase[0].volts[t] - theirs.at(names[t])) <= 10e-6 + 1e-6 * std::fabs(theirs.at(names[t])));
    }
    (ours.phase[0].pulled[0][0] != 0 ? pulled : rested) += 1;
  }
  CHECK(pulled == 3);
  CHECK(rested == 4);
}

// A battery-to-battery charger into resistors, and a steady load: the deck that we write, run by ngspice.
TEST_CASE("bounded sources and loads are solved as ngspice solves the deck we write") {
  REQUIRE(ngspice::present());
  for (const double ohm : {0.5, 1.0, 1.7, 3.0, 20.0}) {
    CAPTURE(ohm);
    bench::Bench b;
    Element charger, load;
    charger.law = load.law = Law::limited;
    charger.volts = 14.2;
    charger.ohm = 0.05;
    charger.least_a = 8;
    load.ohm = 1;
    load.amps = 2.5;
    b.add(charger, "out", "0");
    b.resistor("out", "far", 0.1);
    b.add(load, "far", "0");
    b.resistor("far", "0", ohm);
    const auto theirs = ngspice::volts(netlist(b.circuit, b.catalogue, {}, 0));
    REQUIRE(theirs.size() == 2);
    const Solved ours = solve(b.circuit, b.catalogue, {});
    REQUIRE(ours.converged());
    const Flat flat = flatten(b.circuit, b.catalogue, {}, 0);
    for (std::size_t t = 1; t < 3; ++t) {
      const double expected = theirs.at("p" + std::to_string(flat.point[t]));
      CHECK(std::fabs(ours.phase[0].volts[t] - expected) <= 10e-6 + 1e-6 * std::fabs(expected));
    }
  }
}
