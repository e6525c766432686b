// The strip of signal states: one small panel a state, the live wires in colour, the lamps lit or dark.
#include "sheets/states.hpp"

#include <algorithm>

#include "sheets/table.hpp"

namespace towloom {
namespace {

constexpr Mm100 least_width = mm(84), least_height = mm(46), gap = mm(2.5), legend_height = mm(7);

// What a driver does, singles first; a job has those that its circuit tells apart.
const char* const named[] = {"tail", "stop", "left", "right", "hazard", "tail + stop", "tail + left", "tail + right", "stop + left", "reverse", "fog"};

std::vector<std::size_t> scenes_of(const Facts& facts) {
  std::vector<std::size_t> out;
  for (const char* name : named)
    for (std::size_t s = 0; s < facts.states.scenes.size(); ++s)
      if (facts.states.scenes[s].kind == "towing" && facts.states.scenes[s].name == name) out.push_back(s);
  return out;
}

struct Grid {
  int columns = 1, rows = 1;
  Rect room;
  Rect cell(int i) const {
    const Mm100 w = (room.w - gap * (columns - 1)) / columns, h = (room.h - gap * (rows - 1)) / rows;
    return {room.x + (i % columns) * (w + gap), room.y + (i / columns) * (h + gap), w, h};
  }
};
Grid grid_of(const Rect& space) {
  const Rect room{space.x + mm(3), space.y + mm(3), space.w - mm(6), space.h - mm(4) - legend_height};
  return {std::max(1, (room.w + gap) / (least_width + gap)), std::max(1, (room.h + gap) / (least_height + gap)), room};
}

void legend(const Rect& space, SheetPen& pen) {
  Mm100 x = space.x + mm(6);
  const Mm100 y = space.bottom() - mm(3.2);
  const auto say = [&](const char* key) {
    Label label = pen.text(word(pen.style, key), {x, y + mm(1.25)}, Anchor::start);
    label.decoration = true;
    x = label.room.right() + mm(7);
    pen.write(std::move(label));
  };
  for (const auto& [seen, key] : {std::pair{Seen::lit, "state-lit"}, {Seen::flash, "state-flashes"}, {Seen::dark, "state-dark"}}) {
    draw_state_lamp(seen, {x, y}, pen);
    x += mm(4);
    say(key);
  }
  pen.add({line({x, y}, {x + mm(9), y}, pen.pen("casing", "casing")), line({x, y}, {x + mm(9), y}, {line_width(pen.style, "core"), ink(pen.style, "lit"), {}, false})});
  x += mm(11);
  pen.add({line({x, y}, {x + mm(9), y}, pen.pen("symbol-heavy"))});
  x += mm(11);
  say("state-live");
  pen.add({line({x, y}, {x + mm(9), y}, pen.pen("outline", "rest"))});
  x += mm(11);
  say("state-rest");
}

}  // namespace

int states_pages(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure) {
  Drawing trial = table_blank(facts, style, "states", word(style, "states-sheet"), "");
  const Grid grid = grid_of(add_frame(trial, facts, catalogue, {"", "", "", "", 1, 1}, style, measure).space);
  const int scenes = static_cast<int>(scenes_of(facts).size()), each = grid.columns * grid.rows;
  return (scenes + each - 1) / each;
}

std::vector<Drawing> states_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style, const TextMeasure& measure, const Drawing& bench,
                                  int before, int after) {
  const std::vector<std::size_t> scenes = scenes_of(facts);
  const int pages = states_pages(facts, catalogue, style, measure);
  std::vector<Drawing> out;
  std::size_t next = 0;
  for (int p = 0; p < pages; ++p) {
    Drawing page = table_blank(facts, style, "states", word(style, "states-sheet"), "");
    const Frame frame = add_frame(page, facts, catalogue, {word(style, "states-sheet"), "", "", "", before + p + 1, before + pages + after}, style, measure);
    const Grid grid = grid_of(frame.space);
    SheetPen pen{page, style, measure};
    std::string words = word(style, "states-describe");
    for (int i = 0; i < grid.columns * grid.rows && next < scenes.size(); ++i, ++next) {
      const std::string lamps = draw_state_panel({scenes[next], live_in_scene(facts, scenes[next])}, facts, bench, grid.cell(i), pen);
      words += " " + facts.states.scenes[scenes[next]].name + ": " + lamps + ".";
    }
    legend(frame.space, pen);
    page.description = words;
    out.push_back(std::move(page));
  }
  return out;
}

}  // namespace towloom
