// The tools with which the pictures of the pin faces are drawn.
#pragma once

#include <string>
#include <vector>

#include "sheets/faces_view.hpp"
#include "sheets/sheet_pen.hpp"

namespace towloom {

using FacesPen = SheetPen;

constexpr Mm100 face_line = mm(4.5);  // from base line to base line in labels

struct Picture {  // how one view is drawn
  const FaceView* view = nullptr;
  double unit = 12;      // mm of one unit of the connector: radius of the circle, or pitch
  bool compact = false;  // one short line a contact
  bool narrow = false;   // titles broken over two lines, where the paper asks for it
  bool you_wire = false;
};
struct Extent {
  Mm100 w = 0, h = 0;
};

// Lines of a contact's label: function; number, letters, colour; size and wire.
struct ContactLine {
  std::string text;
  bool strong = false;
};
inline Weight weight_of(const ContactLine& l) {
  return l.strong ? Weight::semibold : Weight::regular;
}
std::vector<ContactLine> contact_lines(const Picture&, const FaceContact&, const Style&);

Extent round_extent(const Picture&, const FacesPen&);
void draw_round(const Picture&, Rect room, FacesPen&);
Extent flat_extent(const Picture&, const FacesPen&);
void draw_flat(const Picture&, Rect room, FacesPen&);

// One contact as its half shows it: bare pin, shrouded sleeve, blade, receiver; dashed if unused.
ContactFigure contact_figure(const FaceView&, const FaceContact&, Point centre, double unit,
                             const FacesPen&);
Label contact_label(const FaceView&, const FaceContact&, const ContactLine&, Point at, Anchor,
                    const FacesPen&);

struct TableSize { Mm100 w = 0, h = 0, rows_h = 0; };   // h: rows and the sentence below them, broken at `width`
TableSize table_size(const std::vector<CoreRow>&, Mm100 width, const FacesPen&);
void draw_core_table(const std::vector<CoreRow>&, Point top_left, Mm100 width, FacesPen&);
Mm100 head_width(const Picture&, const FacesPen&);
void draw_head(const Picture&, Point top_left, const std::vector<std::string>& looks, FacesPen&);

// Coach and car from above, with an eye where you stand and the way it looks.
void draw_eye(const FaceView&, Point top_left, FacesPen&);
constexpr Mm100 eye_width = mm(30), eye_height = mm(8);

}  // namespace towloom
