// The layered count of a drawing: each column of terminals is a layer, each wire passes it at a height.
#include <algorithm>
#include <set>

#include "prove/quality.hpp"

namespace towloom {
namespace {

struct Crossing {
  Mm100 left_y = 0, right_y = 0;   // where the wire enters and leaves the gap
  const std::string* net = nullptr;
};

// Its corners from left to right; empty where it turns back.
Polyline from_left(const TracedLine& line) {
  Polyline path = line.path;
  if (path.front().x > path.back().x) std::reverse(path.begin(), path.end());
  for (size_t i = 1; i < path.size(); ++i)
    if (path[i].x < path[i - 1].x) return {};
  return path;
}

// The height at which it first reaches x; its path covers x.
Mm100 height_at(const Polyline& path, Mm100 x) {
  for (size_t i = 1; i < path.size(); ++i)
    if (path[i].x >= x) return path[i].x == path[i - 1].x ? path[i - 1].y : path[i].y;
  return path.back().y;
}

}  // namespace

int layered_crossings(const Page& page) {
  std::set<Mm100> xs;
  for (const PartFigure* part : page.parts)
    for (const Pin& pin : part->pins) xs.insert(pin.at.x);
  const std::vector<Mm100> columns(xs.begin(), xs.end());
  std::vector<std::vector<Crossing>> gaps(columns.size());
  for (const TracedLine& line : page.lines) {
    if (line.run == nullptr || line.path.size() < 2) continue;
    const Polyline path = from_left(line);
    if (path.empty()) continue;
    for (size_t c = 0; c + 1 < columns.size(); ++c) {
      if (columns[c] < path.front().x || columns[c + 1] > path.back().x) continue;
      const bool last = columns[c + 1] == path.back().x;
      gaps[c].push_back({height_at(path, columns[c]), last ? path.back().y : height_at(path, columns[c + 1]), &line.net});
    }
  }
  int count = 0;
  for (const auto& gap : gaps)
    for (size_t i = 0; i < gap.size(); ++i)
      for (size_t k = i + 1; k < gap.size(); ++k) {
        const Crossing &a = gap[i], &b = gap[k];
        count += *a.net != *b.net && ((a.left_y < b.left_y && a.right_y > b.right_y) || (a.left_y > b.left_y && a.right_y < b.right_y));
      }
  return count;
}

}  // namespace towloom
