// What is printed of a file that may be anything.
#include <doctest/doctest.h>

#include "base/diagnostics.hpp"

using namespace towloom;

namespace {

std::string shown(const std::string& text, Place place) {
  Sources sources;
  place.file = sources.add("job.yaml", text);
  Diagnostics diagnostics;
  diagnostics.error("x", place, "wrong");
  return format_diagnostics(diagnostics, sources, false);
}

}  // namespace

TEST_CASE("the offending line is quoted with a caret below it") {
  CHECK(shown("a: 1\nb: 2 µm\n", {0, 2, 4, 4}) == "job.yaml:2:4: error: wrong\n  b: 2 µm\n     ^~~~\n");
}

// ESC [ 2 J clears a terminal; U+009B does the same in one code point; U+202E turns the writing round.
TEST_CASE("what would steer a terminal is not sent to it") {
  CHECK(shown("a: \033[2J\xC2\x9B" "2J\xE2\x80\xAEx\xFF\n", {0, 1, 1, 1}) == "job.yaml:1:1: error: wrong\n  a: ?[2J?2J?x?\n  ^\n");
}

TEST_CASE("of a very long line the part around the caret is quoted") {
  const std::string text = std::string(5000, 'a') + "HERE" + std::string(5000, 'b');
  const std::string out = shown(text, {0, 1, 5001, 4});
  CHECK(out.size() < 600);
  const auto line = out.find("HERE"), caret = out.find("^~~~");
  REQUIRE(line != std::string::npos);
  REQUIRE(caret != std::string::npos);
  const auto column = [&](std::size_t at) { return at - (out.rfind('\n', at) + 1); };
  CHECK(column(line) - 2 == column(caret));   // the mark of what is left out has three bytes and one column
}
