#include "layout/outline.hpp"

#include <algorithm>
#include <cmath>

namespace towloom {
namespace {

constexpr double line_pitch = 1.45;   // of two lines of text, modules
constexpr int pin_pitch = 3;          // of the terminals of a box: number and letters stand between two wires

bool starts(const std::string& text, const char* with) { return text.rfind(with, 0) == 0; }

// The side of a box that a terminal stands on: inputs left, outputs right, supply above, ground below.
Way side_of(const std::string& terminal) {
  if (terminal == "supply") return Way::up;
  if (terminal == "ground" || terminal == "G" || terminal == "-") return Way::down;
  if (starts(terminal, "out") || terminal == "K" || terminal == "30" || terminal == "2") return Way::right;
  return Way::left;
}

// Terminals of the right lamps above, of the left ones below: their wires then need not cross.
int height_rank(const std::string& terminal) {
  return terminal.find("right") != std::string::npos ? 0 : terminal.find("left") != std::string::npos ? 2 : 1;
}

std::string terminal_text(const std::string& terminal) {
  std::string out = starts(terminal, "in_") ? terminal.substr(3) : starts(terminal, "out_") ? terminal.substr(4) : terminal;
  std::replace(out.begin(), out.end(), '_', ' ');
  return out;
}

Outline box_outline(const Part& part, const Look& look) {
  Outline out;
  std::vector<int> left, right, up, down;
  for (std::size_t t = 0; t < part.terminals.size(); ++t) {
    const Way way = side_of(part.terminals[t]);
    (way == Way::left ? left : way == Way::right ? right : way == Way::up ? up : down).push_back(static_cast<int>(t));
  }
  const auto by_height = [&](int a, int b) {
    return height_rank(part.terminals[static_cast<std::size_t>(a)]) < height_rank(part.terminals[static_cast<std::size_t>(b)]);
  };
  std::stable_sort(left.begin(), left.end(), by_height);
  std::stable_sort(right.begin(), right.end(), by_height);
  double widest_left = 0, widest_right = 0;
  const auto text_of = [&](int t) { return terminal_text(part.terminals[static_cast<std::size_t>(t)]); };
  for (int t : left) widest_left = std::max(widest_left, look.width(text_of(t), false));
  for (int t : right) widest_right = std::max(widest_right, look.width(text_of(t), false));
  const double id = look.width(part.id, true);
  const int rows = static_cast<int>(std::max({left.size(), right.size(), std::size_t{1}})), half = (pin_pitch * (rows - 1) + 1) / 2;
  const int wide = std::max({static_cast<int>(std::ceil(widest_left + widest_right + 1.6)), static_cast<int>(std::ceil(id + 1)), 6,
                             2 * static_cast<int>(std::max(up.size(), down.size())) + 4});
  // Origin on the middle of the left side; names inside, the designation above them.
  const int top = -half - 3, bottom = half + (down.empty() ? 1 : 3);
  const auto place = [&](const std::vector<int>& terminals, int x, Way way) {
    const int first = -pin_pitch * (static_cast<int>(terminals.size()) - 1) / 2;
    for (std::size_t i = 0; i < terminals.size(); ++i) {
      const int y = first + pin_pitch * static_cast<int>(i);
      out.pins.push_back({terminals[i], {x, y}, way});
      out.labels.push_back({text_of(terminals[i]), way == Way::left ? x + 0.5 : x - 0.5, y + 0.5,
                            way == Way::left ? Anchor::start : Anchor::end, false});
    }
  };
  place(left, 0, Way::left);
  place(right, wide, Way::right);
  for (std::size_t i = 0; i < up.size(); ++i) out.pins.push_back({up[i], {3 + 2 * static_cast<int>(i), top}, Way::up});
  for (std::size_t i = 0; i < down.size(); ++i) {
    out.pins.push_back({down[i], {3 + 2 * static_cast<int>(i), bottom}, Way::down});
    if (i == 0) out.labels.push_back({text_of(down[i]), 3.0, bottom - 0.8, Anchor::middle, false});
  }
  out.labels.push_back({part.id, wide / 2.0, top + 1.4, Anchor::middle, true});
  out.body = {0, top, wide, bottom};
  return out;
}

// The coach's own loom: a box that grows to its contacts once they have their heights.
Outline loom_outline(const Part& part, const Look& look) {
  Outline out;
  int wide = 4;
  for (const std::string& terminal : part.terminals)
    wide = std::max(wide, static_cast<int>(std::ceil(look.width(word(look.style, "circuit-" + terminal), true) + 0.8)));
  out.body = {0, -1, wide, 1};
  for (std::size_t t = 0; t < part.terminals.size(); ++t) out.pins.push_back({static_cast<int>(t), {wide, 0}, Way::right});
  return out;
}

// Where a wire goes on: sheet and zone, in a flag at its end.
Outline reference_outline(const Part& part, bool begins, const Look& look) {
  Outline out;
  const int wide = static_cast<int>(std::ceil(look.width(part.value, true) + 1));
  out.body = {0, -1, wide, 1};
  out.pins = {{0, {begins ? wide : 0, 0}, begins ? Way::right : Way::left}};
  out.labels = {{part.value, wide / 2.0, 0.5, Anchor::middle, true}};
  return out;
}

Way way_of(const Symbol& s, double x, double y) {
  if (s.pins.size() == 1 && s.right - s.left < 1) return Way::any;   // a dot
  const double edges[] = {s.right - x, s.bottom - y, x - s.left, y - s.top};
  int best = 2;   // a pin at a corner leaves level
  for (int way : {2, 0, 1, 3})
    if (std::abs(edges[way]) < std::abs(edges[best]) - 1e-9) best = way;
  return static_cast<Way>(best);
}

Outline symbol_outline(const Part& part, const Symbol& symbol, bool lower) {
  Outline out;
  out.symbol = symbol.name;
  // Only a part whose level pins differ in height has an outer side.
  double least = 0, most = 0;
  for (const Symbol::PinAt& p : symbol.pins) least = std::min(least, p.y), most = std::max(most, p.y);
  const std::string left = "-left";
  const bool own = symbol.name.size() > left.size() && symbol.name.compare(symbol.name.size() - left.size(), left.size(), left) == 0;
  out.flipped = lower && least < most && part.side == Side::left && !own;
  const int s = out.flipped ? -1 : 1;
  for (std::size_t t = 0; t < part.terminals.size(); ++t) {
    auto pin = std::find_if(symbol.pins.begin(), symbol.pins.end(), [&](const auto& p) { return p.name == part.terminals[t]; });
    if (pin == symbol.pins.end() && t < symbol.pins.size()) pin = symbol.pins.begin() + static_cast<std::ptrdiff_t>(t);
    if (pin == symbol.pins.end()) continue;
    Way way = way_of(symbol, pin->x, pin->y);
    if (out.flipped && (way == Way::up || way == Way::down)) way = way == Way::up ? Way::down : Way::up;
    out.pins.push_back({static_cast<int>(t), {static_cast<int>(std::lround(pin->x)), s * static_cast<int>(std::lround(pin->y))}, way});
  }
  const double top = out.flipped ? -symbol.bottom : symbol.top, bottom = out.flipped ? -symbol.top : symbol.bottom;
  const auto in = [](double v) { return static_cast<int>(std::floor(v + 0.35)); };   // strokes may reach a little out of the body
  out.body = {in(symbol.left), -in(-top), in(symbol.right), in(bottom)};
  return out;
}

// What is long is written in two lines, parted at the space nearest its middle: the ground of a part stands beside it.
std::vector<std::string> short_lines(const std::string& text) {
  constexpr std::size_t longest = 23;   // letters
  if (text.size() <= longest) return {text};
  std::size_t best = std::string::npos;
  const auto off = [&](std::size_t at) { return at > text.size() / 2 ? at - text.size() / 2 : text.size() / 2 - at; };
  for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 1))
    if (best == std::string::npos || off(at) < off(best)) best = at;
  if (best == std::string::npos) return {text};
  return {text.substr(0, best), text.substr(best + 1)};
}

