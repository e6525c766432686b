#include "drawing/text.hpp"

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_ADVANCES_H

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>

#include "drawing/utf8.hpp"

namespace towloom {
namespace {

// Room above and below the base line, in em: the tallest ascender and the deepest descender of all
// faces (DejaVu Sans: b 0.760, g 0.236; read from the fonts).
constexpr double ascent_em = 0.76, descent_em = 0.24;

struct Face {
  FT_Face handle = nullptr;
  struct Glyph { bool known = false, present = false; std::int64_t advance = 0; };
  // Each letter is looked up once: Latin letters and signs by their number.
  mutable std::array<Glyph, 0x250> near;
  mutable std::map<char32_t, Glyph> far;

  // Advance in font units; a glyph the face lacks counts as its "missing" box.
  const Glyph& glyph(char32_t c) const {
    Glyph& g = c < near.size() ? near[c] : far[c];
    if (g.known) return g;
    const FT_UInt index = FT_Get_Char_Index(handle, c);
    FT_Fixed units = 0;
    if (FT_Get_Advance(handle, index, FT_LOAD_NO_SCALE, &units) != 0) units = 0;
    return g = {true, index != 0, units};
  }
  bool has(char32_t c) const { return glyph(c).present; }
  std::int64_t advance(char32_t c) const { return glyph(c).advance; }
  std::int64_t em() const { return handle->units_per_EM; }
};

// Half away from nothing: widths are never negative.
Mm100 scaled(std::int64_t units, Mm100 size, std::int64_t em) {
  return static_cast<Mm100>((units * size + em / 2) / em);
}

const char* dejavu_file(Weight weight) {
  return weight == Weight::regular ? "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"
                                   : "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf";
}

const char* liberation_file(Weight weight) {
  return weight == Weight::regular ? "/usr/share/fonts/truetype/liberation2/LiberationSans-Regular.ttf"
                                   : "/usr/share/fonts/truetype/liberation2/LiberationSans-Bold.ttf";
}

}  // namespace

// By Weight: the sheet face; what stands in for it where it is not installed, as wide as Arial and Helvetica; what
// lends the letters that it lacks.
struct TextMeasure::Faces {
  FT_Library library = nullptr;
  Face sheet[2], stand_in[2], lender[2];
  std::string error;

  Faces() {
    if (FT_Init_FreeType(&library) != 0) {
      error = "FreeType does not start";
      return;
    }
    for (Weight w : {Weight::regular, Weight::semibold}) {
      open(sheet[static_cast<int>(w)], face_file(w), "fonts-inter");
      open(stand_in[static_cast<int>(w)], liberation_file(w), "fonts-liberation2");
      open(lender[static_cast<int>(w)], fallback_file(w), "fonts-dejavu-core");
    }
  }
  ~Faces() {
    if (library != nullptr) FT_Done_FreeType(library);  // closes its faces too
  }
  Faces(const Faces&) = delete;

  void open(Face& face, const std::filesystem::path& file, const char* package) {
    if (!error.empty() || FT_New_Face(library, file.c_str(), 0, &face.handle) == 0) return;
    error = "cannot open the font " + file.string() + " (package " + package + ")";
  }

  Mm100 width(const Face (&faces)[2], std::string_view text, Mm100 size, Weight weight) const {
    const Face& own = faces[static_cast<int>(weight)];
    const Face& other = lender[static_cast<int>(weight)];
    std::int64_t units = 0, lent_units = 0;
    for (std::size_t i = 0; i < text.size();) {
      const char32_t c = next_code_point(text, i);
      const bool lent = !own.has(c) && other.has(c);
      (lent ? lent_units : units) += (lent ? other : own).advance(c);
    }
    return scaled(units, size, own.em()) + scaled(lent_units, size, other.em());
  }
};

std::filesystem::path TextMeasure::face_file(Weight weight) {
  return weight == Weight::regular ? "/usr/share/fonts/opentype/inter/Inter-Regular.otf"
                                   : "/usr/share/fonts/opentype/inter/Inter-SemiBold.otf";
}
std::filesystem::path TextMeasure::fallback_file(Weight weight) { return dejavu_file(weight); }

TextMeasure::TextMeasure() {
  static thread_local std::weak_ptr<Faces> open;   // opening them takes as long as measuring a sheet
  faces_ = open.lock();
  if (!faces_) open = faces_ = std::make_shared<Faces>();
}
TextMeasure::~TextMeasure() = default;
bool TextMeasure::ok() const { return faces_->error.empty(); }
std::string TextMeasure::error() const { return faces_->error; }

Mm100 TextMeasure::width(std::string_view utf8, Mm100 size, Weight weight) const {
  return ok() ? faces_->width(faces_->sheet, utf8, size, weight) : 0;
}

Mm100 TextMeasure::reserve(std::string_view utf8, Mm100 size, Weight weight) const {
  if (!ok()) return 0;
  return std::max(faces_->width(faces_->sheet, utf8, size, weight), faces_->width(faces_->stand_in, utf8, size, weight)) + 1;
}

std::vector<Mm100> TextMeasure::word_places(std::string_view utf8, Mm100 size, Weight weight) const {
  constexpr double least_gap_em = 0.12;   // still read as a gap; by eye
  const Mm100 gap = static_cast<Mm100>(size * least_gap_em);
  std::vector<Mm100> out;
  const auto words = words_of(utf8);
  Mm100 pushed = 0, end = 0;              // how far the words so far have been moved to the right
  for (const Word& word : words) {
    const Mm100 measured = width(utf8.substr(0, word.offset), size, weight);
    if (!out.empty()) pushed = std::max(pushed, end + gap - measured);
    out.push_back(measured + pushed);
    end = out.back() + reserve(word.text, size, weight);
  }
  out.push_back(end);
  return out;
}

void TextMeasure::place(Label& label) const {
  const Mm100 w = reserve(label.text, label.size, label.weight);
  Mm100 x = label.at.x;
  if (label.anchor == Anchor::middle) x -= w / 2;
  if (label.anchor == Anchor::end) x -= w;
  const Mm100 up = static_cast<Mm100>(label.size * ascent_em + 0.999);
  const Mm100 down = static_cast<Mm100>(label.size * descent_em + 0.999);
  label.room = {x, label.at.y - up, w, up + down};
}

bool TextMeasure::has_glyphs(std::string_view utf8) const {
  if (!ok()) return false;
  const auto points = code_points(utf8);
  return std::all_of(points.begin(), points.end(), [&](char32_t c) {
    return faces_->sheet[0].has(c) || faces_->lender[0].has(c);
  });
}

}  // namespace towloom
