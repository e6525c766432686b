// Ampacity against printed tables, and the minimum sizes of contacts.
#include "size/parts.hpp"

#include "circuit/fixture.hpp"

using namespace towloom;

namespace {

const Catalogue& catalogue() {
  static const fixture::Job job = fixture::built(fixture::plain_job());
  return *job.catalogue;
}

// 16 AWG at 105 °C insulation: 25 A (ABYC E-11, a cable maker's reprint; electrical reference 2.1).
double sixteen(int bundle, double ambient) {
  WireSize size;
  size.ampacity_a = 25;
  WireSeries series;
  series.insulation_c = 105;
  return ampacity_of(size, series, catalogue().bundling.at("ABYC"), bundle, ambient);
}

}  // namespace

TEST_CASE("bundled and hot ampacity is that of the printed table") {
  CHECK(sixteen(1, 30) == doctest::Approx(25));
  CHECK(sixteen(2, 30) == doctest::Approx(25));
  CHECK(sixteen(3, 30) == doctest::Approx(17.5));
  CHECK(sixteen(4, 30) == doctest::Approx(15));
  CHECK(sixteen(6, 30) == doctest::Approx(15));
  CHECK(sixteen(7, 30) == doctest::Approx(12.5));
  // Engine space, 50 °C: the table's factor is 0.85, the formula's 0.856.
  CHECK(sixteen(1, 50) == doctest::Approx(21.3).epsilon(0.01));
  CHECK(sixteen(3, 50) == doctest::Approx(14.9).epsilon(0.01));
  CHECK(sixteen(4, 50) == doctest::Approx(12.8).epsilon(0.01));
  CHECK(sixteen(7, 50) == doctest::Approx(10.6).epsilon(0.015));
  CHECK(sixteen(1, 105) == 0.0);
  CHECK(sixteen(1, 120) == 0.0);
}

TEST_CASE("a bundle larger than the table carries no more than its last row") {
  CHECK(sixteen(40, 30) <= doctest::Approx(12.5));
}

TEST_CASE("a metric name is found in the metric series whatever the job's series is") {
  Circuit circuit;
  circuit.wire_series = "AWG";
  const FoundSize metric = series_row({"0.75", WireSizeName::System::mm2}, circuit, catalogue());
  REQUIRE(metric.size != nullptr);
  CHECK(metric.series->name == "ISO");
  CHECK(series_row({"99", WireSizeName::System::awg}, circuit, catalogue()).size == nullptr);
}
