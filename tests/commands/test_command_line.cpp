// The program as a user meets it: exit status, messages, files.
#include <doctest/doctest.h>

#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace fs = std::filesystem;

namespace {

struct Outcome {
  int status = -1;
  std::string text;  // stdout and stderr
};

Outcome towloom(const std::string& arguments, const std::string& before = "") {
  const std::string command = before + " " TOWLOOM_BINARY " " + arguments + " 2>&1";
  Outcome out;
  FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::array<char, 4096> buffer;
  while (const size_t n = fread(buffer.data(), 1, buffer.size(), pipe)) out.text.append(buffer.data(), n);
  out.status = WEXITSTATUS(pclose(pipe));
  return out;
}

bool has(const Outcome& o, const std::string& words) { return o.text.find(words) != std::string::npos; }

std::string bytes(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

fs::path fresh(const std::string& name) {
  const fs::path folder = fs::temp_directory_path() / ("towloom-test-" + name);
  fs::remove_all(folder);
  fs::create_directories(folder);
  return folder;
}

const std::string plain = TOWLOOM_ROOT "/specs/jobs/plain-hatchback.yaml";

// The plain job with one text replaced, written into `folder`.
std::string altered(const fs::path& folder, const std::string& from, const std::string& to) {
  std::string text = bytes(plain);
  const size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
  const fs::path path = folder / "job.yaml";
  std::ofstream(path, std::ios::binary) << text;
  return path.string();
}

}  // namespace

TEST_CASE("a command line that cannot be used ends with 2 and says what to do") {
  CHECK(towloom("").status == 2);
  const Outcome verb = towloom("drwa x.yaml");
  CHECK(verb.status == 2);
  CHECK(has(verb, "did you mean 'draw'"));
  const Outcome option = towloom("draw " + plain + " --stric");
  CHECK(option.status == 2);
  CHECK(has(option, "--strict"));
  CHECK(towloom("check").status == 2);
  const Outcome missing = towloom("check /nowhere/job.yaml");
  CHECK(missing.status == 2);
  CHECK(has(missing, "/nowhere/job.yaml"));
}

TEST_CASE("--help and --version end with 0") {
  CHECK(towloom("--help").status == 0);
  CHECK(has(towloom("--version"), "towloom "));
}

TEST_CASE("the plain job checks clean") {
  const Outcome o = towloom("check " + plain);
  CAPTURE(o.text);
  CHECK(o.status == 0);
  CHECK(has(o, "Wire sizes"));
  CHECK(has(o, "Check local law"));
}

TEST_CASE("draw writes one PDF and an SVG a sheet, the same bytes anywhere") {
  const fs::path one = fresh("one"), two = fresh("two");
  const Outcome a = towloom("draw " + plain + " -o " + one.string());
  CAPTURE(a.text);
  REQUIRE(a.status == 0);
  REQUIRE(towloom("draw " + plain + " -o " + two.string(), "cd / && TZ=Asia/Tokyo LC_ALL=de_DE.UTF-8").status == 0);
  for (const char* name : {"plain-hatchback.pdf", "plain-hatchback-bench.svg", "plain-hatchback-faces.svg"}) {
    CAPTURE(name);
    REQUIRE(fs::exists(one / name));
    CHECK(bytes(one / name).size() > 1000);
    CHECK(bytes(one / name) == bytes(two / name));
  }
}

TEST_CASE("a job that cannot be read ends with 2 at its line and leaves old files alone") {
  const fs::path folder = fresh("bad");
  std::ofstream(folder / "job.pdf") << "old";
  const Outcome o = towloom("draw " + altered(folder, "isolation:", "isolaton:") + " -o " + folder.string());
  CHECK(o.status == 2);
  CHECK(has(o, "did you mean 'isolation'"));
  CHECK(has(o, "job.yaml:"));
  CHECK(has(o, "^"));
  CHECK(bytes(folder / "job.pdf") == "old");
}

TEST_CASE("a folder that cannot be written ends with 4") {
  const fs::path folder = fresh("full");
  std::ofstream(folder / "blocked") << "a file";
  CHECK(towloom("draw " + plain + " -o " + (folder / "blocked").string()).status == 4);
}
