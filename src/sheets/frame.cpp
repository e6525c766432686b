// Frame after ISO 5457, title strip with the fields of ISO 7200, cautions, and the banner of a
// faulty job.
#include <algorithm>
#include <array>
#include <cstdint>

#include "drawing/utf8.hpp"
#include "sheets/sheets.hpp"

namespace towloom {
namespace {

// Borders of ISO 5457: left 20 mm for filing, the others 10 mm.
constexpr Mm100 border = mm(10), filing_border = mm(20);
constexpr Mm100 strip_height = mm(14), line_pitch = mm(4.6), padding = mm(2.2),
                banner_height = mm(7);

struct Cell : StripCell {
  Mm100 width = 0;
};

struct Draft {
  Drawing& drawing;
  const Style& style;
  const TextMeasure& measure;

  Pen pen(const char* line_name, const char* ink_name = "ink") const {
    Pen out;
    out.width = line_width(style, line_name);
    out.colour = ink(style, ink_name);
    return out;
  }

  void write(std::string text, Point at, const char* size, Weight weight, const char* ink_name,
             Anchor anchor = Anchor::start) {
    Label label;
    label.text = std::move(text);
    label.at = at;
    label.anchor = anchor;
    label.size = text_size(style, size);
    label.weight = weight;
    label.colour = ink(style, ink_name);
    label.decoration = true;
    measure.place(label);
    drawing.items.emplace_back(std::move(label));
  }

  Mm100 reserve(const std::string& text, const char* size, Weight weight) const {
    return measure.reserve(text, text_size(style, size), weight);
  }
  // In every face: words in their places, none shortened for one face that the other would hold.
  Mm100 text_width(const std::string& text, const char* size, Weight weight) const {
    return std::max(measure.width(text, text_size(style, size), weight), measure.word_places(text, text_size(style, size), weight).back());
  }
  Mm100 value_width(const std::string& text) const { return text_width(text, "body", Weight::semibold); }
  Mm100 small_width(const std::string& text) const { return text_width(text, "small", Weight::semibold); }
  Mm100 head_room(const Cell& c) const { return text_width(c.head, "small", Weight::regular) + 2 * padding; }
  Mm100 needed(const Cell& c) const { return std::max(head_room(c), value_width(c.value) + 2 * padding); }

  // A value that is too long for its cell: in two lines of small letters, parted between words.
  std::array<std::string, 2> in_two(const std::string& text, Mm100 width) const {
    std::array<std::string, 2> out;
    for (const Word& word : words_of(text)) {
      const bool first = out[1].empty() && (out[0].empty() || small_width(out[0] + " " + word.text) <= width);
      std::string& line = out[first ? 0 : 1];
      line += (line.empty() ? "" : " ") + word.text;
    }
    return {shortened(out[0], width), shortened(out[1], width)};
  }
  // Drops code points from the end until the text fits, and says so with an ellipsis.
  std::string shortened(std::string text, Mm100 width) const {
    if (small_width(text) <= width) return text;
    while (!text.empty() && small_width(text + "…") > width) {
      while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0) == 0x80)
        text.pop_back();
      if (!text.empty()) text.pop_back();
    }
    while (!text.empty() && text.back() == ' ') text.pop_back();
    return text + "…";
  }

  // What is left over goes to the job's title; what is missing is taken from the cells that may
  // shorten, each in proportion to what its value is longer than its head.
  void share(std::vector<Cell>& cells, Mm100 width) const {
    Mm100 sum = 0, soft = 0;
    for (Cell& c : cells) {
      c.width = needed(c);
      sum += c.width;
      if (c.may_shorten) soft += c.width - head_room(c);
    }
    const Mm100 missing = sum - width;
    Mm100 used = 0;
    for (Cell& c : cells) {
      if (missing > 0 && c.may_shorten && soft > 0)
        c.width -= static_cast<Mm100>(static_cast<std::int64_t>(std::min(missing, soft)) * (c.width - head_room(c)) / soft);
      used += c.width;
    }
    cells[1].width += width - used;
  }

  void strip(std::vector<Cell> cells, Rect r) {
    share(cells, r.w);
    Decor rules;
    rules.marks.push_back(line({r.x, r.y}, {r.right(), r.y}, pen("strip")));
    Mm100 x = r.x;
    for (const Cell& c : cells) {
      if (x > r.x) rules.marks.push_back(line({x, r.y}, {x, r.bottom()}, pen("strip")));
      write(c.head, {x + padding, r.y + mm(4.8)}, "small", Weight::regular, "quiet");
      const Mm100 room = c.width - 2 * padding;
      if (value_width(c.value) <= room) {
        write(c.value, {x + padding, r.y + mm(10.8)}, "body", Weight::semibold, "ink");
      } else {
        const auto lines = in_two(c.value, room);
        const Mm100 first = r.y + mm(lines[1].empty() ? 10.6 : 8.8);
        for (const int n : {0, 1})
          if (const std::string& text = lines[static_cast<std::size_t>(n)]; !text.empty()) write(text, {x + padding, first + n * mm(3.6)}, "small", Weight::semibold, "ink");
      }
      x += c.width;
    }
    drawing.items.emplace_back(std::move(rules));
  }

