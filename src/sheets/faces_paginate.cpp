// Faces as large as the pages hold them, and which section stands on which page.
#include <algorithm>

#include "sheets/faces_page.hpp"

namespace towloom {
namespace {

constexpr double largest = 20, least_unit = 5;   // mm a unit: beyond the one leads run into labels, below the other faces are small
constexpr double smaller = 0.95;

// Where a row of faces is too wide for the paper, their labels are broken.
// Where that is not enough, all are drawn smaller, in the same proportion to one another.
void fit(FaceSection& s, const Rect& room, const FacesPen& pen) {
  const auto used = [&] {
    Mm100 sum = 0;
    for (const Picture& p : s.pictures) sum += std::max(extent_of(p, pen).w, head_width(p, pen));
    return sum;
  };
  if (used() <= room.w) return;
  for (Picture& p : s.pictures) p.narrow = !p.compact;
  while (used() > room.w && s.pictures.front().unit > least_unit)
    for (Picture& p : s.pictures) p.unit *= smaller;
}

}  // namespace

bool fits(FaceSection s, Rect space, const FacesPen& pen) {
  fit(s, space, pen);
  Mm100 used = 0;
  for (const Picture& p : s.pictures) used += std::max(extent_of(p, pen).w, head_width(p, pen)) + mm(4);
  return used <= space.w && section_height(s, space, pen) <= space.h;
}

namespace {

std::vector<std::vector<FaceSection>> in_turn(std::vector<FaceSection> sections, Rect space, const FacesPen& pen) {
  std::vector<std::vector<FaceSection>> pages(1);
  Mm100 used = 0;
  for (FaceSection& s : sections) {
    fit(s, space, pen);
    s.height = section_height(s, space, pen);
    if (!pages.back().empty() && used + s.height > space.h) {
      pages.emplace_back();
      used = 0;
    }
    used += s.height + mm(6);
    pages.back().push_back(std::move(s));
  }
  return pages;
}

// Whether every row of faces finds room as large as it was made.
bool keeps_size(std::vector<FaceSection> sections, Rect space, const FacesPen& pen) {
  for (FaceSection& s : sections) {
    if (s.pictures.empty()) continue;
    const Picture before = s.pictures.front();
    if (before.unit > largest) return false;
    fit(s, space, pen);
    const Picture& after = s.pictures.front();
    if (after.unit < before.unit || after.narrow != before.narrow) return false;
  }
  return true;
}

// All faces smaller, in the same proportion to one another, until each section is low enough for a page.
std::vector<FaceSection> low_enough(std::vector<FaceSection> sections, Rect space, const FacesPen& pen) {
  const auto too_high = [&](FaceSection s) {
    fit(s, space, pen);
    return !s.pictures.empty() && s.pictures.front().unit > least_unit && section_height(s, space, pen) > space.h;
  };
  while (std::any_of(sections.begin(), sections.end(), too_high))
    for (FaceSection& s : sections)
      for (Picture& picture : s.pictures) picture.unit *= smaller;
  return sections;
}

}  // namespace

// All faces as large as they can be together on as few pages as they need, in the same proportion to one another.
std::vector<std::vector<FaceSection>> paginate(const std::vector<FaceSection>& wanted, Rect space, const FacesPen& pen) {
  const std::vector<FaceSection> sections = low_enough(wanted, space, pen);
  const auto plain = in_turn(sections, space, pen);
  const Rect loose{space.x, space.y, space.w - mm(16), space.h - mm(10)};   // larger faces leave air between them
  for (int twentieth = 40; twentieth > 20; --twentieth) {
    std::vector<FaceSection> larger = sections;
    for (FaceSection& s : larger)
      for (Picture& picture : s.pictures) picture.unit *= twentieth / 20.0;
    if (keeps_size(larger, loose, pen) && in_turn(larger, loose, pen).size() <= plain.size()) return in_turn(std::move(larger), space, pen);
  }
  return plain;
}

}  // namespace towloom
