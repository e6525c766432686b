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
#include <vector>

#include <doctest/doctest.h>

#include "ngspice/batch.hpp"

namespace towloom::ngspice {

inline bool present() { return std::system("command -v ngspice > /dev/null 2>&1") == 0; }

// "v(p1) = 1.2" as p1 and 1.2; "@rw0[i] = 0.5", the current of a device, under its whole name. Other lines are nothing.
inline void read_line(const std::string& text, std::map<std::string, double>& out) {
  const auto equals = text.find(" = ");
  if (equals == std::string::npos || (text.rfind("v(", 0) != 0 && text[0] != '@')) return;
  const std::string name = text.substr(0, equals);
  out[name[0] == '@' ? name : name.substr(2, name.size() - 3)] = std::strtod(text.c_str() + equals + 3, nullptr);
}

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
    read_line(line.data(), out);
  }
  pclose(pipe);
  if (std::getenv("KEEP_DECK") == nullptr) std::filesystem::remove(path);
  return out;
}

// The same for many decks in one process: each is loaded, solved and printed by one script.
inline std::vector<std::map<std::string, double>> volts_of_all(const std::vector<std::string>& decks) {
  const auto folder = std::filesystem::temp_directory_path() / ("towloom-decks-" + std::to_string(getpid()));
  const auto script = write_batch(decks, folder);
  FILE* pipe = popen(("ngspice -b '" + script.string() + "' 2>/dev/null").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::vector<std::map<std::string, double>> out(decks.size());
  std::size_t deck = 0;
  std::array<char, 512> line;
  while (fgets(line.data(), line.size(), pipe) != nullptr) {
    const std::string text = line.data();
    if (text.rfind("deck ", 0) == 0) deck = std::strtoul(text.c_str() + 5, nullptr, 10);
    if (deck < out.size()) read_line(text, out[deck]);
  }
  pclose(pipe);
  if (std::getenv("KEEP_DECK") == nullptr) std::filesystem::remove_all(folder);
  return out;
}

}  // namespace towloom::ngspice
