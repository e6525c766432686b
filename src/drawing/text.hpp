// Text measuring with FreeType from font files, no fontconfig. The sheet face is Inter (package
// fonts-inter); the stack written to SVG goes on with Liberation Sans and the two faces of equal widths (package
// fonts-liberation2): room is kept for the wider. DejaVu Sans lends the letters that they lack.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "drawing/drawing.hpp"

namespace towloom {

class TextMeasure {
 public:
  TextMeasure();               // opens the faces, or shares those of another of its thread; ok() false and error() says what to install
  ~TextMeasure();
  TextMeasure(const TextMeasure&) = delete;
  bool ok() const;
  std::string error() const;
  Mm100 width(std::string_view utf8, Mm100 size, Weight) const;      // in the sheet face
  Mm100 reserve(std::string_view utf8, Mm100 size, Weight) const;    // widest of the stack, rounded up
  // Where each word of words_of() begins, so that no two touch in any face of the stack; last: where the text ends
  // in the widest. A blank is kept between words of the sheet face; behind a long one it is wider.
  std::vector<Mm100> word_places(std::string_view utf8, Mm100 size, Weight) const;
  // Sets label.room from text, anchor and size: cap height above the base line, descent below.
  void place(Label&) const;
  bool has_glyphs(std::string_view utf8) const;
  static std::filesystem::path face_file(Weight);
  static std::filesystem::path fallback_file(Weight);   // for glyphs the sheet face lacks

 private:
  struct Faces;
  std::shared_ptr<Faces> faces_;
};

constexpr double cap_height_em = 0.727;   // of the sheet face, read from its OS/2 table

}  // namespace towloom
