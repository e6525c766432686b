// All forms on one sheet for the workshop wall: the mating faces of both halves side by side.
#include <algorithm>

#include "sheets/faces_page.hpp"

namespace towloom {
namespace {

constexpr double round_unit = 11, flat_unit = 9;  // mm a unit
constexpr Mm100 gap_x = mm(9), gap_y = mm(7), title_height = mm(9), half_height = mm(6), notes_gap = mm(5);

struct Cell {  // one form
  std::vector<Picture> pictures;
  std::vector<Extent> extents;
  std::vector<std::string> notes;
  Mm100 w = 0, h = 0, tallest = 0;
};

Cell cell_of(const std::vector<FaceView>& views, const FacesPen& pen) {
  Cell cell;
  for (const FaceView& v : views) {
    if (v.view != View::mating) continue;
    Picture p = picture_of(v);
    p.unit = is_round(p) ? round_unit : flat_unit;
    p.narrow = true;
    const Extent e = extent_of(p, pen);
    cell.pictures.push_back(p);
    cell.extents.push_back(e);
    cell.w += std::max(e.w, pen.width(v.half->title, Weight::semibold)) + gap_x;
    cell.tallest = std::max(cell.tallest, e.h);
  }
  cell.w = std::max(cell.w - gap_x, pen.width(views.front().connector->title, Weight::semibold, "head") +
                                        (views.front().weak ? pen.width(word(pen.style, "match-letters"), Weight::semibold) + gap_x : 0));
  for (const std::string& caution : views.front().connector->cautions)
    for (std::string& line : pen.wrap(caution, cell.w)) cell.notes.push_back(std::move(line));
  const Mm100 notes = cell.notes.empty() ? 0 : notes_gap + static_cast<Mm100>(cell.notes.size() - 1) * face_line;
  cell.h = title_height + half_height + cell.tallest + notes;
  return cell;
}

// Cells in rows of the same height class, as many in a row as fit.
std::vector<std::vector<Cell>> rows_of(std::vector<Cell> cells, Mm100 width) {
  std::stable_sort(cells.begin(), cells.end(), [](const Cell& a, const Cell& b) { return a.h > b.h; });
  std::vector<std::vector<Cell>> rows;
  std::vector<Mm100> used;
  for (Cell& c : cells) {
    size_t row = 0;
    while (row < rows.size() && used[row] + gap_x + c.w > width) ++row;
    if (row == rows.size()) {
      rows.emplace_back();
      used.push_back(-gap_x);
    }
    used[row] += gap_x + c.w;
    rows[row].push_back(std::move(c));
  }
  return rows;
}

void draw_cell(const Cell& cell, Point at, FacesPen& pen) {
  const FaceView& v = *cell.pictures.front().view;
  pen.write(pen.text(sentence(v.connector->title).substr(0, v.connector->title.size()), {at.x, at.y + mm(4.4)}, Anchor::start,
                     Weight::semibold, "ink", "head"));
  if (v.weak)
    pen.write(pen.text(word(pen.style, "match-letters"), {at.x + cell.w, at.y + mm(4.4)}, Anchor::end, Weight::semibold, "cut"));
  Mm100 used = 0;
  for (const Extent& e : cell.extents) used += e.w;
  const Mm100 spare = (cell.w - used) / static_cast<Mm100>(cell.extents.size());
  Mm100 x = at.x;
  for (size_t i = 0; i < cell.pictures.size(); ++i) {
    const Extent& e = cell.extents[i];
    const Mm100 top = at.y + title_height;
    const Rect room{x + spare / 2, top + half_height + (cell.tallest - e.h) / 2, e.w, e.h};
    pen.write(pen.text(cell.pictures[i].view->half->title, {room.x + room.w / 2, top + mm(2)}, Anchor::middle, Weight::semibold));
    if (is_round(cell.pictures[i]))
      draw_round(cell.pictures[i], room, pen);
    else
      draw_flat(cell.pictures[i], room, pen);
    x += e.w + spare;
  }
  Mm100 y = at.y + title_height + half_height + cell.tallest + notes_gap;
  for (const std::string& note : cell.notes) {
    pen.write(pen.text(note, {at.x, y}, Anchor::start, Weight::regular, "quiet"));
    y += face_line;
  }
}

}  // namespace

Drawing connector_poster(const Catalogue& catalogue, const Style& style, const TextMeasure& measure) {
  Drawing out;
  out.sheet = "connectors";
  out.job = "catalogue";
  out.title = word(style, "poster-title");
  out.description = word(style, "poster-how");
  const auto size = style.papers.find("a1");
  if (size != style.papers.end()) {
    out.width = mm(size->second.first);
    out.height = mm(size->second.second);
  }
  const Frame frame = add_frame(out, {{word(style, "strip-document"), word(style, "poster-title")},
                                      {word(style, "pin-faces"), word(style, "poster-how"), true}}, "", style, measure);
  const Rect space = faces_room(frame.space);
  FacesPen pen{out, style, measure};
  std::vector<std::vector<FaceView>> views;
  for (const auto& [name, form] : catalogue.connectors) views.push_back(form_views(form, form.default_colours, catalogue, style));
  std::vector<Cell> cells;
  for (const auto& v : views) cells.push_back(cell_of(v, pen));
  const Rect inner{space.x + mm(6), space.y + mm(3), space.w - mm(12), space.h - mm(6)};
  const auto rows = rows_of(std::move(cells), inner.w);
  Mm100 used = 0;
  for (const auto& row : rows) used += row.front().h;
  const Mm100 down = rows.size() < 2 ? 0 : (inner.h - used) / static_cast<Mm100>(rows.size() - 1);
  Mm100 y = inner.y;
  FaceSection all;  // for the legend
  for (const auto& row : rows) {
    Mm100 wide = 0;
    for (const Cell& c : row) wide += c.w;
    const Mm100 across = row.size() < 2 ? 0 : std::min<Mm100>((inner.w - wide) / static_cast<Mm100>(row.size() - 1), mm(40));
    Mm100 x = inner.x;
    for (const Cell& c : row) {
      draw_cell(c, {x, y}, pen);
      all.pictures.insert(all.pictures.end(), c.pictures.begin(), c.pictures.end());
      x += c.w + across;
    }
    y += row.front().h + std::max(down, gap_y);
  }
  draw_legend({all}, {space.x + mm(6), space.bottom() + mm(4)}, pen);
  return out;
}

}  // namespace towloom
