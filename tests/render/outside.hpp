// Other programs that judge what is drawn, and what they say of a page's words.
#pragma once

#include <doctest/doctest.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

namespace towloom::test {

struct Ran {
  int status = -1;
  std::string out;
};
inline Ran run(const std::string& command) {
  Ran ran;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return ran;
  std::array<char, 4096> part{};
  for (size_t n; (n = fread(part.data(), 1, part.size(), pipe)) > 0;) ran.out.append(part.data(), n);
  ran.status = pclose(pipe);
  return ran;
}

inline std::string folder() {
  static const std::string name = [] {
    const auto p = std::filesystem::temp_directory_path() / ("towloom-test-render-" + std::to_string(getpid()));
    std::filesystem::create_directories(p);
    return p.string();
  }();
  return name;
}

inline std::string save(const std::string& name, const std::string& bytes) {
  const std::string path = folder() + "/" + name;
  std::ofstream(path, std::ios::binary) << bytes;
  return path;
}

inline std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

inline size_t count(const std::string& text, const std::string& piece) {
  size_t n = 0;
  for (size_t at = text.find(piece); at != text.npos; at = text.find(piece, at + 1)) ++n;
  return n;
}

// A word as pdftotext finds it; mm from the top left of the page. `top` and `bottom` are the font's, not the ink's.
struct FoundWord {
  std::string text;
  double left = 0, top = 0, right = 0, bottom = 0;
};

// One list a page.
inline std::vector<std::vector<FoundWord>> words_of_pdf(const std::string& file) {
  static const std::regex word("<word xMin=\"([-0-9.]+)\" yMin=\"([-0-9.]+)\" xMax=\"([-0-9.]+)\" yMax=\"([-0-9.]+)\">(.*)</word>");
  std::vector<std::vector<FoundWord>> pages;
  std::istringstream rows(run("LC_ALL=C pdftotext -bbox " + file + " -").out);
  for (std::string row; std::getline(rows, row);) {
    std::smatch m;
    if (row.find("<page ") != row.npos) pages.emplace_back();
    if (pages.empty() || !std::regex_search(row, m, word)) continue;
    const auto mm_of = [&](int i) { return std::stod(m[static_cast<size_t>(i)].str()) * 25.4 / 72; };
    pages.back().push_back({m[5].str(), mm_of(1), mm_of(2), mm_of(3), mm_of(4)});
  }
  return pages;
}

// A font configuration that knows only the faces of one folder: what a machine without the sheet face shows.
inline std::string fonts_only(const std::string& fonts) {
  const std::string file = save("fonts.conf", "<?xml version=\"1.0\"?><!DOCTYPE fontconfig SYSTEM \"fonts.dtd\"><fontconfig><dir>" + fonts +
                                                  "</dir><cachedir>" + folder() + "/fonts</cachedir></fontconfig>\n");
  return "FONTCONFIG_FILE=" + file + " ";
}

}  // namespace towloom::test
