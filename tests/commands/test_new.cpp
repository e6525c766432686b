// towloom new: what it writes is accepted by check, for every method on outlets of several regions; help, man page
// and completion say the same things.
#include <doctest/doctest.h>

#include <filesystem>
#include <set>
#include <sstream>

#include "commands/program.hpp"

using namespace towloom::testing;
namespace fs = std::filesystem;

namespace {

Outcome make(const fs::path& file, const std::string& outlet, const std::string& signals, const std::string& method) {
  return towloom_run("new " + file.string() + " --outlet " + outlet + " --signals " + signals + " --method " + method);
}

// What a reader sees of an SVG: its text, one blank between words.
std::string words_of(const fs::path& svg) {
  std::string out;
  bool tag = false;
  for (const char c : bytes(svg)) {
    if (c == '<') tag = true;
    const char shown = tag || c == '\n' ? ' ' : c;
    if (c == '>') tag = false;
    if (shown != ' ' || (!out.empty() && out.back() != ' ')) out += shown;
  }
  return out;
}

}  // namespace

TEST_CASE("new writes a file that check accepts and that keeps its remarks") {
  const fs::path folder = fresh("start");
  const struct {
    const char *outlet, *signals, *method;
  } rows[] = {{"flat-4", "combined", "two-way-diodes"},   {"blade-7", "combined", "two-way-diodes"}, {"iso-13", "separate", "two-way-diodes"},
              {"blade-7", "combined", "relay-change-over"}, {"flat-4", "combined", "battery-fed-relays"}, {"flat-4", "combined", "added-bulbs"},
              {"round-6", "combined", "dedicated-strips"}, {"iso-12n", "separate", "field-effect"},  {"flat-4", "combined", "powered-module"}};
  int n = 0;
  for (const auto& row : rows) {
    CAPTURE(row.outlet);
    CAPTURE(row.method);
    const fs::path file = folder / ("job" + std::to_string(++n) + ".yaml");
    const Outcome made = make(file, row.outlet, row.signals, row.method);
    CAPTURE(made.text);
    REQUIRE(made.status == 0);
    const Outcome checked = towloom_run("check " + file.string());
    CAPTURE(checked.text);
    CHECK(checked.status == 0);
    const std::string text = bytes(file);
    CHECK(text.find('$') == std::string::npos);
    CHECK(text.find("# A starting file") == 0);
    CHECK(text.find(row.method) != std::string::npos);
  }
}

TEST_CASE("new refuses what no job can begin with, and writes nothing") {
  const fs::path folder = fresh("start-bad");
  const fs::path file = folder / "job.yaml";
  const Outcome outlet = make(file, "flat4", "combined", "two-way-diodes");
  CHECK(outlet.status == 2);
  CHECK(has(outlet, "did you mean 'flat-4'"));
  CHECK(has(make(file, "flat-4", "combind", "two-way-diodes"), "did you mean 'combined'"));
  CHECK(has(make(file, "flat-4", "combined", "two-way-diode"), "did you mean 'two-way-diodes'"));
  CHECK(make(file, "flat-4", "separate", "two-way-diodes").status == 2);   // four contacts carry no stop wire of their own
  CHECK(make(file, "flat-4", "combined", "converter-combined-to-separate").status == 2);
  CHECK(towloom_run("new " + file.string()).status == 2);
  CHECK_FALSE(fs::exists(file));
  write(file, "mine");
  CHECK(make(file, "flat-4", "combined", "two-way-diodes").status == 2);
  CHECK(bytes(file) == "mine");
}

TEST_CASE("help, man page and completion hold every verb and option") {
  const std::string help = towloom_run("--help").text, man = towloom_run("--man").text, complete = towloom_run("--completion").text;
  CHECK(man.find(".TH TOWLOOM 1") == 0);
  std::istringstream in(help);
  int seen = 0;
  for (std::string line; std::getline(in, line);) {
    if (line.rfind("  -", 0) != 0) continue;
    const std::string name = line.substr(2, line.find(' ', 2) - 2);
    CAPTURE(name);
    CHECK(complete.find(name) != std::string::npos);
    std::string escaped;
    for (const char c : name) escaped += c == '-' ? std::string("\\-") : std::string(1, c);
    if (name != "--man" && name != "--completion") CHECK(man.find(escaped) != std::string::npos);
    ++seen;
  }
  CHECK(seen >= 15);
  CHECK(std::system(("printf '%s' '' && bash -c '" + std::string(TOWLOOM_BINARY) + " --completion | bash -n'").c_str()) == 0);
}

TEST_CASE("draw writes tables and report beside the sheets, the netlist when asked, the same bytes anywhere") {
  const fs::path one = fresh("tables-one"), two = fresh("tables-two");
  const std::string job = TOWLOOM_ROOT "/specs/jobs/plain-hatchback.yaml";
  REQUIRE(towloom_run("draw " + job + " -o " + one.string() + " --netlist").status == 0);
  REQUIRE(towloom_run("draw " + job + " --netlist -o " + two.string(), "TZ=Asia/Tokyo LC_ALL=de_DE.UTF-8").status == 0);
  for (const char* name : {"plain-hatchback-wires.csv", "plain-hatchback-cuts.csv", "plain-hatchback-materials.csv", "plain-hatchback.json", "plain-hatchback.cir"}) {
    CAPTURE(name);
    REQUIRE(fs::exists(one / name));
    CHECK(bytes(one / name).size() > 100);
    CHECK(bytes(one / name) == bytes(two / name));
  }
  const fs::path bare = fresh("tables-bare");
  REQUIRE(towloom_run("draw " + job + " -o " + bare.string()).status == 0);
  CHECK_FALSE(fs::exists(bare / "plain-hatchback.cir"));
}

TEST_CASE("a job with faults is drawn with a banner, and not at all with --strict") {
  const fs::path folder = fresh("banner"), strict = fresh("banner-strict");
  const std::string job = altered(folder, "load: 4.2 A}", "load: 4.2 A, fuse: 30 A}");   // no 16 AWG bears that
  const Outcome drawn = towloom_run("draw " + job + " -o " + folder.string());
  CAPTURE(drawn.text);
  CHECK(drawn.status == 0);
  CHECK(words_of(folder / "job-bench.svg").find("1 fault: do not build from this") != std::string::npos);
  CHECK(bytes(folder / "job.json").find("\"build\": false") != std::string::npos);
  CHECK(towloom_run("draw " + job + " --strict -o " + strict.string()).status == 1);
  CHECK(fs::is_empty(strict));
}
