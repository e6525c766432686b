// One line at the foot of a page of pin faces: how the shapes of its contacts are to be read.
#include <algorithm>
#include <set>

#include "sheets/faces_page.hpp"
#include "sheets/faces_tags.hpp"

namespace towloom {
namespace {

constexpr double unit = 10;              // mm: the size of a plain round face
constexpr Mm100 before = mm(2.6), after = mm(3.4), gap = mm(6);

struct Shown {
  const char* word;
  const char* shape;
  const char* gender;
  View view = View::mating;
  bool used = true, longer = false;
};
const Shown entries[] = {
    {"shape-pin", "pin", "pin"},
    {"shape-longer", "pin", "pin", View::mating, true, true},
    {"shape-sleeve", "pin", "sleeve"},
    {"shape-split", "pin", "receiver"},
    {"shape-blade", "blade", "blade"},
    {"shape-slot", "blade", "receiver"},
    {"shape-wire", "pin", "", View::wire},
    {"shape-unused", "pin", "", View::mating, false},
};

bool fits(const Shown& e, const FaceView& v, const FaceContact& c) {
  if (!e.used || !c.used) return e.used == c.used;
  const bool blade = std::string(e.shape) == "blade";
  if ((c.contact->shape == "blade") != blade) return false;
  if (e.view == View::wire || v.view == View::wire) return e.view == v.view && !blade;
  return c.gender == e.gender && c.contact->longer == e.longer;
}

}  // namespace

void draw_legend(const std::vector<FaceSection>& sections, Point left_middle, FacesPen& pen) {
  std::set<size_t> met;
  bool lid = false;
  for (const FaceSection& s : sections)
    for (const Picture& p : s.pictures)
      lid = lid || (is_round(p) && has_lid(*p.view));
  for (const FaceSection& s : sections)
    for (const Picture& p : s.pictures)
      for (const FaceContact& c : p.view->contacts)
        for (size_t i = 0; i < std::size(entries); ++i)
          if (fits(entries[i], *p.view, c)) met.insert(i);
  Point at = left_middle;
  for (size_t i : met) {
    const Shown& e = entries[i];
    ConnectorContact contact;
    contact.shape = e.shape;
    contact.longer = e.longer;
    FaceContact shown;
    shown.contact = &contact;
    shown.gender = e.gender;
    shown.used = e.used;
    FaceView view;
    view.view = e.view;
    at.x += before;
    pen.add(contact_figure(view, shown, at, unit, pen).marks);
    at.x += after;
    const std::string text = word(pen.style, e.word);
    pen.write(pen.text(text, {at.x, at.y + mm(1.25)}, Anchor::start, Weight::regular, "quiet"));
    at.x += pen.width(text) + gap;
  }
  if (!lid) return;
  pen.add({box({at.x, at.y - mm(0.7), mm(6), mm(1.4)}, pen.pen("outline", "quiet"))});
  pen.write(pen.text(word(pen.style, "lid-hinge"), {at.x + mm(7.2), at.y + mm(1.25)}, Anchor::start, Weight::regular, "quiet"));
}

}  // namespace towloom