void add_labels(Outline& out, const Part& part, LampLines lines, const Style& style) {
  const double middle = (out.body.left + out.body.right) / 2.0;
  const double above = out.body.top - 0.8, below = out.body.bottom + 1.8;
  if (part.kind == "contact") {
    const bool main = part.group == "J1" || part.group == "J2";   // a second plug's contacts bear its name
    out.labels = {{main ? part.title : part.group + " " + part.title, middle, -0.9, Anchor::middle, true}};
  } else if (part.kind == "lamp") {
    const std::string function = word(style, "lamp-" + part.function);
    if (lines == LampLines::one) out.labels = {{function + " " + part.value, middle, -1.8, Anchor::middle, true}};
    else out.labels = {{function, middle, -1.8, Anchor::middle, true}, {part.value, middle, 2.7, Anchor::middle, false}};
  } else if (part.kind == "diode-pair" || part.kind == "ideal-pair") {
    out.labels = {{part.id, 4.7, 0.5, Anchor::middle, true}};
  } else if (part.kind == "relay") {
    const bool common_first = std::any_of(out.pins.begin(), out.pins.end(), [&](const PinSpot& p) { return part.terminals[static_cast<std::size_t>(p.terminal)] == "30" && p.at.x == 0; });
    out.labels = {{part.id, common_first ? 0.5 : 5.0, out.flipped ? -2.0 : 2.5, Anchor::start, true}};
    for (const PinSpot& p : out.pins) {   // the numbers of DIN 72552 over their leads, under the lower contact
      const bool right = p.at.x > 0, under = p.at.y == 1 || p.at.y - out.body.top <= 1;   // over a lead at the top they would lie on the frame
      out.labels.push_back({part.terminals[static_cast<std::size_t>(p.terminal)], right ? 7.7 : 0.3, p.at.y + (under ? 1.2 : -0.25), right ? Anchor::end : Anchor::start, false});
    }
  } else if (part.kind == "stud") {
    out.labels = {{part.id, -0.2, 3.2, Anchor::middle, true}};
  } else if (part.kind == "turn-switch" || part.kind == "turn-lever") {
    out.labels = {{part.id, middle, 0.5, Anchor::middle, true}};
  } else if (part.kind == "cap") {
    out.labels = {{word(style, "cap-old-branch"), 1.0, 2.2, Anchor::middle, false}};
  } else if (part.kind == "splice" || part.kind == "joint") {
    return;   // named where the wires leave room
  } else if (part.kind == "battery") {
    out.labels = {{part.id, middle, out.body.bottom + 2.0, Anchor::middle, true}, {part.value, middle, out.body.bottom + 3.5, Anchor::middle, false}};
  } else {
    // A wire downwards leaves no room below.
    const bool downwards = std::any_of(out.pins.begin(), out.pins.end(), [](const PinSpot& p) { return p.way == Way::down; });
    const auto value = part.kind == "switch" || part.value.empty() ? std::vector<std::string>{} : downwards ? std::vector<std::string>{part.value} : short_lines(part.value);
    const double first = downwards ? above - line_pitch * (static_cast<double>(value.size()) - 1) : below;
    out.labels = {{part.id, middle, downwards ? above - line_pitch * static_cast<double>(value.size()) : above, Anchor::middle, true}};
    for (std::size_t i = 0; i < value.size(); ++i) out.labels.push_back({value[i], middle, first + line_pitch * static_cast<double>(i), Anchor::middle, false});
  }
}

}  // namespace

