// C, complete it: the left side is drawn, of the right side only what the car and the outlet have.
#include <algorithm>
#include <set>

#include "layout/sides.hpp"
#include "prove/page.hpp"
#include "sheets/highlight.hpp"
#include "sheets/worksheet.hpp"

namespace towloom::worksheet {
namespace {

constexpr Mm100 cut_mark = mm(6);        // no larger; it lies at the end of its wire

struct Blank {                           // what is left out of a page
  std::set<std::string> parts, wires;
  std::set<std::string> given;           // its mirror images
  std::size_t count() const { return parts.size() + wires.size(); }
};

bool on(const Drawing& page, const std::string& part) {
  return std::any_of(page.items.begin(), page.items.end(), [&](const Item& item) {
    const auto* figure = std::get_if<PartFigure>(&item);
    return figure != nullptr && figure->part == part;
  });
}

// What stands on the right of a page and has a mirror image on a page of the sheet; lamps and contacts are given. Wires
// that end at any of it.
Blank right_side(const Job& job, const Drawing& page) {
  const Circuit& c = job.circuit();
  const Flow flow = flow_of(c);
  const std::vector<Side> sides = find_sides(c, flow);
  const std::vector<int> twins = find_twins(c, flow, sides);
  Blank out;
  std::set<int> ends;
  for (std::size_t p = 0; p < c.parts.size(); ++p) {
    const Part& part = c.parts[p];
    if (sides[p] != Side::right || twins[p] < 0 || !on(page, part.id) || part.kind == "contact" || part.kind == "reference") continue;
    ends.insert(static_cast<int>(p));
    const bool laid = part.status == Status::fitted || part.kind == "stud" || part.kind == "splice" || part.kind == "joint";
    if (!laid || part.kind == "lamp") continue;
    out.parts.insert(part.id);
    out.given.insert(c.parts[static_cast<std::size_t>(twins[p])].id);
  }
  for (const Wire& w : c.wires)
    if (ends.count(w.from.part.v) == 1 || ends.count(w.to.part.v) == 1) out.wires.insert(w.id);
  return out;
}

// The page that shows most of the mirror images.
const Drawing* model_of(const Job& job, const Blank& blank) {
  const auto shows = [&](const Drawing* page) { return std::count_if(blank.given.begin(), blank.given.end(), [&](const std::string& part) { return on(*page, part); }); };
  return *std::max_element(job.bench.begin(), job.bench.end(), [&](const Drawing* a, const Drawing* b) { return shows(a) < shows(b); });
}

void take_side(Drawing& page, const Blank& side) {
  std::vector<Polyline> gone, kept;
  for (const Item& item : page.items)
    if (const auto* run = std::get_if<WireRun>(&item)) (side.wires.count(run->wire) == 1 ? gone : kept).push_back(run->path);
  const auto is_of = [&](const Item& item) {
    const auto* label = std::get_if<Label>(&item);
    return label != nullptr && !label->decoration && (side.wires.count(label->about) == 1 || side.parts.count(label->about) == 1);
  };
  const auto is_cut = [&](const Decor& decor) {
    const Rect r = extent(decor.marks);
    return r.w <= cut_mark && r.h <= cut_mark && std::any_of(gone.begin(), gone.end(), [&](const Polyline& path) {
      return r.x <= path.back().x && path.back().x - r.right() < cut_mark && r.y <= path.back().y && path.back().y <= r.bottom();
    });
  };
  std::vector<Item> out;
  for (std::size_t i = 0; i < page.items.size(); ++i) {
    const Item& item = page.items[i];
    const auto* decor = std::get_if<Decor>(&item);
    const auto* run = std::get_if<WireRun>(&item);
    const auto* part = std::get_if<PartFigure>(&item);
    const auto* bar = std::get_if<LinkBar>(&item);
    const auto* dot = std::get_if<Junction>(&item);
    const bool leader = decor != nullptr && i + 1 < page.items.size() && is_of(page.items[i + 1]);
    const bool lost_dot = dot != nullptr && std::count_if(kept.begin(), kept.end(), [&](const Polyline& path) { return on_path(dot->at, path); }) < 2;
    if (leader || is_of(item) || lost_dot || (decor != nullptr && is_cut(*decor)) || (run != nullptr && side.wires.count(run->wire) == 1) ||
        (part != nullptr && side.parts.count(part->part) == 1) || (bar != nullptr && side.parts.count(bar->part) == 1)) continue;
    out.push_back(item);
  }
  page.items = std::move(out);
}

}  // namespace

Worksheet complete_it(const Job& job) {
  Worksheet out{'C'};
  const Drawing* most = nullptr;
  Blank blank;
  for (const Drawing* page : job.bench) {
    Blank here = right_side(job, *page);
    if (here.parts.empty() || here.parts.size() <= blank.parts.size()) continue;
    most = page;
    blank = std::move(here);
  }
  if (most == nullptr) return out.left_out = job.say("worksheet-none-c"), out;
  std::vector<const Drawing*> pages{most};
  if (const Drawing* model = model_of(job, blank); model != most) pages.insert(pages.begin(), model);
  out.sheet = [&job, pages, blank](Numbering n) {
    Pages all;
    for (const Drawing* page : pages) all.push_back(on_bench(job, *page, {'C', false}, strip_of(job, {'C', false}, n, static_cast<int>(all.size()) + 1, static_cast<int>(pages.size())), tasks(job, 'C')));
    take_side(all.back(), blank);
    for (Drawing& page : all) make_mute(page);
    return all;
  };
  out.key = [&job, most](Numbering n) {
    return Pages{on_bench(job, *most, {'C', true}, strip_of(job, {'C', true}, n, 1, 1), {job.say("worksheet-step-c"), job.say("worksheet-step-brief-c")})};
  };
  return out;
}

}  // namespace towloom::worksheet
