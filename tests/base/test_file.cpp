// All files or none: on any error every old file stands as it was and nothing is left beside it.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "base/file.hpp"

using namespace towloom;
namespace fs = std::filesystem;

namespace {

fs::path fresh(const std::string& name) {
  const fs::path folder = fs::temp_directory_path() / ("towloom-test-files-" + name);
  fs::remove_all(folder);
  fs::create_directories(folder);
  return folder;
}

void put(const fs::path& path, const std::string& text) { std::ofstream(path, std::ios::binary) << text; }
std::string get(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}
std::vector<std::string> names(const fs::path& folder) {
  std::vector<std::string> out;
  for (const auto& e : fs::directory_iterator(folder)) out.push_back(e.path().filename().string());
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace

TEST_CASE("new files are written and old ones replaced, with nothing left beside them") {
  const fs::path f = fresh("whole");
  put(f / "b", "old");
  CHECK(write_files({{f / "a", "one"}, {f / "b", std::string("t\0wo", 5)}, {f / "c", ""}}).empty());
  CHECK(get(f / "a") == "one");
  CHECK(get(f / "b") == std::string("t\0wo", 5));
  CHECK(names(f) == std::vector<std::string>{"a", "b", "c"});
}

TEST_CASE("a rename that fails after others have passed takes those back") {
  const fs::path f = fresh("late");
  put(f / "a", "old a");
  put(f / "d", "old d");
  fs::create_directories(f / "c" / "inside");   // no file can be renamed onto a folder
  const std::string problem = write_files({{f / "a", "new a"}, {f / "b", "new b"}, {f / "c", "new c"}, {f / "d", "new d"}});
  CHECK(problem.find((f / "c").string()) != std::string::npos);
  CHECK(get(f / "a") == "old a");
  CHECK(get(f / "d") == "old d");
  CHECK(names(f) == std::vector<std::string>{"a", "c", "d"});
}

TEST_CASE("a file that cannot be written leaves all others alone") {
  const fs::path f = fresh("early");
  put(f / "a", "old a");
  CHECK_FALSE(write_files({{f / "a", "new a"}, {f / "nowhere" / "b", "new b"}}).empty());
  CHECK(get(f / "a") == "old a");
  CHECK(names(f) == std::vector<std::string>{"a"});
}

TEST_CASE("a disk that is full is said so") {
  std::error_code none;
  if (!fs::exists("/dev/full", none)) return;
  const fs::path f = fresh("full");
  put(f / "a", "old a");
  fs::create_symlink("/dev/full", f / ".b.part");   // what is written beside the target arrives there
  CHECK_FALSE(write_files({{f / "a", "new a"}, {f / "b", "new b"}}).empty());
  CHECK(get(f / "a") == "old a");
  CHECK_FALSE(fs::exists(f / "b"));
}

TEST_CASE("a link is replaced, not what it points to") {
  const fs::path f = fresh("link");
  put(f / "elsewhere", "kept");
  fs::create_symlink("elsewhere", f / "a");
  CHECK(write_files({{f / "a", "new"}}).empty());
  CHECK(get(f / "elsewhere") == "kept");
  CHECK(get(f / "a") == "new");
}
