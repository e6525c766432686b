// What `towloom list` prints: rows of text, one table a kind of the catalogue.
#pragma once

#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "drawing/drawing.hpp"
#include "drawing/style.hpp"

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

// The papers of a style, or the one that was meant.
std::string papers_of(const Style&, const std::string& wanted);

struct Arguments;
// The symbols of a style: as text, or with -o drawn. `name`: one of them, "" = all.
int list_symbols(const Arguments&, const std::string& name);
// Proves and writes pages as one PDF and one SVG each. Returns the exit status and has said what is wrong.
int save_pages(const std::vector<Drawing>& pages, const std::string& folder, const std::string& stem);

}  // namespace towloom
