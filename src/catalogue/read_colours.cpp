// Files of colour conventions.
#include <algorithm>

#include "catalogue/parts.hpp"

namespace towloom {

void read_colour_conventions(const Node& node, Catalogue& out, Diagnostics& diagnostics) {
  Fields file(node, "colour conventions", diagnostics);
  each_row(file, "colour conventions", "convention", [&](Fields& row, const Entry& e) {
    ColourConvention c;
    c.title = row.need_text("title").value;
    for (const PlacedText& mark : row.texts("between")) c.between.push_back(mark.value);
    if (const auto joined = row.word("joined", {"no", "base first", "table order"}))
      c.joined = joined->value == "no"           ? ColourConvention::Joined::no
                 : joined->value == "base first" ? ColourConvention::Joined::base_first
                                                 : ColourConvention::Joined::table_order;
    else if (!row.has("joined"))
      (void)row.need_text("joined");
    if (const Node* codes = row.need_node("codes")) {
      Fields check(*codes, "codes", diagnostics);
      for (const Entry& code : codes->entries) {
        const std::string& iec = code.value.text;
        const bool letters = iec.size() == 2 && std::all_of(iec.begin(), iec.end(), [](char k) { return k >= 'A' && k <= 'Z'; });
        if (!letters)
          diagnostics.error("colour", code.value.place, "'" + code.key + "' needs the two capital letters of IEC 60757", "like sw: BK");
        c.codes.emplace_back(code.key, iec);
      }
    }
    c.provenance = read_provenance(row);
    keep(out.colour_conventions, e.key, c, e.key_place, "colour convention", diagnostics);
  });
  file.finish();
}

}  // namespace towloom
