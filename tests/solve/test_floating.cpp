// A piece that 1 nS alone holds. Expected volts: Newton in 30-digit decimal arithmetic on the same
// deck, residual below 1e-30 A; ngspice in doubles is 65 µV off here.
#include <cmath>

#include "solve/bench.hpp"

using namespace towloom;
using bench::Bench;

TEST_CASE("an open lamp behind a blocked diode has the volts of a 30-digit solution") {
  Bench b;
  b.source("s", "0", 12.6, 0.05);
  b.resistor("s", "l", 0.08);
  b.lamp("l", "0", 2.1, 12.8);
  b.diode("x", "l", bench::silicon);  // blocked: the lamp's feed is above x
  b.resistor("x", "y", 1e-4);
  b.lamp("y", "z", 0.4, 13.5);
  b.resistor("z", "w", 1e-4);
  b.diode("w", "u", bench::schottky);
  b.resistor("u", "v", 0.003);
  b.run();
  const struct {
    const char* name;
    double volts;
  } expected[] = {{"s", 12.4971270226},  {"l", 12.3325302598},  {"x", 0.835250684217}, {"y", 0.835250684217},
                  {"z", 0.83525067548}, {"w", 0.83525067548}, {"u", 0.835247075031}, {"v", 0.835247075029}};
  for (const auto& row : expected) {
    CAPTURE(row.name);
    CAPTURE(b.volts(row.name));
    CHECK(std::fabs(b.volts(row.name) - row.volts) <= 1e-8);
  }
}
