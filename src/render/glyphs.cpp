#include "render/glyphs.hpp"

#include <cairo-ft.h>

#include <vector>

#include "drawing/utf8.hpp"
#include "render/paint.hpp"

namespace towloom {
namespace {

using Library = std::shared_ptr<FT_LibraryRec_>;

// Cairo may keep a face in its caches: the FreeType face, and the library behind it, live as long.
struct Owned {
  Library library;
  FT_Face face = nullptr;
};
void release(void* data) {
  auto* owned = static_cast<Owned*>(data);
  FT_Done_Face(owned->face);
  delete owned;
}
const cairo_user_data_key_t owned_key{};

struct Font {
  FT_Face face = nullptr;
  cairo_font_face_t* cairo = nullptr;
};

Library start() {
  FT_Library library = nullptr;
  if (FT_Init_FreeType(&library) != 0) return nullptr;
  return {library, [](FT_Library l) { FT_Done_FreeType(l); }};
}

Font open(const Library& library, const std::string& file) {
  FT_Face face = nullptr;
  if (!library || FT_New_Face(library.get(), file.c_str(), 0, &face) != 0) return {};
  Font out{face, cairo_ft_font_face_create_for_ft_face(face, FT_LOAD_NO_HINTING)};
  auto* owned = new Owned{library, face};
  if (cairo_font_face_set_user_data(out.cairo, &owned_key, owned, release) !=
      CAIRO_STATUS_SUCCESS) {
    cairo_font_face_destroy(out.cairo);
    release(owned);
    return {};
  }
  return out;
}

// A stretch of one label in one face.
struct Stretch {
  const Font* font = nullptr;
  std::string text;
  std::vector<cairo_glyph_t> glyphs;
  std::vector<cairo_text_cluster_t> clusters;
};

int bytes_of(char lead) {
  const auto c = static_cast<unsigned char>(lead);
  return c < 0x80 ? 1 : c < 0xE0 ? 2 : c < 0xF0 ? 3 : 4;
}

void show_stretch(cairo_t* cr, const Stretch& s, Mm100 size) {
  cairo_set_font_face(cr, s.font->cairo);
  cairo_set_font_size(cr, size);
  cairo_show_text_glyphs(cr, s.text.c_str(), static_cast<int>(s.text.size()), s.glyphs.data(),
                         static_cast<int>(s.glyphs.size()), s.clusters.data(),
                         static_cast<int>(s.clusters.size()),
                         static_cast<cairo_text_cluster_flags_t>(0));
}

}  // namespace

struct Glyphs::Set {
  Library library = start();
  Font sheet[2], stand_in[2];  // by Weight
  TextMeasure measure;
  std::string error;

  const Font& font_for(char32_t c, Weight weight) const {
    const int w = static_cast<int>(weight);
    const bool lent =
        FT_Get_Char_Index(sheet[w].face, c) == 0 && FT_Get_Char_Index(stand_in[w].face, c) != 0;
    return lent ? stand_in[w] : sheet[w];
  }

  // Every glyph stands where the text was measured: SVG, PDF and layout agree to 1/100 mm.
  std::vector<Stretch> stretches(const Label& label) const {
    std::vector<Stretch> out;
    const PlacedWords placed = place_words(label, measure);
    size_t word = 0;
    const std::string_view text = label.text;
    const auto points = code_points(text);
    size_t offset = 0;
    for (char32_t c : points) {
      const int bytes = bytes_of(text[offset]);
      const Font& font = font_for(c, label.weight);
      if (out.empty() || out.back().font != &font) out.push_back({&font, {}, {}, {}});
      Stretch& s = out.back();
      s.text += text.substr(offset, static_cast<size_t>(bytes));
      while (word + 1 < placed.words.size() && placed.words[word + 1].offset <= offset) ++word;
      const bool inside = !placed.words.empty() && offset >= placed.words[word].offset;   // else a blank before all words
      const size_t from = inside ? placed.words[word].offset : 0;
      const Mm100 begin = inside ? placed.x[word] : label.at.x;
      const Mm100 x = begin + measure.width(text.substr(from, offset - from), label.size, label.weight);
      s.glyphs.push_back({FT_Get_Char_Index(font.face, c), static_cast<double>(x),
                          static_cast<double>(label.at.y)});
      s.clusters.push_back({bytes, 1});
      offset += static_cast<size_t>(bytes);
    }
    return out;
  }
};

Glyphs::Glyphs() : set_(std::make_unique<Set>()) {
  if (!set_->measure.ok()) set_->error = set_->measure.error();
  for (Weight w : {Weight::regular, Weight::semibold}) {
    const int i = static_cast<int>(w);
    set_->sheet[i] = open(set_->library, TextMeasure::face_file(w).string());
    set_->stand_in[i] = open(set_->library, TextMeasure::fallback_file(w).string());
    if (set_->error.empty() && (!set_->sheet[i].cairo || !set_->stand_in[i].cairo))
      set_->error = "cannot open the fonts";
  }
}

Glyphs::~Glyphs() {
  for (int i = 0; i < 2; ++i) {
    if (set_->sheet[i].cairo) cairo_font_face_destroy(set_->sheet[i].cairo);
    if (set_->stand_in[i].cairo) cairo_font_face_destroy(set_->stand_in[i].cairo);
  }
}

const std::string& Glyphs::error() const { return set_->error; }

void Glyphs::show(cairo_t* cr, const Label& label) const {
  cairo_set_source_rgb(cr, label.colour.r / 255.0, label.colour.g / 255.0, label.colour.b / 255.0);
  for (const Stretch& s : set_->stretches(label)) show_stretch(cr, s, label.size);
}

}  // namespace towloom
