// The program as a user meets it: exit status, messages, files.
#include "commands/program.hpp"

namespace fs = std::filesystem;
using namespace towloom::testing;

namespace {

const std::string plain = TOWLOOM_ROOT "/specs/jobs/plain-hatchback.yaml";

}  // namespace

TEST_CASE("a command line that cannot be used ends with 2 and says what to do") {
  CHECK(towloom_run("").status == 2);
  const Outcome verb = towloom_run("drwa x.yaml");
  CHECK(verb.status == 2);
  CHECK(has(verb, "did you mean 'draw'"));
  const Outcome option = towloom_run("draw " + plain + " --stric");
  CHECK(option.status == 2);
  CHECK(has(option, "--strict"));
  CHECK(towloom_run("check").status == 2);
  const Outcome missing = towloom_run("check /nowhere/job.yaml");
  CHECK(missing.status == 2);
  CHECK(has(missing, "/nowhere/job.yaml"));
}

TEST_CASE("--help and --version end with 0") {
  CHECK(towloom_run("--help").status == 0);
  CHECK(has(towloom_run("--version"), "towloom "));
}

TEST_CASE("the plain job checks clean") {
  const Outcome o = towloom_run("check " + plain);
  CAPTURE(o.text);
  CHECK(o.status == 0);
  CHECK(has(o, "Wire sizes"));
  CHECK(has(o, "Check local law"));
}

TEST_CASE("draw writes one PDF and an SVG a sheet, the same bytes anywhere") {
  const fs::path one = fresh("one"), two = fresh("two");
  const Outcome a = towloom_run("draw " + plain + " -o " + one.string());
  CAPTURE(a.text);
  REQUIRE(a.status == 0);
  REQUIRE(towloom_run("draw " + plain + " -o " + two.string(), "cd / && TZ=Asia/Tokyo LC_ALL=de_DE.UTF-8").status == 0);
  for (const char* name : {"plain-hatchback.pdf", "plain-hatchback-bench.svg", "plain-hatchback-faces.svg"}) {
    CAPTURE(name);
    REQUIRE(fs::exists(one / name));
    CHECK(bytes(one / name).size() > 1000);
    CHECK(bytes(one / name) == bytes(two / name));
  }
}

TEST_CASE("draw writes worksheets and keys only when asked, beside the same sheets, and nothing in them gives an answer away") {
  const fs::path plain = fresh("worksheets-without"), with = fresh("worksheets");
  const std::string job = TOWLOOM_ROOT "/specs/jobs/plain-hatchback.yaml";
  REQUIRE(towloom_run("draw " + job + " -o " + plain.string()).status == 0);
  REQUIRE(towloom_run("draw " + job + " --worksheets -o " + with.string()).status == 0);
  int sheets = 0, keys = 0;
  for (const auto& file : fs::directory_iterator(with)) {
    const std::string name = file.path().filename().string();
    CAPTURE(name);
    const bool key = name.find("-key") != std::string::npos, sheet = name.find("-worksheet") != std::string::npos && file.path().extension() == ".svg";
    if (!key && name.find("-worksheet") == std::string::npos) {
      CHECK(bytes(file.path()) == bytes(plain / name));
      continue;
    }
    CHECK(!fs::exists(plain / name));
    key ? ++keys : sheets += sheet;
    if (!sheet) continue;
    std::string svg = bytes(file.path());
    for (const char* known : {"data-sheet=\"", "data-job=\""}) svg.erase(svg.find(known), 5);
    for (const char* told : {"data-", "<title>", "class=\"wire\"", "class=\"part\"", "class=\"contact\"", "class=\"junction\""}) CHECK(svg.find(told) == std::string::npos);
  }
  CHECK(sheets == 10);   // a first page and A to I on one page each
  CHECK(keys == 10);     // A has a list besides
  CHECK(fs::exists(with / "plain-hatchback-worksheets.pdf"));
}

TEST_CASE("a job that cannot be read ends with 2 at its line and leaves old files alone") {
  const fs::path folder = fresh("bad");
  std::ofstream(folder / "job.pdf") << "old";
  const Outcome o = towloom_run("draw " + altered(folder, "isolation:", "isolaton:") + " -o " + folder.string());
  CHECK(o.status == 2);
  CHECK(has(o, "did you mean 'isolation'"));
  CHECK(has(o, "job.yaml:"));
  CHECK(has(o, "^"));
  CHECK(bytes(folder / "job.pdf") == "old");
}

