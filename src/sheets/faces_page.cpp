#include "sheets/faces_page.hpp"

#include <algorithm>

namespace towloom {
namespace {

constexpr double small_round = 6, small_flat = 5.5;  // mm a unit
constexpr Mm100 margin = mm(5), section_head = mm(9.5), legend_height = mm(8);
constexpr Mm100 note_gap = mm(6), least_notes = mm(70);   // between a table and the notes beside it; narrower they break too often

// Columns of a section: each picture its own width, what is left over shared out.
std::vector<Rect> columns_of(const FaceSection& s, const Rect& room, const FacesPen& pen) {
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
Heads heads_of(const FaceSection& s, const std::vector<Rect>& columns, const FacesPen& pen) {
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

std::vector<std::string> note_lines(const FaceSection& s, Mm100 width, const FacesPen& pen) {
  std::vector<std::string> out;
  for (const std::string& note : s.notes)
    for (std::string& row : pen.wrap(note, width)) out.push_back(std::move(row));
  return out;
}

// Where the notes of a section stand: right of its table, if they are no higher than its rows, else below.
struct NotesPlace {
  bool beside = false;
  Mm100 x = 0, width = 0, height = 0;   // height: what they add to the section
};
NotesPlace notes_place(const FaceSection& s, const Rect& room, const FacesPen& pen) {
  const auto high = [&](Mm100 width) { return static_cast<Mm100>(note_lines(s, width, pen).size()) * face_line; };
  NotesPlace out{false, room.x + margin, room.w - 2 * margin, 0};
  if (s.notes.empty()) return out;
  if (!s.rows.empty()) {
    const TableSize table = table_size(s.rows, out.width, pen);
    const Mm100 x = room.x + margin + table.w + note_gap, width = room.right() - margin - x;
    if (width >= least_notes && high(width) <= table.rows_h) return {true, x, width, 0};
  }
  out.height = mm(3) + high(out.width);
  return out;
}

}  // namespace

Mm100 section_height(const FaceSection& s, const Rect& room, const FacesPen& pen) {
  if (!s.rows.empty())
    return section_head + table_size(s.rows, room.w - 2 * margin, pen).h + notes_place(s, room, pen).height;
  if (s.pictures.empty()) return section_head + notes_place(s, room, pen).height;
  const auto columns = columns_of(s, room, pen);
  Mm100 tallest = 0;
  for (const Picture& p : s.pictures) tallest = std::max(tallest, extent_of(p, pen).h);
  return section_head + head_height(heads_of(s, columns, pen)) + tallest + notes_place(s, room, pen).height;
}

namespace {

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

void draw_notes(const FaceSection& s, const NotesPlace& place, Mm100 top, FacesPen& pen) {
  Mm100 y = top + mm(6);
  for (const std::string& row : note_lines(s, place.width, pen)) {
    pen.write(pen.text(row, {place.x, y}, Anchor::start, Weight::regular, "ink"));
    y += face_line;
  }
}

void draw_section(const FaceSection& s, const Rect& room, FacesPen& pen) {
  const std::string warning = s.weak ? sentence(word(pen.style, "match-letters")) : "";
  const Mm100 free = room.w - 2 * margin - (s.weak ? pen.width(warning, Weight::semibold) + margin : 0);
  std::string title = s.title;  // a long one loses what stands behind its last commas
  while (pen.width(title, Weight::semibold, "head") > free && title.rfind(',') != std::string::npos)
    title.resize(title.rfind(','));
  pen.write(pen.text(title, {room.x + margin, room.y + mm(4.4)}, Anchor::start, Weight::semibold,
                     "ink", "head"));
  if (s.weak)
    pen.write(pen.text(warning,
                       {room.right() - margin, room.y + mm(4.4)}, Anchor::end, Weight::semibold,
                       "cut"));
  const Rect inner{room.x, room.y + section_head, room.w, room.h - section_head};
  const NotesPlace place = notes_place(s, room, pen);
  const Mm100 notes = inner.bottom() - place.height;
  if (s.pictures.empty()) {
    if (!s.rows.empty()) draw_core_table(s.rows, {inner.x + margin, inner.y}, inner.w - 2 * margin, pen);
    return draw_notes(s, place, s.rows.empty() ? inner.y - mm(3) : place.beside ? inner.y - mm(2) : notes, pen);
  }
  const auto columns = columns_of(s, inner, pen);
  const Heads heads = heads_of(s, columns, pen);
  const Mm100 head = head_height(heads), tallest = notes - inner.y - head;
  for (size_t i = 0; i < s.pictures.size(); ++i)
    draw_picture(s.pictures[i], columns[i], heads.looks[i], head, tallest, pen);
  draw_notes(s, place, notes, pen);
}

}  // namespace

bool is_round(const Picture& p) { return p.view->connector->shell != "flat"; }
Extent extent_of(const Picture& p, const FacesPen& pen) {
  return is_round(p) ? round_extent(p, pen) : flat_extent(p, pen);
}

Picture picture_of(const FaceView& v) {
  Picture p;
  p.view = &v;
  p.compact = v.site == Site::cord_at_outlet || v.site == Site::cord_at_inlet;
  p.you_wire = v.site == Site::inlet && v.view == View::wire;
  const bool round = is_round(p);
  p.unit = p.compact ? (round ? small_round : small_flat) : (round ? plain_round_unit : plain_flat_unit);
  if (p.you_wire) p.unit *= 2;
  return p;
}

std::string sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z')
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text + ".";
}

Rect faces_room(Rect space) {
  return {space.x + mm(2), space.y + mm(5), space.w - mm(4), space.h - mm(7) - legend_height};
}

void draw_faces_page(const std::vector<FaceSection>& page, Rect space, FacesPen& pen) {
  Mm100 used = 0;
  for (const FaceSection& s : page) used += s.height;
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

}  // namespace towloom
