// One text in, the tree and what was said about it out.
#pragma once

#include <optional>
#include <string>

#include "yaml/node.hpp"

namespace towloom::testing {

struct Reading {
  Sources sources;
  Diagnostics diagnostics;
  std::optional<Node> root;
};

inline Reading read(const std::string& text) {
  Reading out;
  const int file = out.sources.add("in.yaml", text);
  out.root = read_yaml(file, out.sources, out.diagnostics);
  return out;
}

// One bad text and the error it must give, written down by hand.
struct Bad {
  std::string text;
  int line, column;
  std::string code, fragment;
};

// True if one of the errors has the code, stands at line:column and holds the fragment.
inline bool says(const Diagnostics& diagnostics, const Bad& bad) {
  for (const Diagnostic& d : diagnostics.all())
    if (d.severity == Severity::error && d.code == bad.code && d.place.line == bad.line &&
        d.place.column == bad.column &&
        (d.message + "\n" + d.hint).find(bad.fragment) != std::string::npos)
      return true;
  return false;
}

}  // namespace towloom::testing
