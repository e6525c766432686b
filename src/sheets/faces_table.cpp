// The cord's continuity table, and the head over each picture.
#include <algorithm>
#include <numeric>

#include "sheets/faces_pen.hpp"

namespace towloom {
namespace {

constexpr Mm100 row_height = mm(5.6), cell_gap = mm(7), badge_height = mm(6.4),
                beside_eye = mm(2.5);

// Cores that the job uses, and those that are wrong; the rest is named below the table.
bool tabled(const CoreRow& r) { return !r.core.empty() && (r.used || r.crossed || r.open); }

std::vector<std::vector<std::string>> cells_of(const std::vector<CoreRow>& rows,
                                               const Style& style) {
  std::vector<std::vector<std::string>> out(1);
  const auto end = [&](const std::string& id) { return id + " " + word(style, "contact"); };
  out[0] = {word(style, "core"), word(style, "function"), end(rows.front().from), end(rows.front().to), word(style, "colour"), word(style, "size")};
  for (const CoreRow& r : rows) {
    if (!tabled(r)) continue;
    std::string named;
    for (const std::string& letters : colour_letters(r.colour, style)) {
      const auto colour = style.colours.find(letters);
      if (colour != style.colours.end()) named += (named.empty() ? "" : "/") + colour->second.word;
    }
    named = colour_text(r.colour, style) + (named.empty() ? "" : "  " + named);
    out.push_back({r.core, r.function, r.outlet, r.inlet, named, r.size});
    if (!r.found.empty()) out.back().push_back(word(style, "found") + ": " + r.found);
    else if (r.crossed || r.open) out.back().push_back(word(style, r.open ? "open-core" : "crossed-core"));
    else if (!r.note.empty()) out.back().push_back(r.note);
  }
  return out;
}

// "Cores not used in this job: C2 2 EBR – 5 S electric brake. Not connected in J1: 2 EBR electric brake; 4 BAT charge", and the same of J2.
std::string unconnected(const std::vector<CoreRow>& rows, const Style& style) {
  std::string out, unused;
  for (const CoreRow& r : rows)
    if (!r.core.empty() && !tabled(r)) unused += (unused.empty() ? "" : "; ") + r.core + " " + r.outlet + " \u2013 " + r.inlet + " " + r.function;
  if (!unused.empty()) out = word(style, "cores-unused") + ": " + unused;
  for (const bool outlet : {true, false}) {
    std::string names;
    for (const CoreRow& r : rows) {
      const std::string& contact = outlet ? r.outlet : r.inlet;
      if (r.core.empty() && !contact.empty()) names += (names.empty() ? "" : "; ") + contact + " " + r.function;
    }
    if (names.empty()) continue;
    out += (out.empty() ? "" : ". ") + word(style, "not-connected") + " " + (outlet ? rows.front().from : rows.front().to) + ": " + names;
  }
  return out;
}

std::string capitals(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](char c) {
    return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  });
  return text;
}

std::string view_title(const Picture& p, const Style& style) {
  const std::string title = word(style, p.view->view == View::mating ? "mating-face" : "wire-side");
  return p.compact ? title : capitals(title);
}

const char* title_size(const Picture& p) { return p.compact ? "small" : "body"; }

std::vector<Mm100> column_widths(const std::vector<std::vector<std::string>>& cells, const FacesPen& pen) {
  std::vector<Mm100> out;
  for (const auto& row : cells)
    for (size_t c = 0; c < row.size(); ++c) {
      if (c == out.size()) out.push_back(0);
      out[c] = std::max(out[c], pen.width(row[c], Weight::semibold) + cell_gap);
    }
  return out;
}

}  // namespace

TableSize table_size(const std::vector<CoreRow>& rows, Mm100 width, const FacesPen& pen) {
  const auto joined = std::count_if(rows.begin(), rows.end(), tabled);
  const auto left_over = pen.wrap(unconnected(rows, pen.style), width).size();
  const auto widths = column_widths(cells_of(rows, pen.style), pen);
  TableSize out;
  out.w = std::accumulate(widths.begin(), widths.end(), Mm100{0});
  out.rows_h = row_height * static_cast<Mm100>(joined + 1);
  out.h = out.rows_h + face_line * static_cast<Mm100>(left_over) + mm(2);
  return out;
}

