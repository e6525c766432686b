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
  size.name = {"16", WireSizeName::System::awg};
  return ampacity_of(size, 105, catalogue().ampacity.at("33 CFR"), bundle, ambient);
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

TEST_CASE("the job chooses by which rule wires carry, wholly: table, insulation and bundles") {
  WireSize awg, metric;
  awg.name = {"16", WireSizeName::System::awg};
  awg.area_mm2 = 1.3087;
  metric.name = {"1.5", WireSizeName::System::mm2};
  metric.area_mm2 = 1.5;
  const auto amps = [&](const WireSize& size, double insulation, const char* basis, int bundle) {
    return ampacity_of(size, insulation, catalogue().ampacity.at(basis), bundle, 30);
  };
  // ISO 10133 / 13297 (from memory, reference 2.1, 2.2): 1.3087 mm2 counts as 1 mm2; 80 °C insulation as its 70 °C.
  CHECK(amps(awg, 80, "ISO", 3) == doctest::Approx(14));
  CHECK(amps(awg, 80, "ISO", 4) == doctest::Approx(14 * 0.7));
  CHECK(amps(awg, 80, "ISO", 24) == doctest::Approx(14 * 0.6));
  CHECK(amps(awg, 80, "ISO", 25) == doctest::Approx(14 * 0.5));
  CHECK(amps(awg, 80, "33 CFR", 4) == doctest::Approx(20 * 0.6));
  // 1.5 mm2 of 70 °C is thicker than 16 AWG and bears 60 °C of the law's columns: 15 A.
  CHECK(amps(metric, 70, "33 CFR", 1) == doctest::Approx(15));
  CHECK(amps(metric, 70, "ISO", 1) == doctest::Approx(18));
  // Insulation below the first column and copper below the first row: no figure.
  CHECK(amps(metric, 55, "33 CFR", 1) == 0);
  metric.name.number = "0.5";
  metric.area_mm2 = 0.5;
  CHECK(amps(metric, 70, "33 CFR", 1) == 0);
}

TEST_CASE("the chosen rule decides what the job's wires may carry") {
  const auto limits = [](const std::string& text) {
    fixture::Job job = fixture::built(text);
    const auto sized = size_job(job);
    std::map<std::string, double> out;
    for (const SizeChoice& c : sized.why) out[c.group] = c.ampacity_a;
    return out;
  };
  // 16 AWG, 80 degrees, 30 around: 20 A alone (33 CFR 183.425); the ribbon's four wires lie together. By ISO's figures
  // 16 AWG alone carries 14 A, less than the car's 15 A fuse behind the plate lamp's wire: 14 AWG, 18 A x 0.7.
  CHECK(limits(fixture::plain_job()).at("lamps") == doctest::Approx(12));
  CHECK(limits(fixture::changed(fixture::plain_job(), "wire: {standard: AWG,", "wire: {standard: AWG, ampacity: ISO,")).at("lamps") == doctest::Approx(12.6));
}

TEST_CASE("factors from memory are said at the line that asks for them") {
  fixture::Job job = fixture::built(fixture::changed(fixture::plain_job(), "wire: {standard: AWG,", "wire: {standard: AWG, ampacity: ISO,"));
  (void)size_job(job);
  CHECK(fixture::reported(job, "from-memory", "ISO 10133"));
  CHECK_FALSE(job.diagnostics.has_errors());
  fixture::Job usual = fixture::built(fixture::plain_job());
  (void)size_job(usual);
  CHECK_FALSE(fixture::reported(usual, "from-memory", ""));
}
