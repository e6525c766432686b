// The plan map: the car from above, front at the left and the right side of the vehicle above, with what is where; and
// what is to be done at each place.
#include "sheets/car_outline.hpp"
#include "sheets/map_words.hpp"

namespace towloom {
namespace {

using namespace map;

constexpr Mm100 note_line = mm(4.5), margin = mm(5);
constexpr std::size_t most_blocks = 60;   // of words around a car; the shown jobs have 20

struct Sheet {
  SheetPen pen;
  const Plan& plan;

  std::string say(const char* key) const { return word(pen.style, key); }
};

void write_block(Sheet& sheet, const Callout& callout) {
  if (!callout.at) return;
  Mm100 y = callout.at->y + mm(3.5);
  for (const auto& line : callout.text.lines) {
    Mm100 x = callout.at->x;
    for (const Word& w : line) {
      Label label = sheet.pen.text(w.text, {x, y}, Anchor::start, w.weight, w.ink);
      label.about = w.about;
      sheet.pen.write(std::move(label));
      x += sheet.pen.width(w.text, w.weight) + word_gap;
    }
    y += line_height;
  }
}

void draw_figure(Sheet& sheet, const Figure& f) {
  SheetPen& pen = sheet.pen;
  const Pen faint = pen.pen("outline", "faint"), thin = pen.pen("symbol", "quiet"), hair = pen.pen("outline", "quiet");
  pen.add({car_outline(f.body, nose_x, nose_y, thin)});
  const auto glass = [&](double outer, double inner) {   // from its edge to the roof's
    const Mm100 x = f.body.x + static_cast<Mm100>(outer * f.body.w), roof = f.body.x + static_cast<Mm100>(inner * f.body.w);
    pen.add({polyline({{x, f.body.y + mm(2.5)}, {roof, f.body.y + mm(7)}, {roof, f.body.bottom() - mm(7)}, {x, f.body.bottom() - mm(2.5)}, {x, f.body.y + mm(2.5)}}, faint)});
  };
  glass(0.27, 0.38);             // windscreen
  glass(0.87, 0.79);             // rear window
  const Mm100 middle = f.body.y + f.body.h / 2;
  pen.add({polyline({{f.body.x - mm(5), middle - mm(1.2)}, {f.body.x - mm(7.5), middle}, {f.body.x - mm(5), middle + mm(1.2)}}, thin), line({f.body.x - mm(2), middle}, {f.body.x - mm(7.5), middle}, thin)});
  pen.write(pen.text(sheet.say("map-front"), {f.room.x, middle + mm(6)}, Anchor::start, Weight::regular, "quiet"));
  pen.write(pen.text(sheet.say("side-right"), {f.reserved[0].x, f.reserved[0].y + mm(3.5)}, Anchor::start, Weight::semibold, "quiet"));
  pen.write(pen.text(sheet.say("side-left"), {f.reserved[1].x, f.reserved[1].y + mm(3.5)}, Anchor::start, Weight::semibold, "quiet"));
  for (std::size_t w = 0; w < f.ways.size(); ++w) {
    if (f.ways[w].size() < 2) continue;
    const bool run = sheet.plan.ways[w].run != nullptr, empty = sheet.plan.ways[w].wires.empty();
    pen.add({polyline(f.ways[w], run && !empty ? pen.pen("symbol-heavy") : thin)});
  }
  for (const std::vector<Callout>* all : {&f.spots, &f.runs})
    for (const Callout& c : *all)
      if (c.leader) pen.add({line(c.leader->a, c.leader->b, hair)});
  for (const Callout& c : f.runs)
    if (c.leader) pen.add({Disc{c.leader->a, mm(0.6), {}, true, ink(pen.style, "quiet")}});   // which of several lines it is about
  for (const Callout& c : f.spots)
    if (c.leader && (c.leader->b.y < c.at->y || c.leader->b.y > c.at->bottom()))
      pen.add({line({c.at->x, c.leader->b.y}, {c.at->right(), c.leader->b.y}, hair)});
    else if (c.leader)
      pen.add({line({c.leader->b.x, c.at->y}, {c.leader->b.x, c.at->bottom()}, hair)});
  for (std::size_t s = 0; s < f.markers.size(); ++s) {
    Shape frame = box(f.markers[s], pen.pen("symbol"), mm(1.2));
    frame.filled = true;
    frame.fill = ink(pen.style, "paper");
    pen.add({frame});
    pen.write(pen.text(number_of(sheet.plan, static_cast<int>(s)), {f.markers[s].x + marker_half, f.markers[s].y + marker_half + mm(1.25)}, Anchor::middle, Weight::semibold));
  }
  for (const Callout& c : f.runs)
    if (c.at) pen.add({filled_box({c.at->x - mm(0.5), c.at->y, c.at->w + mm(1), c.at->h}, ink(pen.style, "paper"))});   // over the glass
  for (const Callout& c : f.spots) write_block(sheet, c);
  for (const Callout& c : f.runs) write_block(sheet, c);
  Mm100 y = f.room.bottom() + mm(1) + mm(3.5);
  for (const std::string& text : pen.wrap(sheet.say("map-note"), f.room.w)) {
    pen.write(pen.text(text, {f.room.x, y}, Anchor::start, Weight::regular, "quiet"));
    y += note_line;
  }
}

}  // namespace

struct PlanMap::Laid {
  const Facts& facts;
  const Catalogue& catalogue;
  const Style& style;
  const TextMeasure& measure;
  Plan plan;
  std::vector<Figure> figures = {};   // a page each
  SheetTable table;
  Drawing blank;
};

PlanMap::PlanMap(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure) {
  Plan plan = make_plan(facts, style);
  SheetTable table = where_table(plan, facts, catalogue, style);
  const bool drawn = plan.spots.size() + plan.ways.size() <= most_blocks;
  if (!drawn) table.notes.push_back(word(style, "map-too-many"));
  auto laid = std::make_shared<Laid>(Laid{facts, catalogue, style, measure, std::move(plan), {}, std::move(table), table_blank(facts, style, "map", word(style, "map-sheet"), word(style, "map-describe"))});
  Drawing trial = laid->blank;
  const Rect space = add_frame(trial, facts, catalogue, {}, style, measure).space;
  const SheetPen ruler{trial, style, measure};
  const Mm100 notes = note_line * static_cast<Mm100>(ruler.wrap(word(style, "map-note"), space.w - 2 * margin).size());
  if (drawn) laid->figures.push_back(lay_figure(laid->plan, facts, {space.x + margin, space.y + mm(3), space.w - 2 * margin, space.h - mm(5) - notes}, ruler));
  while (drawn) {                // a crowded car is drawn again for what is left
    auto more = further_figure(laid->figures.back(), laid->plan);
    if (!more) break;
    laid->figures.push_back(std::move(*more));
  }
  laid_ = std::move(laid);
}

std::vector<Drawing> PlanMap::pages(int before, int after) const {
  const Laid& l = *laid_;
  StripRows strip;
  strip.document = word(l.style, "map-sheet");
  const int plans = static_cast<int>(l.figures.size());
  const std::vector<Drawing> tables = table_pages({{l.table}}, l.blank, strip, l.facts, l.catalogue, l.style, l.measure, before + plans, after);
  strip.pages = before + plans + static_cast<int>(tables.size()) + after;
  std::vector<Drawing> out;
  for (const Figure& figure : l.figures) {
    Drawing page = l.blank;
    strip.page = before + static_cast<int>(out.size()) + 1;
    add_frame(page, l.facts, l.catalogue, strip, l.style, l.measure);
    Sheet sheet{{page, l.style, l.measure}, l.plan};
    draw_figure(sheet, figure);
    out.push_back(std::move(page));
  }
  out.insert(out.end(), tables.begin(), tables.end());
  return out;
}

}  // namespace towloom
