// The program run as a user runs it, and files for it.
#pragma once

#include <doctest/doctest.h>

#include <sys/wait.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

namespace towloom::testing {

struct Outcome {
  int status = -1;
  std::string text;  // stdout and stderr
};

inline Outcome towloom_run(const std::string& arguments, const std::string& before = "") {
  const std::string command = before + " " TOWLOOM_BINARY " " + arguments + " 2>&1";
  Outcome out;
  FILE* pipe = popen(command.c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::array<char, 4096> buffer;
  while (const size_t n = fread(buffer.data(), 1, buffer.size(), pipe)) out.text.append(buffer.data(), n);
  out.status = WEXITSTATUS(pclose(pipe));
  return out;
}

inline bool has(const Outcome& o, const std::string& words) { return o.text.find(words) != std::string::npos; }

inline std::string bytes(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

inline void write(const std::filesystem::path& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

inline std::filesystem::path fresh(const std::string& name) {
  const std::filesystem::path folder = std::filesystem::temp_directory_path() / ("towloom-test-" + name);
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  return folder;
}

// The plain job with one text replaced, written into `folder`.
inline std::string altered(const std::filesystem::path& folder, const std::string& from, const std::string& to) {
  std::string text = bytes(TOWLOOM_ROOT "/specs/jobs/plain-hatchback.yaml");
  const size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
  const std::filesystem::path path = folder / "job.yaml";
  write(path, text);
  return path.string();
}

}  // namespace towloom::testing
