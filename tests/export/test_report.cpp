// The report against its schema, the survey and the solution; expected values from outside the program.
#include <nlohmann/json.hpp>

#include "export/report_fixture.hpp"

using namespace towloom;
using towloom::testing::judged;
using towloom::testing::reported_job;
using Json = nlohmann::json;

namespace {

std::string job_file(const std::string& name) {
  std::ifstream in(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs" / name);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

Json row(const Json& rows, const char* key, const std::string& value) {
  for (const Json& r : rows)
    if (r.at(key) == value) return r;
  FAIL("no row '" << value << "'");
  return {};
}

}  // namespace

TEST_CASE("every shown job's report is what the schema says") {
  REQUIRE_MESSAGE(std::system("/usr/bin/python3 -c 'import jsonschema' > /dev/null 2>&1") == 0, "this test needs python3-jsonschema");
  int tried = 0;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(TOWLOOM_ROOT) / "specs" / "jobs")) {
    if (entry.path().extension() != ".yaml") continue;
    CAPTURE(entry.path().string());
    CHECK(judged(reported_job(job_file(entry.path().filename().string())).report()) == 0);
    ++tried;
  }
  CHECK(tried >= 10);
}

TEST_CASE("the schema refuses a report with a key too few, one too many, or a value of another kind") {
  const Json sound = Json::parse(reported_job(fixture::plain_job()).report());
  CHECK(judged(sound.dump()) == 0);
  for (const auto& [key, value] : sound.items()) {
    CAPTURE(key);
    Json without = sound;
    without.erase(key);
    CHECK(judged(without.dump()) != 0);
  }
  Json more = sound;
  more["wires"][0]["gauge"] = 16;
  CHECK(judged(more.dump()) != 0);
  Json other = sound;
  other["scenes"][0]["lamps"][0]["lit"] = "bright";
  CHECK(judged(other.dump()) != 0);
  Json text = sound;
  text["wires"][0]["length_m"] = "2 m";
  CHECK(judged(text.dump()) != 0);
}

TEST_CASE("the plain job's report holds what the survey found and the hand-written wire table says") {
  const auto job = reported_job(fixture::plain_job());
  const Json report = Json::parse(job.report());
  CHECK(report["job"]["number"] == "S01");
  CHECK(report["job"]["build"] == true);
  // Cord cores of 2.4 m, 16 AWG (the survey): 1.3087 mm² (ASTM B258).
  const Json core = row(report["wires"], "id", "C3");
  CHECK(core["length_m"] == 2.4);
  CHECK(core["size"] == "16 AWG");
  CHECK(core["mm2"] == 1.3087);
  CHECK(core["colour"] == "YE");
  CHECK(core["from"] == "J1.3.cord");
  CHECK(core["to"] == "J2.3.cord");
  // One net from end to end of every wire, the terminals' own.
  for (const Json& wire : report["wires"])
    for (const char* end : {"from", "to"}) {
      const Json net = row(report["nets"], "id", wire["net"]);
      CHECK(std::count(net["terminals"].begin(), net["terminals"].end(), wire[end]) == 1);
    }
  // Tail: both tail lamps and the plate lamp, nothing else, by the survey.
  const Json tail = row(report["scenes"], "name", "tail");
  for (const Json& lamp : tail["lamps"]) {
    CAPTURE(lamp.dump());
    const bool wanted = lamp["function"] == "tail" || lamp["function"] == "plate";
    CHECK((lamp["lit"] == "lit") == wanted);
    CHECK(lamp["required"] == lamp["lit"]);
    if (wanted) CHECK(lamp["volts"].get<double>() > 11);
    else CHECK(std::fabs(lamp["volts"].get<double>()) < 0.1);
  }
}

TEST_CASE("readings of the report are those of a meter at that point") {
  const auto job = reported_job(fixture::plain_job());
  const Json report = Json::parse(job.report());
  const Json point = row(report["meter_points"], "point", "J2.2.car");
  // The outlet's tail contact: open 13.6 V, 13.1 V at 4.2 A. Two 5 W and two plate lamps draw less than that.
  for (const Json& reading : point["readings"])
    if (reading["scene"] == "tail") {
      CHECK(reading["volts"][0].get<double>() > 13.0);
      CHECK(reading["volts"][0].get<double>() < 13.6);
    }
  // Kirchhoff: volts at each lamp times the source's law is its amps; here for the filaments' exponent 0.55.
  const Json scene = row(report["scenes"], "name", "tail");
  for (const Json& lamp : scene["lamps"]) {
    if (lamp["function"] != "tail") continue;
    const double expected = 6.6 / 13.5 * std::pow(lamp["volts"].get<double>() / 13.5, 0.55);   // P21/5W: 6.6 W at 13.5 V (UN R37)
    CHECK(lamp["amps"].get<double>() == doctest::Approx(expected).epsilon(1e-4));
  }
}

TEST_CASE("a finding stands at its line with its severity, and forbids to build") {
  const std::string text = fixture::changed(fixture::plain_job(), "method: two-way-diodes, diode: silicon", "method: no-isolation");
  const auto job = reported_job(fixture::changed(fixture::changed(text, ", plate: with left tail", ""), "branch: upstream of left rear", "in tow: dark"));
  const Json report = Json::parse(job.report());
  CHECK(report["job"]["build"] == false);
  CHECK(report["job"]["faults"].get<int>() > 0);
  CHECK(report["job"]["faults"].get<int>() == std::count_if(report["findings"].begin(), report["findings"].end(), [](const Json& f) { return f["severity"] == "error"; }));
  const Json back = row(report["findings"], "rule", "back-feed");
  CHECK(back["severity"] == "error");
  CHECK(back["place"]["line"].get<int>() > 0);
  CHECK(judged(report.dump()) == 0);
}

TEST_CASE("the same job gives the same bytes; the folder that it lay in is not told") {
  const auto a = reported_job(fixture::plain_job()), b = reported_job(fixture::plain_job());
  CHECK(a.report() == b.report());
  CHECK(a.report().find("/specs/") == std::string::npos);
}
