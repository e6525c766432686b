// The shipped style with its text measuring.
#pragma once

#include "circuit/fixture.hpp"
#include "layout/outline.hpp"

namespace towloom::fixture {

struct Looks {
  Sources sources;
  Diagnostics diagnostics;
  std::optional<Style> style = read_style(std::filesystem::path(TOWLOOM_ROOT) / "styles", "workshop", sources, diagnostics);
  TextMeasure measure;
  Look look() const {
    REQUIRE(style.has_value());
    REQUIRE(measure.ok());
    return {*style, measure};
  }
};

}  // namespace towloom::fixture
