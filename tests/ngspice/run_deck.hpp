// Runs a deck in the real ngspice and reads the volts it prints.
#pragma once

#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <string>

#include <doctest/doctest.h>

namespace towloom::ngspice {

inline bool present() { return std::system("command -v ngspice > /dev/null 2>&1") == 0; }

// Node name -> volts; empty when ngspice found no operating point.
inline std::map<std::string, double> volts(const std::string& deck) {
  static int count = 0;
  const auto path = std::filesystem::temp_directory_path() /
                    ("towloom-deck-" + std::to_string(getpid()) + "-" + std::to_string(count++) + ".cir");
  std::ofstream(path) << deck;
  FILE* pipe = popen(("ngspice -b '" + path.string() + "' 2>/dev/null").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::map<std::string, double> out;
  std::array<char, 512> line;
  while (fgets(line.data(), line.size(), pipe) != nullptr) {
    const std::string text = line.data();
    const auto close = text.find(") = ");
    if (text.rfind("v(", 0) != 0 || close == std::string::npos) continue;
    out[text.substr(2, close - 2)] = std::strtod(text.c_str() + close + 4, nullptr);
  }
  pclose(pipe);
  if (std::getenv("KEEP_DECK") == nullptr) std::filesystem::remove(path);
  return out;
}

}  // namespace towloom::ngspice
