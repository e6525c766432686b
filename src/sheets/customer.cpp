// The customer's page: coach and car from above, which lamps follow the coach and which stay dark, what to do before
// and after towing. No schematic symbols.
#include <algorithm>

#include "check/readings.hpp"
#include "sheets/car_outline.hpp"
#include "sheets/customer_words.hpp"
#include "sheets/table.hpp"

namespace towloom {
namespace {

constexpr Mm100 row_height = mm(6), text_line = mm(5.2), small_line = mm(4.6), lamp_radius = mm(1.7), side_gap = mm(3.4), column_space = mm(10);

struct Customer {
  const Facts& facts;
  const Catalogue& catalogue;
  SheetPen pen;
  const char* size = "body";   // of what is read; small where much is to be said
  bool dry = false;            // measured only

  const Circuit& circuit() const { return facts.circuit(); }
  std::string say(const std::string& key) const { return word(pen.style, key); }
  void write(const std::string& text, Point at, Weight weight = Weight::regular, const char* ink_name = "ink", Anchor anchor = Anchor::start) {
    if (!dry) pen.write(pen.text(text, at, anchor, weight, ink_name, size));
  }
  // The pen breaks lines in the small size.
  std::vector<std::string> wrap(const std::string& text, Mm100 width) const {
    return pen.wrap(text, static_cast<Mm100>(static_cast<double>(width) * text_size(pen.style, "small") / text_size(pen.style, size)));
  }
  Mm100 line() const { return std::string(size) == "body" ? text_line : small_line; }
};

// Lamps of one side that are alike to the driver.
struct Alike {
  const LampIntent* lamp = nullptr;
  int count = 1;
};
std::vector<Alike> lamps_of(const Circuit& circuit, Side side) {
  std::vector<Alike> out;
  for (const LampIntent& lamp : circuit.lamps) {
    const Part& part = circuit.part(lamp.lamp);
    if (part.side != side) continue;
    const auto known = std::find_if(out.begin(), out.end(), [&](const Alike& a) {
      const Part& other = circuit.part(a.lamp->lamp);
      return other.function == part.function && other.status == part.status && a.lamp->tow_signal.empty() == lamp.tow_signal.empty();
    });
    if (known == out.end()) out.push_back({&lamp});
    else ++known->count;
  }
  return out;
}

Mm100 rows_height(const Circuit& circuit, Side side) { return row_height * static_cast<Mm100>(lamps_of(circuit, side).size()); }

Mm100 picture_height(const Circuit& circuit) {
  return std::max(mm(34), rows_height(circuit, Side::right) + rows_height(circuit, Side::centre) + rows_height(circuit, Side::left) + 2 * side_gap);
}

// What the glass of the lamp gives: as surveyed, else as the style has it by function, else red.
Rgb light_of(const Customer& c, const Part& part) {
  const LampRow* surveyed = survey_row(c.facts.spec, part);
  for (const std::string& name : {"lens-" + (surveyed == nullptr ? "" : surveyed->lens), "lens-" + part.function})
    if (const auto found = c.pen.style.ink.find(name); found != c.pen.style.ink.end()) return found->second;
  return ink(c.pen.style, "cut");
}

// One lamp at the car's tail: a full disc where it follows the coach, an open ring where it stays dark.
void draw_lamp(Customer& c, const Alike& alike, Point at) {
  const LampIntent& lamp = *alike.lamp;
  const Part& part = c.circuit().part(lamp.lamp);
  const bool follows = !lamp.tow_signal.empty();
  Disc disc{at, lamp_radius, c.pen.pen("symbol"), follows, light_of(c, part)};
  c.pen.add({disc});
  const std::string shows = follows ? c.say("shows-" + part.function) : c.say("stays-dark");
  const Point text{at.x + mm(4), at.y + mm(1.35)};
  const std::string name = (part.status == Status::fitted ? c.say("added") + " " : "") + c.say("lamp-" + part.function) + (alike.count > 1 ? " (" + std::to_string(alike.count) + ")" : "") + ":";
  c.write(name, text, Weight::semibold);
  c.write(shows, {text.x + c.pen.width(name, Weight::semibold, "body") + mm(1.5), text.y}, Weight::regular, follows ? "ink" : "quiet");
}

// From above, the front at the left: the right side lies above.
void draw_picture(Customer& c, Rect r) {
  const Pen thin = c.pen.pen("symbol", "quiet"), faint = c.pen.pen("outline", "faint");
  const Mm100 middle = r.y + r.h / 2, coach_half = mm(15), car_half = std::min<Mm100>(mm(17), r.h / 2);
  const Rect coach{r.x, middle - coach_half, mm(50), 2 * coach_half};
  const Mm100 nose = coach.right() + mm(26), tail = nose + mm(56);
  c.pen.add({box(coach, thin, mm(2)), line({coach.x + mm(5), coach.y + mm(1)}, {coach.x + mm(5), coach.bottom() - mm(1)}, faint)});
  c.pen.add({car_outline({nose, middle - car_half, tail - nose, 2 * car_half}, mm(6), mm(5), thin)});
  for (const Mm100 x : {nose + mm(18), tail - mm(12)}) c.pen.add({line({x, middle - car_half + mm(2)}, {x, middle + car_half - mm(2)}, faint)});
  c.pen.add({line({coach.right(), middle}, {nose, middle}, c.pen.pen("symbol-heavy"))});
  for (const Mm100 x : {coach.right(), nose}) c.pen.add({Disc{{x, middle}, mm(1.3), {}, true, ink(c.pen.style, "ink")}});
  c.write(c.say("the-coach"), {coach.x + coach.w / 2 + mm(2), middle + mm(1.4)}, Weight::semibold, "ink", Anchor::middle);
  c.write(c.say("the-car"), {nose + mm(31), middle + mm(1.4)}, Weight::semibold, "ink", Anchor::middle);
  c.write(c.say("the-cord"), {(coach.right() + nose) / 2, middle - mm(3)}, Weight::regular, "quiet", Anchor::middle);
  c.write(c.say("right-side"), {nose + mm(31), middle - car_half + mm(6)}, Weight::regular, "quiet", Anchor::middle);
  c.write(c.say("left-side"), {nose + mm(31), middle + car_half - mm(3.4)}, Weight::regular, "quiet", Anchor::middle);
  Mm100 y = r.y + (r.h - picture_height(c.circuit())) / 2 + row_height / 2;
  const Mm100 x = tail + mm(8);
  for (const Side side : {Side::right, Side::centre, Side::left}) {
    const Mm100 from = y;
    for (const Alike& lamp : lamps_of(c.circuit(), side)) {
      draw_lamp(c, lamp, {x, y});
      y += row_height;
    }
    if (y > from) c.pen.add({polyline({{tail, side == Side::right ? middle - car_half + mm(3) : side == Side::left ? middle + car_half - mm(3) : middle}, {x - mm(3.6), (from + y - row_height) / 2}}, faint),
                             line({x - mm(3.6), from - mm(2)}, {x - mm(3.6), y - row_height + mm(2)}, faint)});
    y += side_gap;
  }
}

using Lines = std::vector<std::string>;

// A head and its lines; `numbered` for steps. Returns the height it takes.
Mm100 block(Customer& c, const std::string& head, const Lines& lines, Point at, Mm100 width, bool numbered) {
  Mm100 y = at.y + mm(5);
  if (!c.dry) c.pen.write(c.pen.text(head, {at.x, y}, Anchor::start, Weight::semibold, "ink", "head"));
  y += mm(6.5);
  const Mm100 indent = mm(6);
  int number = 0;
  for (const std::string& line : lines) {
    ++number;
    c.write(numbered ? std::to_string(number) : "–", {at.x, y}, numbered ? Weight::semibold : Weight::regular, numbered ? "ink" : "quiet");
    for (const std::string& text : c.wrap(line, width - indent)) {
      c.write(text, {at.x + indent, y});
      y += c.line();
    }
    y += mm(0.6);
  }
  return y - at.y;
}

struct Block {
  const char* head;
  Lines lines;
  bool numbered = false;       // steps
};
struct DriverPage {
  bool picture = false;        // of coach and car, above the blocks
  const char* size = "body";
  std::vector<Block> blocks;
};

// The blocks in two columns, each where there is more room. Returns the lowest end.
Mm100 columns(Customer& c, const DriverPage& page, Rect room) {
  const Mm100 column = (room.w - column_space) / 2, top = room.y + (page.picture ? picture_height(c.circuit()) + mm(3) : 0);
  Mm100 left = top, right = top;
  for (const Block& b : page.blocks) {
    Mm100& y = left <= right ? left : right;
    const Mm100 x = &y == &left ? room.x : room.x + column + column_space;
    y += block(c, c.say(b.head), b.lines, {x, y}, column, b.numbered) + mm(1.5);
  }
  return std::max(left, right);
}

// One page if it can be, in small text if it must; where much is to be said the blocks go on over further pages.
std::vector<DriverPage> divide(Customer c, Rect room) {
  c.dry = true;
  DriverPage all{true, "body", {}};
  for (Block& b : std::vector<Block>{{"before-towing", before_towing(c.facts, c.catalogue, c.pen.style), true}, {"odd-but-right", odd_but_right(c.facts, c.catalogue, c.pen.style)}, {"after-towing", after_towing(c.facts, c.catalogue, c.pen.style), true}, {"fuse-places", fuse_places(c.facts, c.catalogue, c.pen.style)}})
    if (!b.lines.empty()) all.blocks.push_back(std::move(b));
  for (const char* size : {"body", "small"}) {
    all.size = c.size = size;
    if (columns(c, all, room) <= room.bottom()) return {all};
  }
  c.size = "body";
  std::vector<DriverPage> out{{true, "body", {}}};
  for (const Block& b : all.blocks) {
    out.back().blocks.push_back(b);
    if (columns(c, out.back(), room) <= room.bottom()) continue;
    out.back().blocks.pop_back();
    out.push_back({false, "body", {b}});
  }
  return out;
}

}  // namespace

std::vector<Drawing> customer_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure, int before, int after) {
  const Drawing blank = table_blank(facts, style, "customer", word(style, "customer-sheet"), "For the driver: which lamps follow the motorhome, what to do before and after towing, fuses.");
  StripRows strip;
  strip.document = word(style, "customer-sheet");
  Drawing trial = blank;
  const Rect space = add_frame(trial, facts, catalogue, strip, style, measure).space;
  const Rect room{space.x + mm(6), space.y + mm(5), space.w - mm(12), space.h - mm(6)};
  const std::vector<DriverPage> divided = divide(Customer{facts, catalogue, {trial, style, measure}}, room);
  std::vector<Drawing> out;
  strip.pages = before + static_cast<int>(divided.size()) + after;
  for (const DriverPage& page : divided) {
    strip.page = before + static_cast<int>(out.size()) + 1;
    out.push_back(blank);
    add_frame(out.back(), facts, catalogue, strip, style, measure);
    Customer c{facts, catalogue, {out.back(), style, measure}, page.size};
    if (page.picture) draw_picture(c, {room.x, room.y, room.w, picture_height(c.circuit())});
    columns(c, page, room);
  }
  return out;
}

}  // namespace towloom
