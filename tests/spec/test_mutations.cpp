// A damaged job is read or refused with a place, never anything else.
#include <doctest/doctest.h>

#include <string>

#include "spec/job_text.hpp"

using namespace towloom;
using namespace towloom::testing;

namespace {
void read_or_refuse(const std::string& text) {
  CAPTURE(text);
  const auto r = read_text(text);
  CHECK(r.spec.has_value() != r.diagnostics.has_errors());
  const int lines = static_cast<int>(lines_of(text).size());
  for (const Diagnostic& d : r.diagnostics.all()) {
    CHECK(d.place.known());
    CHECK(d.place.column >= 1);
    CHECK(d.place.line <= lines + 1);
    CHECK_FALSE(d.message.empty());
  }
}
}  // namespace

TEST_CASE("each line deleted, doubled or swapped with the next") {
  const auto lines = lines_of(plain_text());
  REQUIRE(lines.size() > 30);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    auto without = lines;
    without.erase(without.begin() + static_cast<std::ptrdiff_t>(i));
    read_or_refuse(joined(without));
    auto twice = lines;
    twice.insert(twice.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
    read_or_refuse(joined(twice));
    auto swapped = lines;
    if (i + 1 < lines.size()) std::swap(swapped[i], swapped[i + 1]);
    read_or_refuse(joined(swapped));
  }
}

TEST_CASE("a doubled row is refused") {
  const auto lines = lines_of(plain_text());
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::size_t first = lines[i].find_first_not_of(' ');
    if (first == std::string::npos || lines[i][first] == '#') continue;
    auto twice = lines;
    twice.insert(twice.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
    CAPTURE(lines[i]);
    CHECK_FALSE(read_text(joined(twice)).spec);
  }
}

TEST_CASE("the file cut off after any byte, and each mark replaced") {
  const std::string text = plain_text();
  for (std::size_t i = 0; i < text.size(); i += 7) read_or_refuse(text.substr(0, i));
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (std::string("{}[]:,\"").find(text[i]) == std::string::npos) continue;
    for (char c : {'{', '}', '[', ':', ',', '"', '\'', '&', '*', '#', '\n', '\t', '\0'}) {
      std::string changed = text;
      changed[i] = c;
      read_or_refuse(changed);
    }
  }
}
