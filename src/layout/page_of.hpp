// Which page each part of a circuit stands on.
#pragma once

#include <string>
#include <vector>

#include "layout/split.hpp"

namespace towloom {

struct Pages {
  struct Head { std::string group; int part = 1, parts = 1; };
  std::vector<Head> heads;
  std::vector<int> of;           // by part; of no meaning for shared ones
  std::vector<bool> shared;      // by part: it stands on every page that has a wire to it
};
Pages assign_pages(const Circuit&, Apart);
// `joined`, by page: it stands with the page before it.
Pages join_pages(Pages, const std::vector<bool>& joined);

}  // namespace towloom
