// Flat connectors: contacts in a row, labels in columns below, each led to its contact.
#include <algorithm>

#include "sheets/faces_pen.hpp"

namespace towloom {
namespace {

constexpr double shell_side = 0.85, shell_half_height = 0.72;  // of the pitch
constexpr Mm100 column_gap = mm(2.5);

double lead_mm(const Picture& p) { return p.compact ? 4 : 7; }

struct Row {
  std::vector<const FaceContact*> order;  // left to right
  double low = 0, high = 0;               // x of the outer contacts
};
Row row_of(const FaceView& v) {
  Row row;
  for (const FaceContact& c : v.contacts) row.order.push_back(&c);
  std::stable_sort(row.order.begin(), row.order.end(),
                   [](const FaceContact* a, const FaceContact* b) { return a->x < b->x; });
  if (!row.order.empty()) {
    row.low = row.order.front()->x;
    row.high = row.order.back()->x;
  }
  return row;
}

Mm100 column_width(const Picture& p, const FacesPen& pen) {
  Mm100 widest = mm(p.unit) - column_gap;
  for (const FaceContact& c : p.view->contacts)
    for (const ContactLine& line : contact_lines(p, c, pen.style))
      widest = std::max(widest, pen.width(line.text, weight_of(line)));
  return widest + column_gap;
}

Mm100 shell_width(const Picture& p, const Row& row) {
  return mm((row.high - row.low + 2 * shell_side) * p.unit);
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

// Room over the shell for the key's name.
Mm100 over(const Picture& p) { return p.compact && !p.view->connector->key.empty() ? mm(5) : 0; }

}  // namespace

Extent flat_extent(const Picture& p, const FacesPen& pen) {
  const Row row = row_of(*p.view);
  const std::string& named = p.view->connector->key;
  const Mm100 key = p.compact ? mm(4) : named.empty() ? 0 : pen.width(named) + mm(5);
  const Mm100 columns = column_width(p, pen) * static_cast<Mm100>(row.order.size());
  const Mm100 lines = (p.compact ? 2 : p.narrow ? 4 : 3) * face_line;
  return {std::max(columns, shell_width(p, row) + 2 * key),
          over(p) + mm(2 * shell_half_height * p.unit) + mm(lead_mm(p)) + lines + mm(1)};
}

void draw_flat(const Picture& p, Rect room, FacesPen& pen) {
  const FaceView& v = *p.view;
  const Row row = row_of(v);
  const Mm100 middle = room.x + room.w / 2, w = shell_width(p, row);
  const Rect shell{middle - w / 2, room.y + over(p), w, mm(2 * shell_half_height * p.unit)};
  std::vector<Mark> body;
  body.push_back(filled_box(shell, ink(pen.style, "zone"), mm(0.35 * p.unit)));
  body.push_back(box(shell, pen.pen("symbol"), mm(0.35 * p.unit)));
  pen.add(std::move(body));
  draw_key(p, shell, pen);
  const Mm100 column = column_width(p, pen);
  const Mm100 first = middle - column * static_cast<Mm100>(row.order.size()) / 2 + column / 2;
  const Mm100 text_top = shell.bottom() + mm(lead_mm(p));
  for (size_t i = 0; i < row.order.size(); ++i) {
    const FaceContact& c = *row.order[i];
    const Point centre{middle + mm((c.x - (row.low + row.high) / 2) * p.unit),
                       shell.y + shell.h / 2 - mm(c.y * p.unit)};
    const Mm100 x = first + column * static_cast<Mm100>(i);
    const Mm100 under = shell.bottom() + mm(1.2);
    pen.add({polyline({{centre.x, shell.bottom()},
                       {centre.x, under},
                       {x, text_top - mm(1)},
                       {x, text_top - mm(0.2)}},
                      pen.pen("outline", "quiet"))});
    pen.drawing.items.push_back(contact_figure(v, c, centre, p.unit, pen));
    const auto lines = contact_lines(p, c, pen.style);
    for (size_t k = 0; k < lines.size(); ++k)
      pen.write(contact_label(v, c, lines[k],
                              {x, text_top + mm(3.2) + static_cast<Mm100>(k) * face_line},
                              Anchor::middle, pen));
  }
}

}  // namespace towloom
