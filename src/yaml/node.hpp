// YAML as a plain tree with places. The only room that knows yaml-cpp (yaml/read.cpp).
// Scalars stay text: no YAML 1.1 guessing of booleans, octals or base-60 numbers.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostics.hpp"

namespace towloom {

struct Entry;

struct Node {
  enum class Kind { empty, scalar, list, map };
  Kind kind = Kind::empty;
  std::string text;     // scalar only
  bool quoted = false;
  Place place;
  std::vector<Node> items;     // list only
  std::vector<Entry> entries;  // map only, in file order, keys unique

  const Node* find(std::string_view key) const;
};
struct Entry {
  std::string key;
  Place key_place;
  Node value;
};

// Reads exactly one document of file `file` in `sources`. Reports: not UTF-8, NUL and control
// characters, tabs in indentation, duplicate keys (both places), aliases, tags and merge keys, several
// documents, empty values (a comma inside flow text makes those), texts that span lines (they hide a
// lost comma, colon or quote), nesting over 32, over 100 000 nodes, over 1 MB. Nothing if any error was found.
std::optional<Node> read_yaml(int file, const Sources&, Diagnostics&);
// Same for a file of several documents.
std::vector<Node> read_yaml_documents(int file, const Sources&, Diagnostics&);

}  // namespace towloom
