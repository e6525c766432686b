// A small picture of where you stand: coach and car from above, front at the left; or of the part in
// your hand.
#include "sheets/faces_pen.hpp"

namespace towloom {
namespace {

constexpr double outlet_x = 12, inlet_x = 20.5, middle = 4;  // mm

// Which way the eye looks, +1 to the rear of the train. The outlet's mating face looks rearwards,
// so it is seen looking forwards; its mate, and the inlet, the other way about.
int way_of(const FaceView& v) {
  const bool faces_rear = v.site == Site::outlet || v.site == Site::cord_at_inlet;
  return faces_rear == (v.view == View::mating) ? -1 : 1;
}

Shape closed(const Polyline& points, Pen pen) {
  Shape out = polyline(points, std::move(pen));
  out.path.push_back({PathStep::Kind::close, {}, {}, {}});
  return out;
}


// An eye that looks along the line to `seen`; `way` is +1 to the right.
void add_eye(std::vector<Mark>& marks, Point top_left, double seen, int way, const FacesPen& pen) {
  const auto point = [&](double x, double y) {
    return Point{top_left.x + mm(x), top_left.y + mm(y)};
  };
  const double eye = seen - way * 5.0;
  const double half = 1.9, lid = 1.9;  // almond; it stands clear of the lines behind it
  Shape almond;
  almond.path = {{PathStep::Kind::move, point(eye - half, middle), {}, {}},
                 {PathStep::Kind::cubic, point(eye - half / 2, middle - lid),
                  point(eye + half / 2, middle - lid), point(eye + half, middle)},
                 {PathStep::Kind::cubic, point(eye + half / 2, middle + lid),
                  point(eye - half / 2, middle + lid), point(eye - half, middle)},
                 {PathStep::Kind::close, {}, {}, {}}};
  almond.pen = pen.pen("outline");
  almond.filled = true;
  almond.fill = ink(pen.style, "paper");
  marks.push_back(almond);
  Disc pupil;
  pupil.centre = point(eye + way * 0.5, middle);
  pupil.radius = mm(0.75);
  pupil.filled = true;
  pupil.fill = ink(pen.style, "ink");
  marks.push_back(pupil);
  marks.push_back(
      line(point(eye + way * 1.9, middle), point(seen - way * 1.3, middle), pen.pen("symbol")));
  Shape head = closed({point(seen - way * 0.9, middle), point(seen - way * 2.0, middle - 0.6),
                       point(seen - way * 2.0, middle + 0.6)},
                      {});
  head.filled = true;
  head.fill = ink(pen.style, "ink");
  marks.push_back(head);
}

// The part in the hand, from its side: lead at the left, the mating end at the right.
void draw_part_eye(const FaceView& v, Point top_left, FacesPen& pen) {
  const auto point = [&](double x, double y) {
    return Point{top_left.x + mm(x), top_left.y + mm(y)};
  };
  const auto rect = [&](double x, double y, double w, double h) {
    const Point p = point(x, y);
    return Rect{p.x, p.y, mm(w), mm(h)};
  };
  const Pen thin = pen.pen("outline", "quiet");
  std::vector<Mark> marks;
  for (double y : {5.2, 5.9, 6.6})  // the wires bend away from the eye
    marks.push_back(polyline({point(10, y), point(7.6, y), point(6.2, 7.8 + (y - 5.9) * 0.3), point(1, 7.8 + (y - 5.9) * 0.3)}, thin));
  marks.push_back(box(rect(10, 0.6, 6.5, 6.8), thin, mm(0.8)));
  marks.push_back(box(rect(16.5, 1.5, 3, 5), thin));
  add_eye(marks, top_left, v.view == View::mating ? 19.5 : 10, v.view == View::mating ? -1 : 1, pen);
  pen.add(std::move(marks));
}

}  // namespace

void draw_eye(const FaceView& v, Point top_left, FacesPen& pen) {
  if (v.site == Site::part) return draw_part_eye(v, top_left, pen);
  const auto point = [&](double x, double y) {
    return Point{top_left.x + mm(x), top_left.y + mm(y)};
  };
  const auto rect = [&](double x, double y, double w, double h) {
    const Point p = point(x, y);
    return Rect{p.x, p.y, mm(w), mm(h)};
  };
  const Pen thin = pen.pen("outline", "quiet"), faint = pen.pen("outline", "faint");
  std::vector<Mark> marks;
  marks.push_back(box(rect(0, 0.5, outlet_x, 7), thin, mm(1.2)));     // coach
  marks.push_back(line(point(2.6, 0.9), point(2.6, 7.1), faint));     // its windscreen
  marks.push_back(box(rect(inlet_x, 1.1, 9.5, 5.8), thin, mm(1.8)));  // car
  marks.push_back(closed({point(inlet_x + 3, 2), point(inlet_x + 4.2, 2.6),
                          point(inlet_x + 4.2, 5.4), point(inlet_x + 3, 6)},
                         faint));
  marks.push_back(line(point(outlet_x, middle), point(inlet_x, middle), faint));  // the cord
  const bool at_outlet = v.site == Site::outlet || v.site == Site::cord_at_outlet;
  const bool cord = v.site == Site::cord_at_outlet || v.site == Site::cord_at_inlet;
  const double seen = at_outlet ? outlet_x + (cord ? 1.6 : 0) : inlet_x - (cord ? 1.6 : 0);
  Disc target;
  target.centre = point(seen, middle);
  target.radius = mm(0.8);
  target.filled = true;
  target.fill = ink(pen.style, "cut");
  marks.push_back(target);
  add_eye(marks, top_left, seen, way_of(v), pen);
  pen.add(std::move(marks));
}

}  // namespace towloom
