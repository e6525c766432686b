#include "drawing/style.hpp"

#include <cmath>
#include <stdexcept>

namespace towloom {
namespace {

template <class T>
const T& must_find(const std::map<std::string, T>& all, const std::string& name, const char* what) {
  const auto found = all.find(name);
  if (found == all.end())
    throw std::logic_error(std::string("the style has no ") + what + " " + name);
  return found->second;
}

std::vector<std::string> split(const std::string& text, char mark) {
  std::vector<std::string> out(1);
  for (char c : text) {
    if (c == mark)
      out.emplace_back();
    else
      out.back() += c;
  }
  return out;
}

// Luma of ITU-R BT.601, 0 to 255.
int luma(Rgb c) { return (299 * c.r + 587 * c.g + 114 * c.b) / 1000; }

Pen wire_pen(Mm100 width, Rgb colour) {
  Pen pen;
  pen.width = width;
  pen.colour = colour;
  return pen;
}

}  // namespace

const Symbol& Style::symbol(const std::string& key) const {
  return must_find(symbols, key, "symbol");
}

Mm100 line_width(const Style& style, const std::string& name) {
  return mm(must_find(style.line_mm, name, "line"));
}
Mm100 text_size(const Style& style, const std::string& name) {
  return mm(must_find(style.text_mm, name, "text size"));
}
std::string folded_paper(const Style& style, const std::string& paper) {
  const auto whole = style.papers.find(paper);
  if (whole == style.papers.end()) return paper;
  const auto [wide, high] = whole->second;
  for (const auto& [name, size] : style.papers)
    if (std::fabs(size.first - high) < 1 && std::fabs(size.second - wide / 2) < 1) return name;
  return paper;
}
Rgb ink(const Style& style, const std::string& name) { return must_find(style.ink, name, "ink"); }
std::string word(const Style& style, const std::string& key) {
  const auto found = style.words.find(key);
  return found == style.words.end() ? key : found->second;
}

std::vector<std::string> colour_letters(const std::string& colour, const Style& style) {
  std::vector<std::string> out;
  for (const std::string& piece : split(colour, '/')) {
    const bool joined = style.colours.count(piece) == 0 && piece.size() == 4 &&
                        style.colours.count(piece.substr(0, 2)) == 1 &&
                        style.colours.count(piece.substr(2)) == 1;
    if (joined) {
      out.push_back(piece.substr(0, 2));
      out.push_back(piece.substr(2));
    } else if (!piece.empty()) {
      out.push_back(piece);
    }
  }
  return out;
}

std::string colour_text(const std::string& colour, const Style& style) {
  if (style.letters.empty()) return colour;
  std::string out;
  for (const std::string& letters : colour_letters(colour, style)) {
    const auto known = style.colours.find(letters);
    const bool translated = known != style.colours.end() && known->second.in.count(style.letters) == 1;
    out += (out.empty() ? "" : "/") + (translated ? known->second.in.at(style.letters) : letters);
  }
  return out;
}

void set_pens(WireRun& run, const Style& style) {
  run.casing = run.core = run.tracer = {};
  if (run.status != "new") {
    run.core = wire_pen(line_width(style, "factory"), ink(style, "factory"));
    if (run.status == "removed") run.core.dash = {mm(1.5), mm(1.0)};
    return;
  }
  const auto letters = colour_letters(run.colour, style);
  const auto base = letters.empty() ? style.colours.end() : style.colours.find(letters[0]);
  run.casing = wire_pen(line_width(style, "casing"), ink(style, "casing"));
  // A colour without a print value (as found, misspelt) is drawn as plain ink: the letters speak.
  run.core = wire_pen(line_width(style, "core"),
                      base == style.colours.end() ? ink(style, "factory") : base->second.rgb);
  if (base != style.colours.end())
    for (const double length : base->second.dash) run.core.dash.push_back(mm(length));
  if (letters.size() < 2) return;
  const auto tracer = style.colours.find(letters[1]);
  if (tracer == style.colours.end()) return;
  const Rgb contrast = luma(run.core.colour) > 127 ? ink(style, "casing") : ink(style, "paper");
  run.tracer = wire_pen(line_width(style, "tracer"), style.tracers_contrast ? contrast : tracer->second.rgb);
  run.tracer.dash = {mm(3.0), mm(2.0)};
}

}  // namespace towloom