void draw_core_table(const std::vector<CoreRow>& rows, Point top_left, Mm100 width, FacesPen& pen) {
  const auto cells = cells_of(rows, pen.style);
  const std::vector<Mm100> widths = column_widths(cells, pen);
  const Mm100 total = std::accumulate(widths.begin(), widths.end(), Mm100{0});
  Mm100 y = top_left.y;
  for (size_t r = 0; r < cells.size(); ++r, y += row_height) {
    Mm100 x = top_left.x;
    for (size_t c = 0; c < cells[r].size(); ++c) {
      const bool remark = c >= cells[0].size();
      const bool warning = remark && (cells[r][c].rfind(word(pen.style, "found") + ": ", 0) == 0 || cells[r][c] == word(pen.style, "crossed-core") || cells[r][c] == word(pen.style, "open-core"));
      const Weight weight = (c == 1 && r > 0) || warning ? Weight::semibold : Weight::regular;
      pen.write(pen.text(cells[r][c], {x, y + mm(4)}, Anchor::start, weight,
                         r == 0 || (remark && !warning) ? "quiet" : warning ? "cut" : "ink"));
      x += widths[c];
    }
    pen.add({line({top_left.x, y + row_height}, {top_left.x + total, y + row_height},
                  pen.pen("outline", r == 0 ? "quiet" : "faint"))});
  }
  for (const std::string& line : pen.wrap(unconnected(rows, pen.style), width)) {
    pen.write(pen.text(line, {top_left.x, y + mm(4)}, Anchor::start, Weight::regular, "quiet"));
    y += face_line;
  }
}

namespace {
// The words on the badge over the side that the fitter wires, and room round them.
std::string badge_words(const FacesPen& pen) { return capitals(word(pen.style, "you-wire-this")); }
Mm100 badge_width(const FacesPen& pen) { return pen.width(badge_words(pen), Weight::semibold, "body") + mm(6); }
constexpr Mm100 before_badge = mm(4), head_indent = mm(5);
}  // namespace

Mm100 head_width(const Picture& p, const FacesPen& pen) {
  return eye_width + beside_eye +
         pen.width(view_title(p, pen.style), Weight::semibold, title_size(p)) + mm(1) +
         (p.you_wire ? before_badge + badge_width(pen) + head_indent : 0);
}

// Where you stand, which face it is and what you look at; over the inlet's wire side, whose it is.
void draw_head(const Picture& p, Point top_left, const std::vector<std::string>& looks,
               FacesPen& pen) {
  draw_eye(*p.view, top_left, pen);
  const Mm100 x = top_left.x + eye_width + beside_eye;
  const std::string title = view_title(p, pen.style);
  if (p.compact) {
    pen.write(pen.text(p.view->name, {x, top_left.y + mm(3.1)}, Anchor::start, Weight::semibold));
    pen.write(pen.text(title, {x, top_left.y + mm(7.6)}, Anchor::start, Weight::semibold));
  } else {
    pen.write(
        pen.text(title, {x, top_left.y + mm(5.4)}, Anchor::start, Weight::semibold, "ink", "body"));
  }
  if (p.you_wire) {
    const std::string says = badge_words(pen);
    const Mm100 w = badge_width(pen);
    const Mm100 left = x + pen.width(title, Weight::semibold, "body") + before_badge;
    pen.add({filled_box({left, top_left.y + (eye_height - badge_height) / 2, w, badge_height},
                        ink(pen.style, "ink"), mm(1))});
    pen.write(pen.text(says, {left + w / 2, top_left.y + mm(5.4)}, Anchor::middle, Weight::semibold,
                       "paper", "body"));
  }
  for (size_t k = 0; k < looks.size(); ++k)
    pen.write(pen.text(
        looks[k], {top_left.x, top_left.y + eye_height + mm(5) + static_cast<Mm100>(k) * face_line},
        Anchor::start, Weight::regular, "quiet"));
}

}  // namespace towloom
