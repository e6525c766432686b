// What `towloom list` prints: rows of text, one table a kind of the catalogue.
#pragma once

#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"

namespace towloom {

using TextRows = std::vector<std::vector<std::string>>;   // the first row is the head

struct ListKind {
  const char* name;
  const char* says;
  TextRows (*rows)(const Catalogue&);   // first column: the name; column heads in the first row
};
const std::vector<ListKind>& list_kinds();

// Columns apart by two blanks, as wide as their longest text (in characters, not bytes).
std::string text_table(const TextRows&, const std::string& indent = "  ");
// A connector in full: contacts, colour sets, layouts, uses, mates, cautions, and every source.
std::string connector_text(const Connector&, const Catalogue&);
const char* confidence_word(Confidence);

}  // namespace towloom
