#include <cstdlib>

#include "base/file.hpp"
#include "base/quantity.hpp"
#include "drawing/style.hpp"
#include "yaml/fields.hpp"

namespace towloom {
namespace {

constexpr std::size_t largest_file = 1 << 20;

// What the program draws with: a style that lacks one of these is refused when read.
const std::vector<std::string> needed_lines = {
    "symbol", "symbol-heavy", "outline", "factory", "core", "casing", "tracer", "frame", "strip"};
const std::vector<std::string> needed_sizes = {"small", "body", "head"};
const std::vector<std::string> needed_inks = {"ink",     "quiet", "faint", "zone",   "paper",
                                              "factory", "cut",   "test",  "casing", "banner",
                                              "rest",    "lit"};

struct Reader {
  const std::filesystem::path& folder;
  Sources& sources;
  Diagnostics& diagnostics;
  Style style{};

  std::optional<Node> file(const std::string& name) {
    std::string problem;
    const auto text = read_file(folder / (name + ".yaml"), largest_file, problem);
    if (!text) {
      diagnostics.error("no-style-file", {}, "styles/" + name + ".yaml: " + problem);
      return std::nullopt;
    }
    return read_yaml(sources.add("styles/" + name + ".yaml", *text), sources, diagnostics);
  }

  double number(const Node& node, const std::string& what) {
    const auto value = parse_quantity(node.text, Unit::plain);
    if (node.kind == Node::Kind::scalar && value) return *value;
    diagnostics.error("not-a-number", node.place, what + " must be a number");
    return 0;
  }

  std::vector<double> numbers(const Node& node, const std::string& what) {
    std::vector<double> out;
    if (node.kind != Node::Kind::list)
      diagnostics.error("not-a-list", node.place, what + " must be a list");
    for (const Node& item : node.items) out.push_back(number(item, what));
    return out;
  }

  Rgb rgb(const Placed<std::string>& text) {
    const std::string& t = text.value;
    if (t.size() == 7 && t[0] == '#' &&
        t.find_first_not_of("0123456789abcdefABCDEF", 1) == t.npos) {
      const long v = std::strtol(t.c_str() + 1, nullptr, 16);
      return {static_cast<unsigned char>(v >> 16), static_cast<unsigned char>(v >> 8),
              static_cast<unsigned char>(v)};
    }
    diagnostics.error("not-a-colour", text.place, "\"" + t + "\" is not a colour",
                      "write red, green and blue in hexadecimal, quoted: \"#7E4B26\"");
    return {};
  }

  // Calls `take(entry)` for each entry of a map; an error if it is none.
  template <class Take>
  void each(const Node* map, const std::string& what, Take take) {
    if (map == nullptr) return;
    if (map->kind != Node::Kind::map)
      diagnostics.error("not-a-map", map->place, what + " must be a map");
    for (const Entry& e : map->entries) take(e);
  }

  template <class T>
  void require(const std::map<std::string, T>& have, const std::vector<std::string>& names,
               const Node& map, const std::string& what) {
    for (const std::string& name : names)
      if (have.count(name) == 0)
        diagnostics.error("style-incomplete", map.place, what + " lacks \"" + name + "\"");
  }

  void papers(const Node* map) {
    each(map, "papers", [&](const Entry& e) {
      const auto size = numbers(e.value, "a paper");
      if (size.size() == 2 && size[0] >= 100 && size[1] >= 100 && size[0] <= 2000 &&
          size[1] <= 2000)
        style.papers[e.key] = {size[0], size[1]};
      else
        diagnostics.error("bad-paper", e.value.place,
                          "a paper is [width, height] in mm, 100 to 2000");
    });
  }

  void millimetres(const Node* map, const char* what, std::map<std::string, double>& into) {
    each(map, what, [&](const Entry& e) {
      into[e.key] = number(e.value, e.key);
      if (into[e.key] <= 0 || into[e.key] > 50)
        diagnostics.error("bad-size", e.value.place, e.key + " must be above 0 and at most 50 mm");
    });
  }

  void sheet(const Node& root, const std::string& name) {
    Fields fields(root, "style '" + name + "'", diagnostics);
    style.name = name;
    if (const auto module = fields.number("module")) style.module_mm = module->value;
    papers(fields.need_node("papers"));
    const Node* lines = fields.need_node("lines");
    const Node* text = fields.need_node("text");
    const Node* inks = fields.need_node("inks");
    millimetres(lines, "lines", style.line_mm);
    millimetres(text, "text", style.text_mm);
    each(inks, "inks", [&](const Entry& e) {
      style.ink[e.key] = rgb({e.value.text, e.value.place});
    });
    if (lines) require(style.line_mm, needed_lines, *lines, "lines");
    if (text) require(style.text_mm, needed_sizes, *text, "text");
    if (inks) require(style.ink, needed_inks, *inks, "inks");
    const auto colour_file = fields.need_text("colours"), symbol_file = fields.need_text("symbols"),
               word_file = fields.need_text("words");
    if (const auto letters = fields.text("letters")) style.letters = letters->value;
    fields.finish();
    if (const auto node = file(colour_file.value)) colours(*node);
    if (const auto node = file(symbol_file.value)) symbols(*node);
    if (const auto node = file(word_file.value)) words(*node);
  }

