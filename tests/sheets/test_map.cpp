// The plan map: all that is fitted stands on it once, on its side of the car, and nothing covers anything.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <map>
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

// Straight strokes that mean something: not the glass, which labels cover.
std::vector<std::pair<Point, Point>> strokes_of(const Drawing& page, Rgb faint) {
  std::vector<std::pair<Point, Point>> out;
  for (const Item& item : page.items)
    if (const auto* decor = std::get_if<Decor>(&item))
      for (const Mark& mark : decor->marks)
        if (const auto* shape = std::get_if<Shape>(&mark); shape && shape->pen.width > 0 && !shape->filled && shape->pen.colour != faint)
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

// Markers by their number: how far down the page.
std::map<std::string, Mm100> numbered(const Drawing& page) {
  std::map<std::string, Mm100> out;
  for (const Label* l : labels_of(page))
    if (l->anchor == Anchor::middle) out[l->text] = l->at.y;
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
      const auto pages = PlanMap(*facts, *job.catalogue, *looks.style, looks.measure).pages(3, 4);
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
        for (const auto& stroke : strokes_of(pages[p], ink(*looks.style, "faint")))
          for (const Label* l : labels)
            if (passes(stroke, l->room)) FAIL_CHECK("a line through " << l->text);
      }
      for (const Part& part : c.parts) {
        const bool ground = part.kind == "stud" && std::any_of(facts->spec.grounds.begin(), facts->spec.grounds.end(), [&](const GroundRow& g) { return g.name.value == part.id; });
        if (!is_work(part) && !ground) continue;
        INFO(part.id);
        CHECK(count_about(pages, part.id, true, plans) == 1);
        if (is_work(part)) CHECK(count_about(pages, part.id, false, plans) == 1);
      }
      for (const RunRow& run : facts->spec.runs) {   // its name and its length beside each other, once
        int beside = 0;
        const auto labels = labels_of(pages[0]);
        for (const Label* name : labels)
          for (const Label* length : labels)
            beside += name->text == run.name.value && length->text == format_fixed(run.length_m.value, 1) + " m" && name->at.y == length->at.y && length->at.x > name->at.x && length->at.x - name->room.right() < mm(3);
        CHECK(beside == 1);
      }
      const auto places = numbered(pages[0]);
      for (std::size_t spot = 0; spot < plan.spots.size(); ++spot) {   // right above the centre line, on which the inlet stands
        const std::string& name = plan.spots[spot].name;
        const std::string side = name.find("left") != std::string::npos ? "left" : name.find("right") != std::string::npos ? "right" : "";
        if (side.empty()) continue;
        INFO(name);
        const Mm100 centre = places.at("1"), y = places.at(std::to_string(spot + 1));
        CHECK((side == "left" ? y > centre : y < centre));
      }
    }
    for (const RunRow& run : facts->spec.runs) {   // with the wires that the circuit lays in it
      std::set<std::string> laid, shown;
      for (const Wire& w : c.wires)
        if (is_new(w) && std::count(w.runs.begin(), w.runs.end(), run.name.value) != 0) laid.insert(w.id);
      int ways = 0;
      for (const map::Way& way : plan.ways)
        if (way.run != nullptr && way.run->name.value == run.name.value) {
          ++ways;
          for (const WireId id : way.wires) shown.insert(c.wires[static_cast<std::size_t>(id.v)].id);
          CHECK(plan.spots[static_cast<std::size_t>(way.from)].place == run.from.value);
          CHECK(plan.spots[static_cast<std::size_t>(way.to)].place == run.to.value);
        }
      CHECK(ways == 1);
      CHECK(shown == laid);
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

std::vector<std::string> texts_of(const map::TextBlock& block) {
  std::vector<std::string> out;
  for (const auto& line : block.lines) {
    out.emplace_back();
    for (const map::Word& w : line) out.back() += (out.back().empty() ? "" : " ") + w.text;
  }
  return out;
}

using Lines = std::vector<std::string>;

std::string plain_blanks(std::string text) {   // those that hold a wire and its letters together too
  for (std::size_t at; (at = text.find("\u00a0")) != std::string::npos;) text.replace(at, 2, " ");
  return text;
}

struct PlainMap {
  fixture::Looks looks;
  fixture::Checked job = fixture::checked(fixture::plain_job());
  Drawing page;
  SheetPen pen{page, looks.look().style, looks.measure};
  map::Plan plan = map::make_plan(*job.facts, *looks.style);

  int spot(const std::string& place) const {
    for (std::size_t s = 0; s < plan.spots.size(); ++s)
      if (plan.spots[s].place == place) return static_cast<int>(s);
    return -1;
  }
  Lines at(const std::string& place) const {
    REQUIRE(spot(place) >= 0);
    return texts_of(map::spot_block(plan, spot(place), *job.facts, pen));
  }
};

// By hand from survey S01: the tail wire W2 ends at the left pocket and goes on over the cross run as W4 (its splice is
// S1); W5 ends at the left pocket, W6 goes through to the right; the white wire W1 and the plate lamp's W7 lie in no run.
TEST_CASE("the plain job's map has its three runs, two leads and ten places") {
  const PlainMap m;
  REQUIRE(m.plan.ways.size() == 5);
  CHECK(texts_of(map::way_block(m.plan.ways[0], *m.job.facts, m.pen)) == Lines{"front 1.3 m", "W2 W5 W6", "split loom"});
  CHECK(texts_of(map::way_block(m.plan.ways[1], *m.job.facts, m.pen)) == Lines{"sill 3.9 m", "W2 W5 W6", "sill trim"});
  CHECK(texts_of(map::way_block(m.plan.ways[2], *m.job.facts, m.pen)).at(0) == "cross 1.4 m");
  CHECK(texts_of(map::way_block(m.plan.ways[2], *m.job.facts, m.pen)).at(1) == "W4 W6");
  CHECK(texts_of(map::way_block(m.plan.ways[3], *m.job.facts, m.pen)) == Lines{"W1"});
  CHECK(texts_of(map::way_block(m.plan.ways[4], *m.job.facts, m.pen)) == Lines{"W7"});
  Lines order;
  for (const map::Spot& spot : m.plan.spots) order.push_back(spot.name);
  CHECK(order == Lines{"inlet, baseplate bracket", "front frame stud", "battery, engine bay left", "left grommet", "high stop", "factory stud left pocket",
                       "factory stud right pocket", "left rear", "plate", "right rear"});
  CHECK(m.at("left rear") == Lines{"8  left rear", "parted GY/VT, PK/BK", "diodes D1, D3", "splices S1, S2", "lamps stop/turn, tail"});
  CHECK(m.at("right rear") == Lines{"10  right rear", "parted GY/OG, PK/BK", "diodes D2, D4", "lamps stop/turn, tail, reverse"});
  CHECK(m.at("front frame stud") == Lines{"2  front frame stud", "ground G-F"});
  CHECK(m.at("left grommet") == Lines{"4  left grommet"});
}

TEST_CASE("the plain job's table says what is done at each place and what lands there") {
  const PlainMap m;
  const SheetTable table = map::where_table(m.plan, *m.job.facts, *m.job.job.catalogue, *m.looks.style);
  std::vector<Lines> rows;
  for (const SheetRow& row : table.rows) {
    rows.emplace_back();
    for (const SheetCell& cell : row.cells) rows.back().push_back(plain_blanks(cell.text));
  }
  const auto has = [&](const Lines& row) { return std::count(rows.begin(), rows.end(), row) == 1; };
  CHECK(has({"1  inlet, baseplate bracket, leave a loop of 0.3 m"}));   // 300 mm behind the bracket (common practice)
  CHECK(has({"J2", "fit the inlet", "1: W1 WH; 2: W2 BN; 3: W5 YE; 4: W6 GN"}));
  CHECK(has({"G-F", "ring terminal, on bare steel (assumed)", "W1 WH"}));
  CHECK(has({"–", "passes by", "W2 BN, W5 YE, W6 GN"}));
  CHECK(has({"8  left rear, leave a loop of 0.25 m"}));                 // 200 to 250 mm (common practice)
  CHECK(has({"GY/VT", "cut the leg of left stop/turn", "car side D1 A2; lamp side D1 K"}));
  CHECK(has({"PK/BK", "cut the leg of left tail", "car side D3 A2; lamp side D3 K"}));
  CHECK(has({"D1", "silicon block, bolted to metal", "A1: W5 YE"}));
  CHECK(has({"S1", "crimp and seal", "W2 BN, W3 BN, W4 BN"}));
  CHECK(has({"9  plate"}));
  CHECK(has({"CAP-E5", "cap and seal the old branch", ""}));
  CHECK(has({"D2", "silicon block, bolted to metal", "A1: W6 GN"}));
  CHECK(std::none_of(rows.begin(), rows.end(), [](const Lines& row) { return row[0].find("high stop") != std::string::npos; }));   // nothing is done there
}

TEST_CASE("a place stands where its words say; the stop switch is at the driver's feet") {
  const PlainMap m;
  Spec spec = m.job.facts->spec;
  const auto at = [&](const std::string& place) { return map::standing_of(place, spec, *m.looks.style); };
  CHECK(at("left grommet").across > 0);
  CHECK(at("right grommet").across < 0);
  CHECK(at("inlet").across == 0);
  CHECK(at("inlet").along < at("front rail stud").along);
  CHECK(at("front rail stud").along < at("engine bay left").along);
  CHECK(at("engine bay left").along < at("left grommet").along);
  CHECK(at("left grommet").along < at("under seat").along);
  CHECK(at("under seat").along < at("trunk right").along);
  CHECK(at("trunk right").along < at("frame stud rear left").along);
  CHECK_FALSE(at("cubby hole").known());
  CHECK_FALSE(at("carpet").known());   // no car in it, and no word within a word
  spec.car.drive.value = "left-hand";
  CHECK(at("stop switch").across > 0);
  spec.car.drive.value = "right-hand";
  CHECK(at("stop switch").across < 0);
}

TEST_CASE("what a run passes through and keeps off stands beside it") {
  const fixture::Looks looks;
  const fixture::Checked job = fixture::checked(fixture::job_file("off-roader"));
  Lines said;
  for (const Drawing& page : PlanMap(*job.facts, *job.job.catalogue, looks.look().style, looks.measure).pages(0, 0))
    for (const Label* l : labels_of(page)) said.push_back(l->text);
  CHECK(std::count(said.begin(), said.end(), "keep off: exhaust") == 1);
  CHECK(std::count(said.begin(), said.end(), "through the") == 1);
}

TEST_CASE("a car too crowded for one page is drawn again until every block has room once") {
  PlainMap m;
  for (int k = 0; k < 30; ++k) {   // as many studs more at the tail as no page has room for
    m.plan.spots.push_back(m.plan.spots[static_cast<std::size_t>(m.spot("left rear"))]);
    m.plan.spots.back().place += std::to_string(k);
  }
  std::vector<map::Figure> figures{map::lay_figure(m.plan, *m.job.facts, {mm(30), mm(20), mm(250), mm(150)}, m.pen)};
  while (auto more = map::further_figure(figures.back(), m.plan)) figures.push_back(*more);
  CHECK(figures.size() > 1);
  for (std::size_t a = 0; a < figures[0].markers.size(); ++a)
    for (std::size_t b = a + 1; b < figures[0].markers.size(); ++b) CHECK_FALSE(figures[0].markers[a].overlaps(figures[0].markers[b]));
  std::multiset<int> placed;
  for (const map::Figure& f : figures) {
    std::vector<Rect> rooms;
    for (const map::Callout& c : f.spots)
      if (c.at) placed.insert(c.subject), rooms.push_back(*c.at);
    for (std::size_t a = 0; a < rooms.size(); ++a)
      for (std::size_t b = a + 1; b < rooms.size(); ++b) CHECK_FALSE(rooms[a].overlaps(rooms[b]));
  }
  CHECK(placed.size() == m.plan.spots.size());
  CHECK(std::set<int>(placed.begin(), placed.end()).size() == placed.size());
}

}  // namespace
}  // namespace towloom
