// Cairo font faces from font files, and text shown glyph by glyph so that it stays searchable.
#pragma once

#include <cairo.h>

#include <memory>
#include <string>

#include "drawing/drawing.hpp"
#include "drawing/text.hpp"

namespace towloom {

class Glyphs {
 public:
  Glyphs();
  ~Glyphs();
  Glyphs(const Glyphs&) = delete;
  const std::string& error() const;  // empty if all faces are open
  void show(cairo_t*, const Label&) const;

 private:
  struct Set;
  std::unique_ptr<Set> set_;
};

}  // namespace towloom
