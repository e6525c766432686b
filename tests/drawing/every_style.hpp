// The shipped styles, all that are in styles/.
#pragma once

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "drawing/style.hpp"

namespace towloom::test {

inline Style shipped(const std::string& name) {
  Sources sources;
  Diagnostics diagnostics;
  auto style = read_style(std::filesystem::path(TOWLOOM_ROOT) / "styles", name, sources, diagnostics);
  INFO(format_diagnostics(diagnostics, sources, false));
  REQUIRE(style.has_value());
  return *style;
}
inline Style workshop() { return shipped("workshop"); }

// Files of styles/ that are styles: they name their papers.
inline std::vector<Style> every_style() {
  std::vector<Style> out;
  for (const auto& file : std::filesystem::directory_iterator(std::filesystem::path(TOWLOOM_ROOT) / "styles")) {
    if (file.path().extension() != ".yaml") continue;
    std::ifstream in(file.path());
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    if (text.find("\npapers:") != text.npos) out.push_back(shipped(file.path().stem().string()));
  }
  REQUIRE(out.size() >= 2);
  return out;
}

}  // namespace towloom::test
