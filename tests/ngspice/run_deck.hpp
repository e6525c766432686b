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
inline std::vector<std::map<std::string, double>> volts_of_batch(const std::vector<std::string>& decks) {
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

// Ways to ask ngspice for one operating point, in this order: as the deck says, from the other side (gmin stepping first),
// with an end of its iteration that sixteen digits reach sooner. The last step is quadratically small: these tolerances
// are not what is compared.
inline const std::vector<std::string>& ways() {
  const std::string wide = "reltol=1e-6 abstol=1e-10 vntol=1e-7";
  static const std::vector<std::string> out{"", ".options noopiter\n", ".options " + wide + "\n", ".options noopiter " + wide + "\n",
                                            ".options noopiter gminsteps=0 " + wide + "\n"};
  return out;
}

// Only those stay empty that ngspice solves in none of the ways.
inline std::vector<std::map<std::string, double>> volts_of_all(const std::vector<std::string>& decks) {
  std::vector<std::map<std::string, double>> out(decks.size());
  for (const std::string& way : ways()) {
    std::vector<std::size_t> left;
    std::vector<std::string> batch;
    for (std::size_t d = 0; d < decks.size(); ++d)
      if (out[d].empty()) {
        left.push_back(d);
        batch.push_back(decks[d]);
        batch.back().insert(batch.back().find(".control"), way);
      }
    if (left.empty()) break;
    auto answers = volts_of_batch(batch);
    for (std::size_t i = 0; i < left.size(); ++i) out[left[i]] = std::move(answers[i]);
  }
  return out;
}

}  // namespace towloom::ngspice
