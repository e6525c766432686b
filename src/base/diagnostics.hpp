// Places in input files, and what there is to say about them. Collected, never thrown; printed in
// one place only (format_diagnostics).
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace towloom {

// A stretch of one input file. Lines and columns count from 1, columns in code points.
// `file` indexes Sources; -1 means "no place" (made by the program).
struct Place {
  int file = -1;
  int line = 0;
  int column = 0;
  int length = 1;
  bool known() const { return file >= 0 && line > 0; }
  auto operator<=>(const Place&) const = default;
};

// The texts of all files read, kept so that a finding can show its line.
struct Sources {
  struct File {
    std::string name;
    std::string text;
  };
  std::vector<File> files;
  int add(std::string name, std::string text);
};

enum class Severity { note, warning, error };

struct Diagnostic {
  Severity severity = Severity::error;
  std::string code;     // short, kebab-case, stable: "unknown-key"
  Place place;
  std::string message;  // lower case, no final stop
  std::string hint;     // what to do; may be empty
};

class Diagnostics {
 public:
  void error(std::string code, Place place, std::string message, std::string hint = {});
  void warning(std::string code, Place place, std::string message, std::string hint = {});
  bool has_errors() const;
  const std::vector<Diagnostic>& all() const { return all_; }

 private:
  std::vector<Diagnostic> all_;
};

// Compiler style: "file:line:column: error: message", the source line, a caret line, "  hint: …".
// Sorted by place, equal ones once, capped at 20 with a count of the rest.
std::string format_diagnostics(const Diagnostics&, const Sources&, bool colour);

// The nearest of `known` to `word` (Damerau-Levenshtein at most max(1, length/3)), or "".
std::string did_you_mean(std::string_view word, const std::vector<std::string>& known);

}  // namespace towloom