  static Mm100 last_line(Rect r) { return r.bottom() - mm(1.9); }
  // Two lines; "not to scale" stands at the right of the lower. Returns the top.
  Mm100 cautions(Rect r) {
    write(word(style, "caution-work"), {r.x + padding, last_line(r) - line_pitch}, "small", Weight::regular, "quiet");
    write(word(style, "caution-test"), {r.x + padding, last_line(r)}, "small", Weight::regular, "quiet");
    write(word(style, "not-to-scale"), {r.right() - padding, last_line(r)}, "small", Weight::regular, "quiet", Anchor::end);
    return last_line(r) - 2 * line_pitch;
  }
  // What the cautions leave free of their two lines, upper one first.
  std::array<Rect, 2> beside_cautions(Rect r) const {
    const auto left = [&](const char* key) { return r.x + padding + reserve(word(style, key), "small", Weight::regular) + mm(7); };
    const Mm100 scale = reserve(word(style, "not-to-scale"), "small", Weight::regular) + mm(4), right = r.right() - padding;
    const Mm100 up = left("caution-work"), low = left("caution-test"), y = last_line(r);
    return {Rect{up, y - line_pitch, right - up, 0}, Rect{low, y, right - scale - low, 0}};
  }

  void banner(Rect r, const std::string& text) {
    Decor ground;
    ground.marks.push_back(filled_box(r, ink(style, "banner")));
    drawing.items.emplace_back(std::move(ground));
    write(text, {r.x + r.w / 2, r.bottom() - mm(2.1)}, "body", Weight::semibold, "paper", Anchor::middle);
  }
};

// Inside the frame line; and what of it lies above the title strip.
Rect frame_line(const Drawing& drawing) {
  return {filing_border, border, drawing.width - filing_border - border, drawing.height - 2 * border};
}
Rect above_strip(const Drawing& drawing) {
  const Rect r = frame_line(drawing);
  return {r.x, r.y, r.w, r.h - strip_height};
}

std::vector<StripCell> cells_of(const Facts& facts, const Catalogue& catalogue, const StripRows& rows,
                           const Style& style) {
  const TitleRows& job = facts.spec.job;
  const auto method = catalogue.methods.find(facts.spec.isolation.method.value);
  std::vector<StripCell> out;
  out.push_back({word(style, "strip-document"), rows.document});
  out.push_back({word(style, "strip-job") + " " + job.number.value, job.title.value, true});
  out.push_back(
      {word(style, "strip-method"),
       method == catalogue.methods.end() ? facts.spec.isolation.method.value : method->second.title,
       true});
  if (!rows.scene.empty()) out.push_back({word(style, "strip-scene"), rows.scene, true});
  if (!rows.extra_head.empty()) out.push_back({rows.extra_head, rows.extra, true});
  out.push_back({word(style, "strip-date"),
                 job.date.value + "  " + job.revision + "  " + job.by.value, true});
  out.push_back({word(style, "strip-sheet"), std::to_string(rows.page) + " " + word(style, "of") +
                                                 " " + std::to_string(rows.pages)});
  return out;
}

}  // namespace

Frame add_frame(Drawing& drawing, const Facts& facts, const Catalogue& catalogue,
                const StripRows& rows, const Style& style, const TextMeasure& measure) {
  const auto faults = std::count_if(facts.findings.begin(), facts.findings.end(),
                                    [](const Finding& f) { return f.severity == Severity::error; });
  const std::string banner = facts.found ? word(style, "found-banner")
                             : faults > 0 ? std::to_string(faults) + " " + word(style, faults == 1 ? "fault" : "faults") + ": " + word(style, "do-not-build") : "";
  return add_frame(drawing, cells_of(facts, catalogue, rows, style), banner, style, measure);
}

std::array<Rect, 2> beside_cautions(Drawing& page, const Style& style, const TextMeasure& measure) {
  return Draft{page, style, measure}.beside_cautions(above_strip(page));
}

Frame add_frame(Drawing& drawing, const std::vector<StripCell>& strip_cells, const std::string& banner, const Style& style,
                const TextMeasure& measure) {
  Draft draft{drawing, style, measure};
  Frame out;
  out.outer = frame_line(drawing);
  const Rect strip{out.outer.x, out.outer.bottom() - strip_height, out.outer.w, strip_height};
  std::vector<Cell> cells;
  for (const StripCell& c : strip_cells) cells.push_back({c, 0});
  draft.strip(std::move(cells), strip);
  const Mm100 bottom = draft.cautions(above_strip(drawing));
  Mm100 top = out.outer.y;
  if (!banner.empty()) {
    draft.banner({out.outer.x, top, out.outer.w, banner_height}, banner);
    top += banner_height;
  }
  Decor frame;
  frame.marks.push_back(box(out.outer, draft.pen("frame")));
  drawing.items.emplace_back(std::move(frame));
  const Mm100 half =
      line_width(style, "frame") / 2;  // what is painted later leaves the frame line whole
  out.space = {out.outer.x + half, top + half, out.outer.w - 2 * half, bottom - top - half};
  return out;
}

}  // namespace towloom
