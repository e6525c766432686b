#include "render/links.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace towloom {
namespace {

struct Station {     // one label or one piece of a wire
  int page = 0;
  Rect area;
};
using Stations = std::map<std::string, std::vector<Station>>;   // by what it is about, page by page

const std::string& subject(const Label& label) { return label.wire.empty() ? label.about : label.wire; }

Rect extent(const Polyline& path) {
  Rect r{path.front().x, path.front().y, 0, 0};
  for (const Point p : path) {
    const Mm100 right = std::max(r.right(), p.x), bottom = std::max(r.bottom(), p.y);
    r.x = std::min(r.x, p.x), r.y = std::min(r.y, p.y);
    r.w = right - r.x, r.h = bottom - r.y;
  }
  return r;
}

template <class T, class Use>
void each(const std::vector<Drawing>& pages, Use use) {
  for (std::size_t p = 0; p < pages.size(); ++p)
    for (const Item& item : pages[p].items)
      if (const T* found = std::get_if<T>(&item)) use(static_cast<int>(p), *found);
}

// The first station on the next page that has one, the set taken as a ring; nullptr if it is on this page only.
const Station* next(const std::vector<Station>& all, int page) {
  const Station* first = nullptr;
  for (const Station& s : all) {
    if (s.page > page) return &s;
    if (first == nullptr && s.page < page) first = &s;
  }
  return first;
}

// A little of what stands above and before stays in sight.
Point corner(const Rect& area) { return {std::max(0, area.x - mm(10)), std::max(0, area.y - mm(10))}; }

// The wire that ends at a reference.
std::string wire_at(const Drawing& page, const PartFigure& reference) {
  for (const Item& item : page.items)
    if (const auto* run = std::get_if<WireRun>(&item))
      for (const Pin& pin : reference.pins)
        if (run->path.front() == pin.at || run->path.back() == pin.at) return run->wire;
  return "";
}

}  // namespace

std::vector<PageLink> find_links(const std::vector<Drawing>& pages) {
  Stations labels, pieces;
  each<Label>(pages, [&](int page, const Label& l) {
    if (!subject(l).empty()) labels[subject(l)].push_back({page, l.room});
  });
  each<WireRun>(pages, [&](int page, const WireRun& w) {
    if (w.pieces > 1) pieces[w.wire].push_back({page, extent(w.path)});
  });
  std::vector<PageLink> out;
  const auto lead = [&](const Stations& stations, const std::string& about, int page, const Rect& area) {
    const auto found = stations.find(about);
    const Station* to = found == stations.end() ? nullptr : next(found->second, page);
    if (to != nullptr) out.push_back({page, area, to->page, corner(to->area)});
  };
  each<Label>(pages, [&](int page, const Label& l) {
    if (l.page > 0 && l.page <= static_cast<int>(pages.size()))
      out.push_back({page, l.room, l.page - 1, {0, 0}});
    else if (!subject(l).empty())
      lead(labels, subject(l), page, l.room);
  });
  each<PartFigure>(pages, [&](int page, const PartFigure& p) {
    if (p.kind == "reference") lead(pieces, wire_at(pages[static_cast<std::size_t>(page)], p), page, p.body);
  });
  return out;
}

std::vector<Bookmark> find_bookmarks(const Drawing& page) {
  std::vector<Bookmark> out;
  std::map<std::pair<std::string, std::size_t>, std::map<std::string, Bookmark>> wires;   // W2 before W10
  std::set<std::string> fitted, seen;
  for (const Item& item : page.items)
    if (const auto* run = std::get_if<WireRun>(&item))
      if (run->status == "new") fitted.insert(run->wire);
  for (const Item& item : page.items) {
    if (const auto* label = std::get_if<Label>(&item))
      if (fitted.count(label->about) == 1 && seen.insert(label->about).second)
        wires[{label->about.substr(0, 1), label->about.size()}][label->about] = {label->text, corner(label->room)};
    if (const auto* contact = std::get_if<ContactFigure>(&item))
      if (seen.insert(contact->connector).second) out.push_back({contact->connector, corner({contact->centre.x - mm(20), contact->centre.y - mm(20), 0, 0})});
  }
  for (const auto& [kind, all] : wires)
    for (const auto& [id, bookmark] : all) out.push_back(bookmark);
  return out;
}

}  // namespace towloom
