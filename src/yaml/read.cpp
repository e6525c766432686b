#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <sstream>
#include <string_view>

#include "base/utf8.hpp"
#include "yaml/node.hpp"

namespace towloom {
namespace {

constexpr int deepest = 32;             // levels; a job has 5
constexpr int most_nodes = 100'000;     // guards walking
constexpr std::size_t largest = 1 << 20;

int code_points(std::string_view s) {
  return static_cast<int>(std::count_if(s.begin(), s.end(), [](unsigned char c) { return (c & 0xC0) != 0x80; }));
}

struct Reader {
  int file;
  const std::string& text;
  std::vector<std::size_t> line_starts;
  Diagnostics& diagnostics;
  int nodes = 0;
  bool failed = false;

  void error(const char* code, Place place, std::string message, std::string hint = {}) {
    diagnostics.error(code, place, std::move(message), std::move(hint));
    failed = true;
  }
  Place at(const YAML::Mark& m, int length = 1) const {
    if (m.is_null()) return {file, 1, 1, 1};
    // yaml-cpp counts bytes within the line, places count code points.
    const std::size_t start = line_starts[std::min(static_cast<std::size_t>(m.line), line_starts.size() - 1)];
    const std::string_view before = std::string_view(text).substr(start, static_cast<std::size_t>(m.column));
    return {file, m.line + 1, code_points(before) + 1, std::max(1, length)};
  }
  // Plain text continued on the next line arrives joined, and so do `|` and `>` blocks: the source tells.
  bool one_line(const YAML::Mark& m, const std::string& scalar, bool quoted) const {
    if (m.is_null()) return true;
    const std::size_t start = line_starts[std::min(static_cast<std::size_t>(m.line), line_starts.size() - 1)] + static_cast<std::size_t>(m.column);
    if (start >= text.size()) return scalar.empty();
    if (quoted) return text[start] != '|' && text[start] != '>';
    return text.compare(start, scalar.size(), scalar) == 0;
  }
  Node walk(const YAML::Node& from, int depth);
  void walk_map(const YAML::Node& from, Node& out, int depth);
};

void Reader::walk_map(const YAML::Node& from, Node& out, int depth) {
  for (const auto& pair : from) {
    if (!pair.first.IsScalar()) {
      error("key-kind", at(pair.first.Mark()), "a key must be plain text");
      continue;
    }
    const std::string key = pair.first.Scalar();
    const Place place = at(pair.first.Mark(), code_points(key));
    if (key == "<<") {
      error("merge-key", place, "merge keys are not read", "write the keys out");
      continue;
    }
    if (const auto old = std::find_if(out.entries.begin(), out.entries.end(),
                                      [&](const Entry& e) { return e.key == key; });
        old != out.entries.end()) {
      error("duplicate-key", place, "'" + key + "' is written twice",
            "it stands on line " + std::to_string(old->key_place.line) + " already; keep one of them");
      continue;
    }
    Node value = walk(pair.second, depth + 1);
    if (value.kind == Node::Kind::empty) {
      error("empty-value", place, "'" + key + "' has no value",
            "write a value, or quote the text if a comma stands in it: note: \"dead, no fuse found\"");
      continue;
    }
    out.entries.push_back({key, place, std::move(value)});
  }
}

Node Reader::walk(const YAML::Node& from, int depth) {
  Node out;
  out.place = at(from.Mark());
  if (++nodes > most_nodes || depth > deepest) {
    if (!failed) error("too-deep", out.place, "the file is nested too deeply or too large", "");
    return out;
  }
  if (const std::string& tag = from.Tag(); !tag.empty() && tag != "?" && tag != "!") error("tag", out.place, "tags are not read", "take off the '!' and what follows it");
  switch (from.Type()) {
    case YAML::NodeType::Scalar:
      out.kind = Node::Kind::scalar;
      out.text = from.Scalar();
      out.quoted = from.Tag() == "!";
      out.place.length = std::max(1, code_points(out.text)) + (out.quoted ? 2 : 0);
      if (!one_line(from.Mark(), out.text, out.quoted)) {
        out.place.length = 1;
        error("text-lines", out.place, "this text runs over several lines",
              "write it on one line, however long; if the next line is a row of its own, it lacks a comma, a colon or its indentation");
      }
      if (out.text.empty() && !out.quoted) out.kind = Node::Kind::empty;
      break;
    case YAML::NodeType::Sequence:
      out.kind = Node::Kind::list;
      for (const YAML::Node& item : from) {
        out.items.push_back(walk(item, depth + 1));
        if (out.items.back().kind == Node::Kind::empty)
          error("empty-value", out.items.back().place.line > 0 ? out.items.back().place : out.place,
                "an item of this list is empty");
      }
      break;
    case YAML::NodeType::Map:
      out.kind = Node::Kind::map;
      walk_map(from, out, depth);
      break;
    default: break;
  }
  return out;
}

// Everything that yaml-cpp would pass on or report oddly. Aliases are refused: no job needs them.
bool clean(const std::string& text, Reader& r) {
  int line = 1, column = 1;
  bool indent = true;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t n = utf8_length(text, i);
    const Place here{r.file, line, column, 1};
    const unsigned char c = static_cast<unsigned char>(text[i]);
    if (n == 0) return r.error("not-utf8", here, "this byte is not UTF-8", "save the file as UTF-8"), false;
    if (c != '\n' && c != '\r' && steers_terminal(text, i, n))
      return r.error("control-character", here, "a control character stands here", "delete it"), false;
    if (c == '\t' && indent)
      return r.error("tab", here, "a tab stands in the indentation", "use spaces"), false;
    if (c == '\n') {
      ++line;
      column = 1;
      indent = true;
    } else {
      indent = indent && c == ' ';
      ++column;
    }
    i += n;
  }
  return true;
}

std::vector<Node> read_all(int file, const Sources& sources, Diagnostics& diagnostics) {
  const std::string& text = sources.files[static_cast<std::size_t>(file)].text;
  std::vector<std::size_t> line_starts{text.rfind("\xEF\xBB\xBF", 0) == 0 ? 3u : 0u};   // a byte order mark is no column
  for (std::size_t i = 0; i < text.size(); ++i)
    if (text[i] == '\n') line_starts.push_back(i + 1);
  Reader r{file, text, std::move(line_starts), diagnostics};
  if (text.size() > largest) r.error("too-large", {file, 1, 1, 1}, "the file is larger than 1 MB");
  std::vector<Node> out;
  if (r.failed || !clean(text, r)) return out;
  try {
    for (const YAML::Node& document : YAML::LoadAll(text)) out.push_back(r.walk(document, 0));
  } catch (const YAML::Exception& e) {
    r.error("yaml", r.at(e.mark), "the YAML cannot be read here: " + e.msg,
            "look at this line and the one above for a missing colon, quote or bracket");
  }
  if (r.failed) out.clear();
  return out;
}

// yaml-cpp follows aliases silently and lets a quote run to the end of the file: both are found before it
// parses. True when something was reported.
bool has_traps(int file, const Sources& sources, Diagnostics& diagnostics) {
  std::istringstream in(sources.files[static_cast<std::size_t>(file)].text);
  int number = 0;
  bool found = false;
  for (std::string line; std::getline(in, line);) {
    ++number;
    char before = ' ';
    const auto here = [&](std::size_t i) { return Place{file, number, code_points(std::string_view(line).substr(0, i)) + 1, 1}; };
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (line[i] == '#' && (i == 0 || line[i - 1] == ' ')) break;
      const bool starts = before == ' ' || before == ':' || before == ',' || before == '[' || before == '{' || before == '-';
      if (starts && (line[i] == '"' || line[i] == '\'')) {
        const std::size_t end = line.find(line[i], i + 1);
        if (end == std::string::npos) {
          diagnostics.error("text-lines", here(i), "this quote is not closed on its line",
                            "close it; no text of a job runs over several lines");
          found = true;
          break;
        }
        i = end;
        before = 'x';
        continue;
      }
      if ((line[i] == '*' || line[i] == '&') && starts && i + 1 < line.size() && line[i + 1] != ' ') {
        diagnostics.error("alias", here(i), "anchors and aliases are not read",
                          "write the value out, or quote the text");
        found = true;
      }
      if (line[i] != ' ') before = line[i];
    }
  }
  return found;
}

}  // namespace

const Node* Node::find(std::string_view key) const {
  for (const Entry& e : entries)
    if (e.key == key) return &e.value;
  return nullptr;
}

std::optional<Node> read_yaml(int file, const Sources& sources, Diagnostics& diagnostics) {
  std::vector<Node> all = read_yaml_documents(file, sources, diagnostics);
  if (all.size() == 1) return std::move(all.front());
  if (all.size() > 1)
    diagnostics.error("documents", all[1].place, "the file holds a second document", "keep one document a file");
  else if (!diagnostics.has_errors())
    diagnostics.error("empty-file", {file, 1, 1, 1}, "the file is empty");
  return std::nullopt;
}

std::vector<Node> read_yaml_documents(int file, const Sources& sources, Diagnostics& diagnostics) {
  if (has_traps(file, sources, diagnostics)) return {};
  return read_all(file, sources, diagnostics);
}

}  // namespace towloom
