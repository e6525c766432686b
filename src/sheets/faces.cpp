// Pin faces: outlet, cord, inlet; each half from its mating face and from its wire side.
#include <algorithm>

#include "sheets/faces_pen.hpp"

namespace towloom {
namespace {

constexpr double small_round = 6.5, plain_round = 12, small_flat = 5.5,
                 plain_flat = 9;  // mm a unit
constexpr Mm100 margin = mm(5), section_head = mm(9.5), table_row = mm(5.6), badge_height = mm(7);

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

std::string end_title(const FaceView& v, const std::string& place) {
  std::string out;
  if (v.site == Site::outlet) out = v.name + "  Coach outlet";
  if (v.site == Site::inlet) out = v.name + "  Car inlet";
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
    if (v.site == Site::outlet) s.title = end_title(v, facts.spec.coach.outlet.at);
    if (v.site == Site::inlet) s.title = end_title(v, facts.spec.car.inlet.at);
  }
  cord.title = "Cord, ends as bought: P1 mates J1, P2 mates J2";
  table.title = "Cord continuity, contact to contact";
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

std::string view_title(const FaceView& v) {
  const std::string face = v.view == View::mating ? "MATING FACE" : "WIRE SIDE";
  const bool cord = v.site == Site::cord_at_outlet || v.site == Site::cord_at_inlet;
  return cord ? v.name + " " + face : face;
}

// Columns of a section: each picture its own width, what is left over shared out.
std::vector<Rect> columns_of(const Section& s, const Rect& room, const FacesPen& pen) {
  std::vector<Rect> out;
  Mm100 used = 0;
  for (const Picture& p : s.pictures) {
    const Mm100 w =
        std::max(extent_of(p, pen).w,
                 eye_width + mm(2) + pen.width(view_title(*p.view), Weight::semibold, "body"));
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
  if (!s.rows.empty())
    return section_head + table_row * static_cast<Mm100>(s.rows.size() + 1) + mm(1);
  const auto columns = columns_of(s, room, pen);
  Mm100 tallest = 0;
  for (const Picture& p : s.pictures)
    tallest = std::max(tallest, extent_of(p, pen).h + (p.you_wire ? badge_height + mm(4) : 0));
  return section_head + head_height(heads_of(s, columns, pen)) + tallest;
}

void draw_badge(Point top_middle, FacesPen& pen) {
  std::string says = word(pen.style, "you-wire-this");
  std::transform(says.begin(), says.end(), says.begin(), [](char c) {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  });
  const Mm100 w = pen.width(says, Weight::semibold, "body") + mm(8);
  pen.add({filled_box({top_middle.x - w / 2, top_middle.y, w, badge_height}, ink(pen.style, "ink"),
                      mm(1))});
  pen.write(pen.text(says, {top_middle.x, top_middle.y + mm(4.85)}, Anchor::middle,
                     Weight::semibold, "paper", "body"));
}

void draw_picture(const Picture& p, const Rect& column, const std::vector<std::string>& looks,
                  Mm100 head, Mm100 tallest, FacesPen& pen) {
  const Extent size = extent_of(p, pen);
  const Mm100 x = column.x + margin;
  draw_eye(*p.view, {x, column.y}, pen);
  pen.write(pen.text(view_title(*p.view), {x + eye_width + mm(2.5), column.y + mm(5.4)},
                     Anchor::start, Weight::semibold, "ink", "body"));
  for (size_t k = 0; k < looks.size(); ++k)
    pen.write(pen.text(looks[k],
                       {x, column.y + eye_height + mm(5) + static_cast<Mm100>(k) * face_line},
                       Anchor::start, Weight::regular, "quiet"));
  const Mm100 badge = p.you_wire ? badge_height + mm(4) : 0;
  const Mm100 top = column.y + head + (tallest - size.h - badge) / 2;
  const Rect room{column.x, top, column.w, size.h};
  if (is_round(p))
    draw_round(p, room, pen);
  else
    draw_flat(p, room, pen);
  if (p.you_wire) draw_badge({column.x + column.w / 2, room.bottom() + mm(4)}, pen);
}

void draw_table(const Section& s, const Rect& room, FacesPen& pen) {
  const char* heads[] = {"core", "function", "J1 contact", "J2 contact", "colour", "size"};
  std::vector<std::vector<std::string>> cells{{heads, heads + 6}};
  for (const CoreRow& r : s.rows) {
    const auto colour = pen.style.colours.find(r.colour);
    const std::string named =
        colour == pen.style.colours.end() ? r.colour : r.colour + "  " + colour->second.word;
    if (r.core.empty())
      cells.push_back({"–", r.function, r.outlet, "not connected", "", ""});
    else
      cells.push_back({r.core, r.function, r.outlet, r.inlet, named, r.size});
  }
  std::vector<Mm100> widths(6, 0);
  for (const auto& row : cells)
    for (size_t c = 0; c < row.size(); ++c)
      widths[c] = std::max(widths[c], pen.width(row[c], Weight::semibold) + mm(7));
  Mm100 total = 0;
  for (Mm100 w : widths) total += w;
  for (size_t r = 0; r < cells.size(); ++r) {
    const Mm100 y = room.y + static_cast<Mm100>(r) * table_row;
    Mm100 x = room.x + margin;
    for (size_t c = 0; c < cells[r].size(); ++c) {
      const bool quiet = r == 0 || cells[r][0] == "–";
      pen.write(pen.text(cells[r][c], {x, y + mm(4)}, Anchor::start,
                         c == 1 && !quiet ? Weight::semibold : Weight::regular,
                         quiet ? "quiet" : "ink"));
      x += widths[c];
    }
    pen.add({line({room.x + margin, y + table_row}, {room.x + margin + total, y + table_row},
                  pen.pen("outline", r == 0 ? "quiet" : "faint"))});
  }
}

void draw_section(const Section& s, const Rect& room, FacesPen& pen) {
  pen.write(pen.text(s.title, {room.x + margin, room.y + mm(4.4)}, Anchor::start, Weight::semibold,
                     "ink", "head"));
  if (s.weak)
    pen.write(pen.text(sentence(word(pen.style, "match-letters")),
                       {room.right() - margin, room.y + mm(4.4)}, Anchor::end, Weight::semibold,
                       "cut"));
  const Rect inner{room.x, room.y + section_head, room.w, room.h - section_head};
  if (!s.rows.empty()) return draw_table(s, inner, pen);
  const auto columns = columns_of(s, inner, pen);
  const Heads heads = heads_of(s, columns, pen);
  const Mm100 head = head_height(heads), tallest = inner.h - head;
  for (size_t i = 0; i < s.pictures.size(); ++i)
    draw_picture(s.pictures[i], columns[i], heads.looks[i], head, tallest, pen);
}

// Sections in order, as many a page as fit.
std::vector<std::vector<Section>> paginate(std::vector<Section> sections, Rect space,
                                           const FacesPen& pen) {
  std::vector<std::vector<Section>> pages(1);
  Mm100 used = 0;
  for (Section& s : sections) {
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
  out.title = "Pin faces";
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
  strip.document = "Pin faces";
  strip.extra_head = "COLOURS";
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
