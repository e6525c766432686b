#include "render/web_font.hpp"

#include <hb-subset.h>
#include <hb.h>

#include <memory>
#include <set>

#include "drawing/text.hpp"
#include "drawing/utf8.hpp"

namespace towloom {
namespace {

template <auto Free>
struct Release {
  template <class T>
  void operator()(T* p) const { Free(p); }
};
using Blob = std::unique_ptr<hb_blob_t, Release<hb_blob_destroy>>;
using Face = std::unique_ptr<hb_face_t, Release<hb_face_destroy>>;
using Input = std::unique_ptr<hb_subset_input_t, Release<hb_subset_input_destroy>>;

std::string base64(const unsigned char* bytes, std::size_t size) {
  static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  for (std::size_t i = 0; i < size; i += 3) {
    const std::size_t left = size - i;
    const unsigned v = static_cast<unsigned>(bytes[i]) << 16 | (left > 1 ? static_cast<unsigned>(bytes[i + 1]) << 8 : 0) | (left > 2 ? bytes[i + 2] : 0u);
    out += letters[v >> 18 & 63];
    out += letters[v >> 12 & 63];
    out += left > 1 ? letters[v >> 6 & 63] : '=';
    out += left > 2 ? letters[v & 63] : '=';
  }
  return out;
}

// Without hints and layout features: the sheets set glyph beside glyph, as measured.
std::string rule(Weight weight, const std::set<char32_t>& used) {
  const Blob file(hb_blob_create_from_file_or_fail(TextMeasure::face_file(weight).c_str()));
  const Input input(hb_subset_input_create_or_fail());
  if (!file || !input) return "";
  const Face face(hb_face_create(file.get(), 0));
  for (char32_t c : used) hb_set_add(hb_subset_input_unicode_set(input.get()), c);
  hb_set_clear(hb_subset_input_set(input.get(), HB_SUBSET_SETS_LAYOUT_FEATURE_TAG));
  hb_subset_input_set_flags(input.get(), HB_SUBSET_FLAGS_NO_HINTING);
  const Face part(hb_subset_or_fail(face.get(), input.get()));
  if (!part) return "";
  const Blob bytes(hb_face_reference_blob(part.get()));
  unsigned size = 0;
  const char* data = hb_blob_get_data(bytes.get(), &size);
  const std::string family = weight == Weight::regular ? "Inter" : "'Inter Semi Bold'";   // as the style of the sheets asks for them
  return "@font-face{font-family:" + family + ";src:url(data:font/otf;base64," +
         base64(reinterpret_cast<const unsigned char*>(data), size) + ")}";
}

}  // namespace

std::string embedded_faces(const std::vector<Drawing>& pages, std::string& error) {
  std::set<char32_t> used[2];
  for (const Drawing& page : pages)
    for (const Item& item : page.items)
      if (const auto* label = std::get_if<Label>(&item))
        for (char32_t c : code_points(label->text)) used[static_cast<int>(label->weight)].insert(c);
  std::string out;
  for (const Weight weight : {Weight::regular, Weight::semibold}) {
    if (used[static_cast<int>(weight)].empty()) continue;
    const std::string one = rule(weight, used[static_cast<int>(weight)]);
    if (one.empty()) return error = "cannot take glyphs out of " + TextMeasure::face_file(weight).string(), std::string();
    out += one;
  }
  return out;
}

}  // namespace towloom