  void colours(const Node& root) {
    Fields fields(root, "colours", diagnostics);
    each(fields.need_node("colours"), "colours", [&](const Entry& e) {
      Fields row(e.value, "colour '" + e.key + "'", diagnostics);
      style.colours[e.key] = {e.key, row.need_text("word").value, rgb(row.need_text("printed")), {}};
      if (const Node* in = row.node("in"))
        for (const Entry& other : in->entries) style.colours[e.key].in[other.key] = other.value.text;
      row.need_text("source");
      row.finish();
    });
    fields.finish();
  }

  void words(const Node& root) {
    Fields fields(root, "words", diagnostics);
    fields.text("language");
    each(fields.need_node("words"), "words",
         [&](const Entry& e) { style.words[e.key] = e.value.text; });
    fields.finish();
  }

  void symbols(const Node& root) {
    Fields fields(root, "symbols", diagnostics);
    fields.need_text("source");
    each(fields.need_node("symbols"), "symbols", [&](const Entry& e) {
      Fields row(e.value, "symbol '" + e.key + "'", diagnostics);
      Symbol symbol;
      if (const auto like = row.text("like")) symbol = earlier(*like);
      symbol.name = e.key;
      if (const Node* pins = row.node("pins")) read_pins(*pins, symbol);
      if (const Node* body = row.node("body")) read_body(*body, symbol);
      if (const Node* strokes = row.node("strokes")) {
        symbol.strokes.clear();
        for (const Node& item : strokes->items) read_stroke(item, symbol);
      }
      if (symbol.strokes.empty())
        diagnostics.error("empty-symbol", e.key_place, "symbol '" + e.key + "' has no strokes");
      row.finish();
      style.symbols[e.key] = std::move(symbol);
    });
    fields.finish();
  }

  Symbol earlier(const Placed<std::string>& name) {
    const auto found = style.symbols.find(name.value);
    if (found != style.symbols.end()) return found->second;
    diagnostics.error("unknown-symbol", name.place,
                      "there is no symbol '" + name.value + "' above");
    return {};
  }

  void read_pins(const Node& map, Symbol& symbol) {
    symbol.pins.clear();
    each(&map, "pins", [&](const Entry& e) {
      const auto xy = numbers(e.value, "a pin");
      if (xy.size() != 2) return diagnostics.error("bad-pin", e.value.place, "a pin is [x, y]");
      if (xy[0] != static_cast<int>(xy[0]) || xy[1] != static_cast<int>(xy[1]))
        diagnostics.error("pin-off-grid", e.value.place,
                          "pin " + e.key + " must stand on a whole module");
      symbol.pins.push_back({e.key, xy[0], xy[1]});
    });
  }

  void read_body(const Node& list, Symbol& symbol) {
    const auto box = numbers(list, "a body");
    if (box.size() != 4 || box[0] >= box[2] || box[1] >= box[3])
      return diagnostics.error("bad-body", list.place, "a body is [left, top, right, bottom]");
    symbol.left = box[0], symbol.top = box[1], symbol.right = box[2], symbol.bottom = box[3];
  }

  void read_stroke(const Node& item, Symbol& symbol) {
    static const std::map<std::string, std::pair<size_t, size_t>> kinds = {
        {"line", {4, 4}},   {"polyline", {4, 64}}, {"polygon", {6, 64}},
        {"circle", {3, 3}}, {"arc", {5, 5}},       {"dot", {3, 3}}};
    Fields fields(item, "stroke", diagnostics);
    Symbol::Stroke stroke;
    for (const auto& [kind, count] : kinds) {
      const Node* points = fields.node(kind);
      if (points == nullptr) continue;
      stroke.kind = kind;
      stroke.xy = numbers(*points, kind);
      const bool even = kind != "polyline" && kind != "polygon" ? true : stroke.xy.size() % 2 == 0;
      if (stroke.xy.size() < count.first || stroke.xy.size() > count.second || !even)
        return diagnostics.error("bad-stroke", points->place,
                                 "wrong count of numbers for a " + kind);
    }
    if (stroke.kind.empty())
      return diagnostics.error("bad-stroke", item.place,
                               "a stroke is a line, polyline, polygon, circle, arc or dot");
    if (const auto pen = fields.word("pen", {"filled", "heavy", "dashed"})) {
      stroke.filled = pen->value == "filled";
      stroke.heavy = pen->value == "heavy";
      stroke.dashed = pen->value == "dashed";
    }
    fields.finish();
    symbol.strokes.push_back(std::move(stroke));
  }
};

}  // namespace

std::optional<Style> read_style(const std::filesystem::path& folder, const std::string& name,
                                Sources& sources, Diagnostics& diagnostics) {
  Reader reader{folder, sources, diagnostics};
  if (const auto root = reader.file(name)) reader.sheet(*root, name);
  if (diagnostics.has_errors()) return std::nullopt;
  return std::move(reader.style);
}

}  // namespace towloom
