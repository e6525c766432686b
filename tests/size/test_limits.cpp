// Ampacity against printed tables, and the minimum sizes of contacts.
#include "size/parts.hpp"

#include "circuit/fixture.hpp"

using namespace towloom;

namespace {

const Catalogue& catalogue() {
  static const fixture::Job job = fixture::built(fixture::plain_job());
  return *job.catalogue;
}

Sized size_job(fixture::Job& job) {
  REQUIRE(job.circuit.has_value());
  auto sized = size(*job.circuit, *job.catalogue, *job.spec, job.diagnostics);
  INFO(format_diagnostics(job.diagnostics, job.sources, false));
  REQUIRE(sized.has_value());
  return std::move(*sized);
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

// ISO 10133 and ISO 13297, from memory: 4 to 6 conductors 0.7, 7 to 24 0.6, from 25 on 0.5 (reference 2.1).
TEST_CASE("bundling by ISO is milder than by ABYC, and the job chooses") {
  WireSize sixteen_awg;
  sixteen_awg.ampacity_a = 20;
  WireSeries series;
  series.insulation_c = 80;
  const auto amps = [&](const char* basis, int bundle) { return ampacity_of(sixteen_awg, series, catalogue().bundling.at(basis), bundle, 30); };
  CHECK(amps("ISO", 3) == doctest::Approx(20));
  CHECK(amps("ISO", 4) == doctest::Approx(14));
  CHECK(amps("ISO", 24) == doctest::Approx(12));
  CHECK(amps("ISO", 25) == doctest::Approx(10));
  CHECK(amps("ABYC", 4) == doctest::Approx(12));
  const auto limits = [](const std::string& text) {
    fixture::Job job = fixture::built(text);
    const auto sized = size_job(job);
    std::map<std::string, double> out;
    for (const SizeChoice& c : sized.why) out[c.group] = c.ampacity_a;
    return out;
  };
  // 16 AWG, 80 degrees, 30 around: 20 A alone (33 CFR 183.425); the ribbon's four wires lie together.
  CHECK(limits(fixture::plain_job()).at("lamps") == doctest::Approx(12));
  CHECK(limits(fixture::changed(fixture::plain_job(), "wire: {standard: AWG,", "wire: {standard: AWG, bundling: ISO,")).at("lamps") == doctest::Approx(14));
}

TEST_CASE("factors from memory are said at the line that asks for them") {
  fixture::Job job = fixture::built(fixture::changed(fixture::plain_job(), "wire: {standard: AWG,", "wire: {standard: AWG, bundling: ISO,"));
  (void)size_job(job);
  CHECK(fixture::reported(job, "from-memory", "ISO 10133"));
  CHECK_FALSE(job.diagnostics.has_errors());
  fixture::Job usual = fixture::built(fixture::plain_job());
  (void)size_job(usual);
  CHECK_FALSE(fixture::reported(usual, "from-memory", ""));
}

TEST_CASE("a bundling basis that nobody knows is an error at its line") {
  fixture::Job job = fixture::built(fixture::changed(fixture::plain_job(), "wire: {standard: AWG,", "wire: {standard: AWG, bundling: DIN,"));
  REQUIRE(job.circuit.has_value());
  CHECK_FALSE(size(*job.circuit, *job.catalogue, *job.spec, job.diagnostics).has_value());
  CHECK(fixture::reported(job, "bundling-basis", "DIN"));
}