TEST_CASE("a folder that cannot be written ends with 4") {
  const fs::path folder = fresh("full");
  std::ofstream(folder / "blocked") << "a file";
  CHECK(towloom_run("draw " + plain + " -o " + (folder / "blocked").string()).status == 4);
}

TEST_CASE("trace follows each lit lamp from the coach to its ground") {
  const Outcome o = towloom_run("trace " + plain + " --coach left+tail");
  CHECK(o.status == 0);
  // The way of the left stop/turn signal, as the hand-written wire table has it.
  size_t at = o.text.find("E1 left rear");
  REQUIRE(at != std::string::npos);
  for (const char* next : {"COACH.left", "J1.3.coach", "C3 YE", "J2.3.cord", "J2.3.car", "D1.A1", "D1.K", "GY/VT", "E1.feed", "E1.return", "BK/WH", "G-RL.1", "G-RL.body"}) {
    CAPTURE(next);
    at = o.text.find(next, at);
    REQUIRE(at != std::string::npos);
  }
  CHECK_FALSE(has(o, "E2 right rear"));       // the right signal is off
  CHECK(has(o, "Flash off"));
  const size_t dark = o.text.find("Flash off");
  CHECK(o.text.find("E1 left rear", dark) == std::string::npos);
  CHECK(o.text.find("E3 left rear tail", dark) != std::string::npos);
}

TEST_CASE("trace refuses a signal that nobody knows, or none at all") {
  const Outcome o = towloom_run("trace " + plain + " --coach lft");
  CHECK(o.status == 2);
  CHECK(has(o, "did you mean 'left'"));
  CHECK(towloom_run("trace " + plain).status == 2);
  CHECK(towloom_run("trace " + plain + " --car pedel").status == 2);
  const Outcome car = towloom_run("trace " + plain + " --car pedal");
  CHECK(car.status == 0);
  CHECK(has(car, "Cord out"));
  CHECK(has(car, "BAT.+"));
}

// The file alone, run by the real ngspice: its volts at the left lamp are those that trace prints.
TEST_CASE("trace --netlist writes a deck that ngspice runs as it is") {
  REQUIRE_MESSAGE(std::system("command -v ngspice > /dev/null 2>&1") == 0, "this test needs the ngspice command");
  const fs::path deck = fresh("netlist") / "left.cir";
  const Outcome o = towloom_run("trace " + plain + " --coach left+tail --netlist " + deck.string());
  REQUIRE(o.status == 0);
  const std::string text = bytes(deck);
  const size_t named = text.find(" = E1.feed\n");
  REQUIRE(named != std::string::npos);
  const size_t line = text.rfind("* ", named);
  const std::string node = text.substr(line + 2, named - line - 2);
  FILE* pipe = popen(("ngspice -b " + deck.string() + " 2>/dev/null").c_str(), "r");
  REQUIRE(pipe != nullptr);
  double theirs = -1;
  std::array<char, 512> row;
  while (fgets(row.data(), row.size(), pipe) != nullptr) {
    const std::string said = row.data(), wanted = "v(" + node + ") = ";
    if (said.rfind(wanted, 0) == 0) theirs = std::strtod(said.c_str() + wanted.size(), nullptr);
  }
  pclose(pipe);
  const size_t printed = o.text.find("E1.feed  ");
  REQUIRE(printed != std::string::npos);
  CHECK(std::strtod(o.text.c_str() + printed + 9, nullptr) == doctest::Approx(theirs).epsilon(0.0005));
  CHECK(theirs > 11);
  CHECK(towloom_run("trace " + plain + " --coach tail --netlist /nowhere/x.cir").status == 4);
}

