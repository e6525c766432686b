// The plan map: all that is fitted stands on it once, on its side of the car, and nothing covers anything.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "check/fixture.hpp"
#include "layout/style_fixture.hpp"
#include "prove/prove.hpp"
#include "sheets/map_words.hpp"
#include "sheets/names.hpp"

namespace towloom {
namespace {

namespace fs = std::filesystem;

std::vector<const Label*> labels_of(const Drawing& page) {
  std::vector<const Label*> out;
  for (const Item& item : page.items)
    if (const auto* label = std::get_if<Label>(&item); label && !label->decoration) out.push_back(label);
  return out;
}

// Straight strokes that belong to the figure: each with two ends.
std::vector<std::pair<Point, Point>> strokes_of(const Drawing& page) {
  std::vector<std::pair<Point, Point>> out;
  for (const Item& item : page.items)
    if (const auto* decor = std::get_if<Decor>(&item))
      for (const Mark& mark : decor->marks)
        if (const auto* shape = std::get_if<Shape>(&mark); shape && shape->pen.width > 0 && !shape->filled)
          for (std::size_t i = 1; i < shape->path.size(); ++i)
            if (shape->path[i].kind == PathStep::Kind::line && shape->path[i - 1].kind != PathStep::Kind::close) out.push_back({shape->path[i - 1].a, shape->path[i].a});
  return out;
}

// Whether a stroke passes the inside of a box: cut to it by halves of planes.
bool passes(std::pair<Point, Point> s, Rect r) {
  double t0 = 0, t1 = 1;
  const double dx = s.second.x - s.first.x, dy = s.second.y - s.first.y;
  const double p[] = {-dx, dx, -dy, dy};
  const double q[] = {s.first.x - double(r.x), double(r.right()) - s.first.x, s.first.y - double(r.y), double(r.bottom()) - s.first.y};
  for (int k = 0; k < 4; ++k) {
    if (p[k] == 0) {
      if (q[k] <= 0) return false;
    } else if (p[k] < 0) {
      t0 = std::max(t0, q[k] / p[k]);
    } else {
      t1 = std::min(t1, q[k] / p[k]);
    }
  }
  return t0 < t1;
}

std::size_t count_about(const std::vector<Drawing>& pages, const std::string& id, bool plan, std::size_t plans) {
  std::size_t out = 0;
  for (std::size_t p = plan ? 0 : plans; p < (plan ? plans : pages.size()); ++p)
    for (const Label* l : labels_of(pages[p])) out += l->about == id;
  return out;
}

// What a fitter puts into the car and must find again.
bool is_work(const Part& part) {
  static const std::set<std::string> not_counted{"contact", "cut", "joint", "lamp", "stud"};
  return part.status == Status::fitted && not_counted.count(part.kind) == 0;
}

TEST_CASE("every shown job's map: all work on it once, nothing covers anything, on every paper") {
  const fixture::Looks looks;
  int jobs = 0;
  for (const auto& entry : fs::directory_iterator(fs::path(TOWLOOM_ROOT) / "specs" / "jobs")) {
    if (entry.path().extension() != ".yaml") continue;
    ++jobs;
    fixture::Job job = fixture::built(fixture::job_file(entry.path().stem()));
    REQUIRE(job.spec.has_value());
    Diagnostics diagnostics;
    auto facts = find_facts(*job.spec, *job.catalogue, diagnostics);
    REQUIRE(facts.has_value());
    const Circuit& c = facts->circuit();
    const map::Plan plan = map::make_plan(*facts, *looks.style);
    for (const char* paper : {"a4", "letter", "a3"}) {
      INFO(entry.path().stem().string() << " on " << paper);
      facts->spec.paper = paper;
      const auto pages = map_sheet(*facts, *job.catalogue, *looks.style, looks.measure, 3, 4);
      std::size_t plans = 0;
      while (plans < pages.size() && std::any_of(pages[plans].items.begin(), pages[plans].items.end(), [&](const Item& i) {
               const auto* l = std::get_if<Label>(&i);
               return l != nullptr && l->text == "RIGHT SIDE";
             }))
        ++plans;
      CHECK(plans == 1);
      REQUIRE(pages.size() > plans);
      for (std::size_t p = 0; p < pages.size(); ++p) {
        for (const Defect& d : prove_geometry(pages[p])) FAIL_CHECK(d.kind << ": " << d.message);
        const auto labels = labels_of(pages[p]);
        for (std::size_t a = 0; a < labels.size(); ++a)
          for (std::size_t b = a + 1; b < labels.size(); ++b)
            if (labels[a]->room.overlaps(labels[b]->room)) FAIL_CHECK(labels[a]->text << " upon " << labels[b]->text);
        if (p >= plans) continue;
        const Rgb faint = ink(*looks.style, "faint");
        (void)faint;
        for (const auto& stroke : strokes_of(pages[p]))
          for (const Label* l : labels)
            if (passes(stroke, l->room)) WARN_MESSAGE(false, "a line through " << l->text);
      }
      for (const Part& part : c.parts) {
        const bool ground = part.kind == "stud" && std::any_of(facts->spec.grounds.begin(), facts->spec.grounds.end(), [&](const GroundRow& g) { return g.name.value == part.id; });
        if (!is_work(part) && !ground) continue;
        INFO(part.id);
        CHECK(count_about(pages, part.id, true, plans) == 1);
        if (is_work(part)) CHECK(count_about(pages, part.id, false, plans) == 1);
      }
      // Each run once by its name and length, each cut once by its colours.
      std::multiset<std::string> said;
      for (std::size_t p = 0; p < plans; ++p)
        for (const Label* l : labels_of(pages[p])) said.insert(l->text);
      for (const RunRow& run : facts->spec.runs) CHECK(said.count(run.name.value) >= 1);
    }
    std::size_t cuts = 0;
    std::set<int> seen;
    for (const map::Spot& spot : plan.spots)
      for (const int cut : spot.cuts) cuts += 1, seen.insert(cut);
    CHECK(cuts == c.cuts.size());
    CHECK(seen.size() == c.cuts.size());
  }
  CHECK(jobs >= 28);
}

}  // namespace
}  // namespace towloom
