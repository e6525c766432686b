// Flat connectors: contacts in one or two rows, labels in columns above and below, each led to its contact.
#include <algorithm>
#include <cmath>

#include "sheets/faces_pen.hpp"

namespace towloom {
namespace {

constexpr double shell_side = 0.85, shell_over = 0.72;  // of the pitch, beyond the outer contacts
constexpr Mm100 column_gap = mm(2.5);

Mm100 lead_of(const Picture& p) { return mm(p.compact ? 4 : 7); }

struct Face {
  std::vector<const FaceContact*> above, below;           // left to right; labelled over, under the shell
  double left = 0, right = 0, top = 0, bottom = 0;        // of the contacts, pitch units, y up
};
Face face_of(const FaceView& v) {
  Face face;
  if (v.contacts.empty()) return face;
  face.left = face.right = v.contacts[0].x;
  face.top = face.bottom = v.contacts[0].y;
  for (const FaceContact& c : v.contacts) {
    face.left = std::min(face.left, c.x);
    face.right = std::max(face.right, c.x);
    face.top = std::max(face.top, c.y);
    face.bottom = std::min(face.bottom, c.y);
  }
  for (const FaceContact& c : v.contacts)  // one row is labelled below
    (c.y > (face.top + face.bottom) / 2 + 0.01 ? face.above : face.below).push_back(&c);
  for (auto* row : {&face.above, &face.below})
    std::stable_sort(row->begin(), row->end(), [](const FaceContact* a, const FaceContact* b) { return a->x < b->x; });
  return face;
}

using Row = std::vector<const FaceContact*>;

// Many labels in a row stand on two levels in turn: half as much width, the leads of the far
// level pass between the labels of the near one.
constexpr Mm100 level_gap = mm(2);
bool staggered(const Picture& p, const Row& row) { return row.size() > (p.compact ? 4 : 5); }

Mm100 label_width(const Picture& p, const Row& row, const FacesPen& pen) {
  Mm100 widest = 0;
  for (const FaceContact* c : row)
    for (const ContactLine& line : contact_lines(p, *c, pen.style))
      widest = std::max(widest, pen.width(line.text, weight_of(line)));
  return widest;
}

// From label to label of a row.
Mm100 column_width(const Picture& p, const Row& row, const FacesPen& pen) {
  const Mm100 widest = label_width(p, row, pen);
  return std::max(mm(p.unit), staggered(p, row) ? (widest + mm(4)) / 2 : widest + column_gap);
}

Mm100 row_width(const Picture& p, const Row& row, const FacesPen& pen) {
  if (row.empty()) return 0;
  return column_width(p, row, pen) * static_cast<Mm100>(row.size() - 1) + label_width(p, row, pen) + column_gap;
}

Mm100 level_height(const Picture& p, const Row& row, bool far, const Style& style) {
  size_t most = 0;
  for (size_t i = 0; i < row.size(); ++i)
    if (!staggered(p, row) || (i % 2 == 1) == far) most = std::max(most, contact_lines(p, *row[i], style).size());
  return static_cast<Mm100>(most) * face_line;
}

Mm100 lines_height(const Picture& p, const Row& row, const Style& style) {
  const Mm100 near = level_height(p, row, false, style);
  return staggered(p, row) ? near + level_gap + level_height(p, row, true, style) : near;
}

Mm100 shell_width(const Picture& p, const Face& face) { return mm((face.right - face.left + 2 * shell_side) * p.unit); }
Mm100 shell_height(const Picture& p, const Face& face) { return mm((face.top - face.bottom + 2 * shell_over) * p.unit); }

// Room over the shell: labels of the upper row, or the key's name where it has no room beside.
Mm100 over(const Picture& p, const Face& face, const Style& style) {
  if (!face.above.empty()) return lines_height(p, face.above, style) + lead_of(p) + mm(1);
  return p.compact && !p.view->connector->key.empty() ? mm(5) : 0;
}

void draw_key(const Picture& p, const Rect& shell, FacesPen& pen) {
  const FaceView& v = *p.view;
  if (v.connector->key.empty()) return;
  const bool left = v.key_x < 0;
  const Mm100 y = shell.y + shell.h / 2, x = left ? shell.x - mm(1) : shell.right() + mm(1);
  const Mm100 out = left ? -mm(2.2) : mm(2.2);
  Shape arrow = polyline({{x, y}, {x + out, y - mm(1.1)}, {x + out, y + mm(1.1)}}, {});
  arrow.path.push_back({PathStep::Kind::close, {}, {}, {}});
  arrow.filled = true;
  arrow.fill = ink(pen.style, "ink");
  pen.add({arrow});
  if (p.compact) {  // no room beside the shell: the name stands over its end
    pen.write(pen.text(v.connector->key, {left ? shell.x : shell.right(), shell.y - mm(1.3)},
                       left ? Anchor::start : Anchor::end, Weight::regular, "quiet"));
    return;
  }
  pen.write(pen.text(v.connector->key, {x + out + (left ? -mm(1) : mm(1)), y + mm(1.25)},
                     left ? Anchor::end : Anchor::start, Weight::regular, "quiet"));
}

// Labels of one row in columns, and a lead from each to its contact's edge of the shell.
void draw_labels(const Picture& p, const Face& face, bool above, const Rect& shell, FacesPen& pen) {
  const auto& row = above ? face.above : face.below;
  const Mm100 middle = shell.x + shell.w / 2, column = column_width(p, row, pen);
  const Mm100 first = middle - column * static_cast<Mm100>(row.size()) / 2 + column / 2;
  const Mm100 edge = above ? shell.y : shell.bottom(), way = above ? -1 : 1;
  const Mm100 next_level = level_height(p, row, false, pen.style) + level_gap;
  for (size_t i = 0; i < row.size(); ++i) {
    const FaceContact& c = *row[i];
    const auto lines = contact_lines(p, c, pen.style);
    const Mm100 from = middle + mm((c.x - (face.left + face.right) / 2) * p.unit);
    const Mm100 x = first + column * static_cast<Mm100>(i), near = edge + way * lead_of(p);
    const Mm100 label = near + (staggered(p, row) && i % 2 == 1 ? way * next_level : 0);
    pen.add({polyline({{from, edge}, {from, edge + way * mm(1.2)}, {x, near - way * mm(1)}, {x, label - way * mm(0.2)}},
                      pen.pen("outline", "quiet"))});
    const Mm100 top = above ? label - static_cast<Mm100>(lines.size()) * face_line : label;
    for (size_t k = 0; k < lines.size(); ++k)
      pen.write(contact_label(*p.view, c, lines[k], {x, top + mm(3.2) + static_cast<Mm100>(k) * face_line},
                              Anchor::middle, pen));
  }
}

}  // namespace

Extent flat_extent(const Picture& p, const FacesPen& pen) {
  const Face face = face_of(*p.view);
  const std::string& named = p.view->connector->key;
  const Mm100 key = p.compact ? mm(4) : named.empty() ? 0 : pen.width(named) + mm(5);
  Mm100 columns = 0;
  for (const auto* row : {&face.above, &face.below})
    columns = std::max(columns, row_width(p, *row, pen));
  return {std::max(columns, shell_width(p, face) + 2 * key),
          over(p, face, pen.style) + shell_height(p, face) + lead_of(p) + lines_height(p, face.below, pen.style) + mm(1)};
}

void draw_flat(const Picture& p, Rect room, FacesPen& pen) {
  const FaceView& v = *p.view;
  const Face face = face_of(v);
  const Mm100 middle = room.x + room.w / 2, w = shell_width(p, face);
  const Rect shell{middle - w / 2, room.y + over(p, face, pen.style), w, shell_height(p, face)};
  std::vector<Mark> body;
  body.push_back(filled_box(shell, ink(pen.style, "zone"), mm(0.35 * p.unit)));
  body.push_back(box(shell, pen.pen("symbol"), mm(0.35 * p.unit)));
  pen.add(std::move(body));
  draw_key(p, shell, pen);
  if (!face.above.empty()) draw_labels(p, face, true, shell, pen);
  draw_labels(p, face, false, shell, pen);
  const double centre_x = (face.left + face.right) / 2, centre_y = (face.top + face.bottom) / 2;
  for (const FaceContact& c : v.contacts)
    pen.drawing.items.push_back(contact_figure(
        v, c, {middle + mm((c.x - centre_x) * p.unit), shell.y + shell.h / 2 - mm((c.y - centre_y) * p.unit)}, p.unit, pen));
}

}  // namespace towloom
