// The gallery is what the program draws today: .ci/gallery makes it again after a change.
#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>
#include <string>

namespace fs = std::filesystem;

namespace {
std::string bytes(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}
// Of the tables the gallery keeps one job's: .ci/gallery.
bool is_kept(const std::string& file) {
  static const std::regex table(".*-(wires|map|proof|test|fault)(-[0-9]+)?\\.svg");
  return file.rfind("plain-hatchback", 0) == 0 || !std::regex_match(file, table);
}
}  // namespace

TEST_CASE("every example's SVG in the gallery is what is drawn now") {
  const fs::path folder = fs::temp_directory_path() / "towloom-test-gallery";
  fs::remove_all(folder);
  int compared = 0;
  for (const auto& job : fs::directory_iterator(fs::path(TOWLOOM_ROOT) / "specs" / "jobs")) {
    if (job.path().extension() != ".yaml") continue;
    const std::string command =
        TOWLOOM_BINARY " draw " + job.path().string() + " -o " + folder.string() + " > /dev/null 2>&1";
    CAPTURE(job.path().string());
    REQUIRE(std::system(command.c_str()) == 0);
  }
  for (const auto& drawn : fs::directory_iterator(folder)) {
    if (drawn.path().extension() != ".svg" || !is_kept(drawn.path().filename().string())) continue;
    const fs::path kept = fs::path(TOWLOOM_ROOT) / "gallery" / drawn.path().filename();
    CAPTURE(kept.string());
    REQUIRE(fs::exists(kept));
    CHECK(bytes(kept) == bytes(drawn.path()));
    ++compared;
  }
  CHECK(compared >= 2);
}

TEST_CASE("the plain job's worksheets and keys in the gallery are what is drawn now") {
  const fs::path folder = fs::temp_directory_path() / "towloom-test-worksheets";
  fs::remove_all(folder);
  REQUIRE(std::system((TOWLOOM_BINARY " draw " TOWLOOM_ROOT "/specs/jobs/plain-hatchback.yaml --worksheets -o " + folder.string() + " > /dev/null 2>&1").c_str()) == 0);
  int compared = 0;
  for (const auto& drawn : fs::directory_iterator(folder)) {
    const std::string name = drawn.path().filename().string();
    if (drawn.path().extension() != ".svg" || (name.find("-worksheet") == std::string::npos && name.find("-key") == std::string::npos)) continue;
    CAPTURE(name);
    CHECK(bytes(fs::path(TOWLOOM_ROOT) / "gallery" / name) == bytes(drawn.path()));
    ++compared;
  }
  CHECK(compared >= 18);   // nine worksheets and their keys
}

TEST_CASE("the poster of connectors in the gallery is what is drawn now") {
  const fs::path folder = fs::temp_directory_path() / "towloom-test-poster";
  fs::remove_all(folder);
  REQUIRE(std::system((TOWLOOM_BINARY " list connectors -o " + folder.string() + " > /dev/null 2>&1").c_str()) == 0);
  const std::string drawn = bytes(folder / "connectors.svg");
  CHECK(drawn.size() > 10000);
  CHECK(drawn == bytes(fs::path(TOWLOOM_ROOT) / "gallery" / "connectors.svg"));
}
