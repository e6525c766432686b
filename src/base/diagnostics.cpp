#include "base/diagnostics.hpp"

#include <algorithm>

#include "base/utf8.hpp"

namespace towloom {
namespace {

constexpr std::size_t most_shown = 20;

const char* word(Severity s) {
  return s == Severity::error ? "error" : s == Severity::warning ? "warning" : "note";
}
const char* paint(Severity s) {
  return s == Severity::error ? "\033[1;31m" : s == Severity::warning ? "\033[1;33m" : "\033[1;36m";
}

std::string line_of(const std::string& text, int number) {
  std::size_t start = 0;
  for (int i = 1; i < number; ++i) {
    start = text.find('\n', start);
    if (start == std::string::npos) return {};
    ++start;
  }
  std::string line = text.substr(start, text.find('\n', start) - start);
  if (!line.empty() && line.back() == '\r') line.pop_back();
  return line;
}

// The part of a long line that surrounds the column, and the column in it.
std::string window(const std::string& line, int& column) {
  constexpr int wide = 160, before = 100;   // columns of a terminal, by eye
  std::vector<std::size_t> starts;
  for (std::size_t i = 0; i < line.size(); ++i)
    if ((static_cast<unsigned char>(line[i]) & 0xC0) != 0x80) starts.push_back(i);
  const int points = static_cast<int>(starts.size());
  if (points <= wide) return line;
  const int from = std::clamp(column - 1 - before, 0, points - wide);
  const std::size_t begin = starts[static_cast<std::size_t>(from)];
  const std::size_t end = from + wide < points ? starts[static_cast<std::size_t>(from + wide)] : line.size();
  column -= from - (from > 0 ? 1 : 0);
  return (from > 0 ? "…" : "") + line.substr(begin, end - begin) + (end < line.size() ? "…" : "");
}

// The line with a caret below column..column+length. Counts code points; tabs stay tabs.
std::string quote(const std::string& whole, int column, int length) {
  const std::string line = window(printable(whole), column);
  std::string carets;
  int at = 1;
  for (unsigned char c : line) {
    if ((c & 0xC0) == 0x80) continue;
    if (at >= column) break;
    carets += c == '\t' ? '\t' : ' ';
    ++at;
  }
  int room = 0;
  for (unsigned char c : line) room += (c & 0xC0) != 0x80;
  const int shown = std::clamp(length, 1, std::max(1, room - column + 1));
  return "  " + line + "\n  " + carets + "^" + std::string(static_cast<std::size_t>(shown - 1), '~') + "\n";
}

}  // namespace

int Sources::add(std::string name, std::string text) {
  files.push_back({std::move(name), std::move(text)});
  return static_cast<int>(files.size()) - 1;
}

void Diagnostics::error(std::string code, Place place, std::string message, std::string hint) {
  all_.push_back({Severity::error, std::move(code), place, std::move(message), std::move(hint)});
}
void Diagnostics::warning(std::string code, Place place, std::string message, std::string hint) {
  all_.push_back({Severity::warning, std::move(code), place, std::move(message), std::move(hint)});
}
bool Diagnostics::has_errors() const {
  return std::any_of(all_.begin(), all_.end(), [](const Diagnostic& d) { return d.severity == Severity::error; });
}

std::string format_diagnostics(const Diagnostics& diagnostics, const Sources& sources, bool colour) {
  std::vector<Diagnostic> sorted = diagnostics.all();
  std::stable_sort(sorted.begin(), sorted.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return a.place < b.place;
  });
  std::string out;
  std::size_t shown = 0, rest = 0;
  const Diagnostic* last = nullptr;
  for (const Diagnostic& d : sorted) {
    if (last != nullptr && last->place == d.place && last->message == d.message) continue;
    last = &d;
    if (shown == most_shown) {
      ++rest;
      continue;
    }
    ++shown;
    const bool placed = d.place.known() && d.place.file < static_cast<int>(sources.files.size());
    const auto* file = placed ? &sources.files[static_cast<std::size_t>(d.place.file)] : nullptr;
    if (placed)
      out += file->name + ":" + std::to_string(d.place.line) + ":" + std::to_string(d.place.column) + ": ";
    else
      out += "towloom: ";
    out += colour ? std::string(paint(d.severity)) + word(d.severity) + "\033[0m" : word(d.severity);
    out += ": " + printable(d.message) + "\n";
    if (placed) out += quote(line_of(file->text, d.place.line), d.place.column, d.place.length);
    if (!d.hint.empty()) out += "  hint: " + printable(d.hint) + "\n";
  }
  if (rest > 0) out += "towloom: and " + std::to_string(rest) + " more\n";
  return out;
}

std::string did_you_mean(std::string_view word_, const std::vector<std::string>& known) {
  const auto distance = [](std::string_view a, std::string_view b) {
    std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
    for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i)
      for (std::size_t j = 1; j <= b.size(); ++j) {
        const std::size_t swap = a[i - 1] == b[j - 1] ? 0 : 1;
        d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + swap});
        if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
          d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
      }
    return d[a.size()][b.size()];
  };
  if (word_.size() > 64) return {};
  std::string best;
  std::size_t least = std::max<std::size_t>(1, word_.size() / 3) + 1;
  for (const std::string& candidate : known) {
    const std::size_t d = distance(word_, candidate);
    if (d < least) {
      least = d;
      best = candidate;
    }
  }
  return best;
}

}  // namespace towloom
