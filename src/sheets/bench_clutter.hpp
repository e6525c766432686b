// What stands on a sheet already, found again by where it stands.
#pragma once

#include <algorithm>
#include <vector>

#include "base/geometry.hpp"

namespace towloom {

class Clutter {
 public:
  struct Thing {
    Rect box;
    int owner;                   // of a line: its wire
  };
  void add(const Rect& box, int owner = -1) {
    const std::size_t last = band(box.bottom());
    if (bands_.size() <= last) bands_.resize(last + 1);
    for (std::size_t b = band(box.y); b <= last; ++b) bands_[b].push_back({box, owner});
  }
  // Whether the test holds for a thing that may reach into `near`; what it reaches is found, some else too.
  template <class Test>
  bool any(const Rect& near, Test test) const {
    for (std::size_t b = band(near.y); b < bands_.size() && b <= band(near.bottom()); ++b)
      if (std::any_of(bands_[b].begin(), bands_[b].end(), test)) return true;
    return false;
  }
  bool meets(const Rect& box) const {
    return any(box, [&](const Thing& t) { return t.box.overlaps(box); });
  }

 private:
  static std::size_t band(Mm100 y) { return static_cast<std::size_t>(std::max(y, 0) / mm(6)); }
  std::vector<std::vector<Thing>> bands_;   // from the top, all that reaches into each
};

}  // namespace towloom
