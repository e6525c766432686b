// Pin faces: outlet, cord, inlet; each half from its mating face and from its wire side.
#include <algorithm>

#include "sheets/faces_pen.hpp"

namespace towloom {
namespace {

constexpr double small_round = 6, plain_round = 10, small_flat = 5.5,
                 plain_flat = 9.5;  // mm a unit
constexpr Mm100 margin = mm(5), section_head = mm(9.5);

struct Section {
  std::string title;
  std::vector<Picture> pictures;
  std::vector<CoreRow> rows;  // the continuity table instead of pictures
  bool weak = false;
  Mm100 height = 0;
};

bool is_round(const Picture& p) { return p.view->connector->shell != "flat"; }
Extent extent_of(const Picture& p, const FacesPen& pen) {
  return is_round(p) ? round_extent(p, pen) : flat_extent(p, pen);
}

Picture picture_of(const FaceView& v) {
  Picture p;
  p.view = &v;
  p.compact = v.site == Site::cord_at_outlet || v.site == Site::cord_at_inlet;
  p.you_wire = v.site == Site::inlet && v.view == View::wire;
  const bool round = v.connector->shell != "flat";
  p.unit = p.compact ? (round ? small_round : small_flat) : (round ? plain_round : plain_flat);
  if (p.you_wire) p.unit *= 2;
  return p;
}

std::string end_title(const FaceView& v, const std::string& place, const Style& style) {
  std::string out;
  if (v.site == Site::outlet) out = v.name + "  " + word(style, "coach-outlet");
  if (v.site == Site::inlet) out = v.name + "  " + word(style, "car-inlet");
  out += ": " + v.connector->title + ", " + v.half->title;
  return place.empty() ? out : out + ", " + place;
}

std::vector<Section> sections_of(const std::vector<FaceView>& views, const Facts& facts,
                                 const Catalogue& catalogue, const Style& style) {
  Section outlet, cord, inlet, table;
  for (const FaceView& v : views) {
    Section& s = v.site == Site::outlet ? outlet : v.site == Site::inlet ? inlet : cord;
    s.pictures.push_back(picture_of(v));
    s.weak = s.weak || v.weak;
    if (v.site == Site::outlet) s.title = end_title(v, facts.spec.coach.outlet.at, style);
    if (v.site == Site::inlet) s.title = end_title(v, facts.spec.car.inlet.at, style);
  }
  cord.title = word(style, "cord-ends");
  table.title = word(style, "cord-continuity");
  table.rows = cord_rows(facts, catalogue, style);
  std::vector<Section> out;
  for (Section* s : {&outlet, &cord, &inlet, &table})
    if (!s->pictures.empty() || !s->rows.empty()) out.push_back(std::move(*s));
  return out;
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text + ".";
}

// Columns of a section: each picture its own width, what is left over shared out.
std::vector<Rect> columns_of(const Section& s, const Rect& room, const FacesPen& pen) {
  std::vector<Rect> out;
  Mm100 used = 0;
  for (const Picture& p : s.pictures) {
    const Mm100 w = std::max(extent_of(p, pen).w, head_width(p, pen));
    out.push_back({0, room.y, w, room.h});
    used += w;
  }
  const Mm100 spare = (room.w - used) / static_cast<Mm100>(std::max<size_t>(out.size(), 1));
  Mm100 x = room.x;
  for (Rect& r : out) {
    r.x = x;
    r.w += spare;
    x += r.w;
  }
  return out;
}

struct Heads {
  std::vector<std::vector<std::string>> looks;
  size_t most = 0;
};
Heads heads_of(const Section& s, const std::vector<Rect>& columns, const FacesPen& pen) {
  Heads out;
  for (size_t i = 0; i < s.pictures.size(); ++i) {
    const FaceView& v = *s.pictures[i].view;
    const std::string& says = v.view == View::mating ? v.half->looks_mating : v.half->looks_wire;
    out.looks.push_back(pen.wrap(sentence(says), columns[i].w - 2 * margin));
    out.most = std::max(out.most, out.looks.back().size());
  }
  return out;
}

Mm100 head_height(const Heads& h) {
  return eye_height + mm(1.5) + static_cast<Mm100>(h.most) * face_line + mm(4);
}

Mm100 measure_section(const Section& s, const Rect& room, const FacesPen& pen) {
  if (!s.rows.empty()) return section_head + table_height(s.rows);
  const auto columns = columns_of(s, room, pen);
  Mm100 tallest = 0;
  for (const Picture& p : s.pictures) tallest = std::max(tallest, extent_of(p, pen).h);
  return section_head + head_height(heads_of(s, columns, pen)) + tallest;
}

void draw_picture(const Picture& p, const Rect& column, const std::vector<std::string>& looks,
                  Mm100 head, Mm100 tallest, FacesPen& pen) {
  draw_head(p, {column.x + margin, column.y}, looks, pen);
  const Extent size = extent_of(p, pen);
  const Rect room{column.x, column.y + head + (tallest - size.h) / 2, column.w, size.h};
  if (is_round(p))
    draw_round(p, room, pen);
  else
    draw_flat(p, room, pen);
}

void draw_section(const Section& s, const Rect& room, FacesPen& pen) {
  pen.write(pen.text(s.title, {room.x + margin, room.y + mm(4.4)}, Anchor::start, Weight::semibold,
                     "ink", "head"));
  if (s.weak)
    pen.write(pen.text(sentence(word(pen.style, "match-letters")),
                       {room.right() - margin, room.y + mm(4.4)}, Anchor::end, Weight::semibold,
                       "cut"));
  const Rect inner{room.x, room.y + section_head, room.w, room.h - section_head};
  if (!s.rows.empty()) return draw_core_table(s.rows, {inner.x + margin, inner.y}, pen);
  const auto columns = columns_of(s, inner, pen);
  const Heads heads = heads_of(s, columns, pen);
  const Mm100 head = head_height(heads), tallest = inner.h - head;
  for (size_t i = 0; i < s.pictures.size(); ++i)
    draw_picture(s.pictures[i], columns[i], heads.looks[i], head, tallest, pen);
}

// Where a row of flat faces is too wide for the paper, their titles are broken.
void fit(Section& s, const Rect& room, const FacesPen& pen) {
  Mm100 used = 0;
  for (const Picture& p : s.pictures) used += std::max(extent_of(p, pen).w, head_width(p, pen));
  for (Picture& p : s.pictures) p.narrow = used > room.w && !is_round(p) && !p.compact;
}

// Sections in order, as many a page as fit.
std::vector<std::vector<Section>> paginate(std::vector<Section> sections, Rect space,
                                           const FacesPen& pen) {
  std::vector<std::vector<Section>> pages(1);
  Mm100 used = 0;
  for (Section& s : sections) {
    fit(s, space, pen);
    s.height = measure_section(s, space, pen);
    if (!pages.back().empty() && used + s.height > space.h) {
      pages.emplace_back();
      used = 0;
    }
    used += s.height + mm(6);
    pages.back().push_back(std::move(s));
  }
  return pages;
}

Drawing blank(const Facts& facts, const Style& style) {
  Drawing out;
  out.sheet = "faces";
  out.job = facts.spec.job.number.value;
  out.title = word(style, "pin-faces");
  out.description =
      "Connector faces of outlet, cord and inlet, from the mating face and from the wire side.";
  const auto paper = style.papers.find(facts.spec.paper);
  if (paper != style.papers.end()) {
    out.width = mm(paper->second.first);
    out.height = mm(paper->second.second);
  }
  return out;
}

Rect inset(Rect space) {
  return {space.x + mm(2), space.y + mm(5), space.w - mm(4), space.h - mm(7)};
}

void draw_page(const std::vector<Section>& page, Rect space, FacesPen& pen) {
  Mm100 used = 0;
  for (const Section& s : page) used += s.height;
  const Mm100 gap = std::min<Mm100>((space.h - used) / static_cast<Mm100>(page.size()), mm(16));
  Mm100 y = space.y;
  for (size_t i = 0; i < page.size(); ++i) {
    if (i > 0)
      pen.add({line({space.x + margin, y - gap / 2 - mm(1)},
                    {space.right() - margin, y - gap / 2 - mm(1)}, pen.pen("outline", "faint"))});
    draw_section(page[i], {space.x, y, space.w, page[i].height}, pen);
    y += page[i].height + gap;
  }
}

}  // namespace

std::vector<Drawing> faces_sheet(const Facts& facts, const Catalogue& catalogue, const Style& style,
                                 const TextMeasure& measure, Diagnostics&) {
  const std::vector<FaceView> views = face_views(facts, catalogue, style);
  StripRows strip;
  strip.document = word(style, "pin-faces");
  strip.extra_head = word(style, "strip-colours");
  if (!views.empty()) strip.extra = views.front().connector->default_colours;
  Drawing trial = blank(facts, style);  // how much room the frame leaves
  const Rect space = inset(add_frame(trial, facts, catalogue, strip, style, measure).space);
  FacesPen ruler{trial, style, measure};
  const auto pages = paginate(sections_of(views, facts, catalogue, style), space, ruler);
  std::vector<Drawing> out;
  for (size_t i = 0; i < pages.size(); ++i) {
    Drawing page = blank(facts, style);
    strip.page = 2 + static_cast<int>(i);  // the schematic is sheet 1
    strip.pages = 1 + static_cast<int>(pages.size());
    add_frame(page, facts, catalogue, strip, style, measure);
    FacesPen pen{page, style, measure};
    draw_page(pages[i], space, pen);
    out.push_back(std::move(page));
  }
  return out;
}

}  // namespace towloom