double Look::width(const std::string& text, bool strong) const {
  return to_mm(measure.reserve(text, text_size(style, "small"), strong ? Weight::semibold : Weight::regular)) / style.module_mm;
}

void measure_room(Outline& outline, const Look& look) {
  outline.label_cells.clear();
  outline.room = {double(outline.body.left), double(outline.body.top), double(outline.body.right), double(outline.body.bottom)};
  for (const OutlineLabel& label : outline.labels) {
    const double width = look.width(label.text, label.strong);
    const double left = label.anchor == Anchor::start ? label.x : label.anchor == Anchor::end ? label.x - width : label.x - width / 2;
    outline.room.left = std::min(outline.room.left, left);
    outline.room.right = std::max(outline.room.right, left + width);
    outline.room.top = std::min(outline.room.top, label.y - 1.05);
    outline.room.bottom = std::max(outline.room.bottom, label.y + 0.35);
    // A wire's casing reaches 0.25 out. Beside text a wire is read as a stroke of a letter: it keeps farther off.
    constexpr double over = 0.3, beside = 0.45;
    const GridBox cells{static_cast<int>(std::ceil(left - beside)), static_cast<int>(std::ceil(label.y - 1.05 - over)), static_cast<int>(std::floor(left + width + beside)),
                        static_cast<int>(std::floor(label.y + 0.2 + over))};
    if (cells.left <= cells.right && cells.top <= cells.bottom) outline.label_cells.push_back(cells);
  }
}

Outline outline_of(const Part& part, const std::string& variant, bool lower, LampLines lines, const Look& look) {
  auto symbol = look.style.symbols.find(part.kind + variant);
  // What rests closed is drawn closed.
  const bool rests_closed = !part.elements.empty() && std::all_of(part.elements.begin(), part.elements.end(), [](const Element& e) { return e.gate == Gate::idle; });
  if (const auto closed = look.style.symbols.find(part.kind + "-closed"); rests_closed && closed != look.style.symbols.end()) symbol = closed;
  // Where ground or coil stand below in both halves, the left half has a symbol of its own.
  const auto left = look.style.symbols.find(part.kind + variant + "-left");
  if (lower && left != look.style.symbols.end()) symbol = left;
  // As found: the form that shows it, where there is one.
  if (const auto form = look.style.symbols.find(part.kind + "-" + part.found); !part.found.empty() && form != look.style.symbols.end()) symbol = form;
  Outline out;
  if (part.kind == "coach-feed") {
    out = loom_outline(part, look);
  } else if (part.kind == "reference") {
    out = reference_outline(part, variant == "-from", look);
  } else if (symbol == look.style.symbols.end()) {
    out = box_outline(part, look);
  } else {
    out = symbol_outline(part, symbol->second, lower);
    add_labels(out, part, lines, look.style);
  }
  out.labels.erase(std::remove_if(out.labels.begin(), out.labels.end(), [](const OutlineLabel& l) { return l.text.empty(); }), out.labels.end());
  measure_room(out, look);
  return out;
}

}  // namespace towloom
