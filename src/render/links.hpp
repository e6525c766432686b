// Where a click on one sheet leads on another, found from what the labels say they are about.
#pragma once

#include <string>
#include <vector>

#include "drawing/drawing.hpp"

namespace towloom {

struct PageLink {
  int page = 0;      // index in the set, on which it is clicked
  Rect area;
  int to_page = 0;   // index in the set
  Point to;          // brought to the top left of the window
};
// Labels about one thing (a wire, a contact, a part) lead round the pages that name it: from each page to
// the next one, from the last to the first. A reference leads to the other piece of its wire. A row of
// the index leads to its page.
std::vector<PageLink> find_links(const std::vector<Drawing>&);

struct Bookmark {
  std::string text;
  Point at;
};
// What stands on a page, for the outline below the page's own entry: fitted wires by their label, connectors
// of the pin faces by their name. Each once.
std::vector<Bookmark> find_bookmarks(const Drawing&);

}  // namespace towloom
