// The folders of src/ form a one-way street: no file includes one of a later room.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <string>

namespace fs = std::filesystem;

namespace {
const std::map<std::string, int> level = {
    {"base", 0},   {"yaml", 1},  {"drawing", 2}, {"spec", 2},   {"catalogue", 3}, {"circuit", 4}, {"solve", 5},
    {"size", 6},   {"check", 7}, {"layout", 8},  {"prove", 8},  {"sheets", 9},    {"render", 10}, {"export", 10},
    {"commands", 11}};

struct Include {
  std::string file, from, to, line;
};

std::vector<Include> includes() {
  std::vector<Include> out;
  const fs::path src = fs::path(TOWLOOM_ROOT) / "src";
  const std::regex pattern("^#include \"([a-z]+)/");
  for (const auto& entry : fs::recursive_directory_iterator(src)) {
    if (!entry.is_regular_file() || entry.path().parent_path() == src) continue;
    std::ifstream in(entry.path());
    for (std::string line; std::getline(in, line);) {
      std::smatch found;
      if (std::regex_search(line, found, pattern))
        out.push_back({entry.path().string(), entry.path().parent_path().filename().string(), found[1], line});
    }
  }
  return out;
}
}  // namespace

TEST_CASE("no room includes a later room or one beside it") {
  const auto all = includes();
  REQUIRE(all.size() > 50);
  for (const Include& i : all) {
    CAPTURE(i.file);
    CAPTURE(i.line);
    REQUIRE(level.count(i.from) == 1);
    REQUIRE(level.count(i.to) == 1);
    CHECK((i.from == i.to || level.at(i.to) < level.at(i.from)));
  }
}

TEST_CASE("layout and prove share no code") {
  for (const Include& i : includes()) {
    CAPTURE(i.file);
    CHECK_FALSE((i.from == "prove" && i.to == "layout"));
  }
}

TEST_CASE("each outside library is known to one room") {
  const std::map<std::string, std::vector<std::string>> owner = {
      {"yaml-cpp", {"yaml"}}, {"graphviz", {"layout"}}, {"gvc.h", {"layout"}}, {"cairo", {"render"}},
      {"ft2build", {"drawing", "render"}}, {"nlohmann", {"export"}}};
  for (const auto& entry : fs::recursive_directory_iterator(fs::path(TOWLOOM_ROOT) / "src")) {
    if (!entry.is_regular_file()) continue;
    std::ifstream in(entry.path());
    const std::string room = entry.path().parent_path().filename().string();
    for (std::string line; std::getline(in, line);) {
      if (line.rfind("#include <", 0) != 0) continue;
      for (const auto& [library, rooms] : owner) {
        if (line.find(library) == std::string::npos) continue;
        CAPTURE(entry.path().string());
        CHECK(std::find(rooms.begin(), rooms.end(), room) != rooms.end());
      }
    }
  }
}