TEST_CASE("every finding has a long story") {
  std::istringstream ids("not-solved chatter pulsed-coil pulsed-isolator depends-on-before engine-off lamp-differs back-feed hot-leak low-volts drop-over ampacity-over fuse-over "
                         "fuse-unknown fuse-small fuse-far coach-fuse-far run-unused contact-differs stop-apart plate-dark fuse-slow too-hot hot mounting method-unsuited extra-missing thin-ground");
  for (std::string id; ids >> id;) {
    CAPTURE(id);
    const Outcome o = towloom_run("check --explain " + id);
    CHECK(o.status == 0);
    CHECK_FALSE(has(o, "explain-"));   // the key itself stands where a story is missing
    CHECK(o.text.size() > id.size() + 80);
  }
  CHECK(towloom_run("check --explain lamp-difers").status == 2);
  CHECK(has(towloom_run("check --explain lamp-difers"), "lamp-differs"));
  CHECK(towloom_run("check").status == 2);
}

TEST_CASE("a paper that the style lacks is refused at its place") {
  const Outcome named = towloom_run("draw " + plain + " --paper foolscap -o " + fresh("foolscap").string());
  CHECK(named.status == 2);
  CHECK(has(named, "no paper is called 'foolscap'"));
  CHECK(has(named, "tabloid"));
}

TEST_CASE("paper that the bench sheet does not fit is refused with one error, and nothing is written") {
  const fs::path folder = fresh("narrow");
  const Outcome letter = towloom_run("draw " + plain + " --paper letter -o " + folder.string());
  CHECK(letter.status == 0);
  // A style of one's own with half a sheet of A4, ISO 216's A5: too small for a part and what belongs to it.
  const fs::path data = fresh("half-sheets"), empty = fresh("narrow-2"), root = TOWLOOM_ROOT;
  for (const char* part : {"specs", "styles"}) fs::copy(root / part, data / part, fs::copy_options::recursive);
  {
    std::ifstream in(data / "styles" / "workshop.yaml");
    std::string style((std::istreambuf_iterator<char>(in)), {});
    style.insert(style.find("  a3: [420, 297]"), "  a5: [210, 148]\n");
    std::ofstream(data / "styles" / "workshop.yaml") << style;
  }
  const Outcome o = towloom_run("draw specs/jobs/low-coupe.yaml --paper a5 -o " + empty.string(), "TOWLOOM_DATA=" + data.string());
  CHECK(o.status == 2);
  const size_t first = o.text.find("error:");
  REQUIRE(first != std::string::npos);
  CHECK(o.text.find("error:", first + 1) == std::string::npos);
  CHECK(has(o, "the bench sheet does not fit a5 paper, even as "));
  CHECK(has(o, "draw it on "));                  // the next larger paper
  CHECK(fs::is_empty(empty));
}

TEST_CASE("trace --at reads a terminal with the instrument attached; check --faults lists what shows") {
  const std::string job = "specs/jobs/plain-hatchback.yaml";
  const Outcome meter = towloom_run("trace " + job + " --coach left --at D1.K");
  CHECK(meter.status == 0);
  CHECK(has(meter, "flash on: 1"));
  const Outcome open = towloom_run("trace " + job + " --at J2.3.car --to G-F.1 --meter test-lamp");
  CHECK(open.status == 0);
  CHECK(has(open, "0.000 V"));
  const Outcome wrong = towloom_run("trace " + job + " --coach left --at D1.Q");
  CHECK(wrong.status == 2);
  CHECK(has(wrong, "D1."));
  CHECK(towloom_run("trace " + job + " --at D1.K --meter clamp").status == 2);
  // With the left core open its lamp is dead and D1.A1 has no volts; the other side is as it was.
  const Outcome faulty = towloom_run("trace " + job + " --coach stop --fault 'C3 open'");
  CHECK(faulty.status == 0);
  CHECK(has(faulty, "With a fault: C3 open"));
  CHECK_FALSE(has(faulty, "E1 left rear"));
  CHECK(has(faulty, "E2 right rear"));
  const Outcome dead = towloom_run("trace " + job + " --coach stop --fault 'C3 open' --at D1.A1 --meter meter-1k");
  CHECK(has(dead, "0.000 V"));
  const Outcome unknown = towloom_run("trace " + job + " --coach stop --fault 'C3 opened'");
  CHECK(unknown.status == 2);
  CHECK(has(unknown, "did you mean 'C3 open'?"));
  const Outcome symptoms = towloom_run("check " + job + " --faults");
  CHECK(symptoms.status == 0);
  CHECK(has(symptoms, "diode D1.A1 open"));
  CHECK(has(symptoms, "left rear stop/turn dark: left; stop;"));
}
