// What is shown as live on the plain job, against the way of the current read off the drawing by hand.
#include <algorithm>
#include <set>

#include "check/fixture.hpp"
#include "drawing/text.hpp"
#include "outside.hpp"
#include "sheets/highlight.hpp"
#include "sheets/sheets.hpp"

using namespace towloom;
using namespace towloom::fixture;

namespace {

std::set<std::string> live_wires(const Facts& facts, const LivePath& path) {
  std::set<std::string> out;
  for (std::size_t w = 0; w < path.wires.size(); ++w)
    if (path.wires[w] != 0 && facts.circuit().wires[w].status == Status::fitted) out.insert(facts.circuit().wires[w].id);
  return out;
}
bool part_live(const Facts& facts, const LivePath& path, const std::string& id) {
  const PartId at = facts.circuit().find(id);
  REQUIRE(static_cast<bool>(at));
  return path.parts[static_cast<std::size_t>(at.v)] != 0;
}

Style workshop() {
  Sources sources;
  Diagnostics diagnostics;
  auto style = read_style(std::filesystem::path(TOWLOOM_ROOT) / "styles", "workshop", sources, diagnostics);
  REQUIRE(style.has_value());
  return *style;
}

}  // namespace

// The left turn runs through outlet, cord and inlet contact 3, W5 and the coach's diode of D1 to the lamp; from there
// through its own ground to the body, and back by the front ground and the white wire.
TEST_CASE("the left turn's path holds its own wires, its lamp and the return, nothing of the other side") {
  const Checked job = checked(plain_job());
  const auto path = live_path(*job.facts, "left");
  REQUIRE(path.has_value());
  CHECK(path->scene == "left");
  const auto wires = live_wires(*job.facts, *path);
  CHECK(wires.count("W5") == 1);
  CHECK(wires.count("W1") == 1);
  for (const char* other : {"W6", "W2", "W3", "W4", "W7"}) CHECK(wires.count(other) == 0);
  for (const char* id : {"J1.3", "J2.3", "J2.1", "J1.1", "D1", "G-RL", "G-F"}) CHECK(part_live(*job.facts, *path, id));
  for (const char* id : {"J1.4", "J2.4", "J2.2", "D2", "D3", "D4", "G-RR"}) CHECK_FALSE(part_live(*job.facts, *path, id));
}

TEST_CASE("the plate lamp's path leaves the right tail lamp out, though both burn with the tail lamps") {
  const Checked job = checked(plain_job());
  const auto path = live_path(*job.facts, "plate");
  REQUIRE(path.has_value());
  CHECK(path->scene == "tail");
  const auto wires = live_wires(*job.facts, *path);
  for (const char* own : {"W2", "W7", "W1"}) CHECK(wires.count(own) == 1);
  CHECK(wires.count("W4") == 0);   // to the right tail lamp
  CHECK(std::count(path->lamps.begin(), path->lamps.end(), 1) == 1);
}

TEST_CASE("both sides brake together") {
  const Checked job = checked(plain_job());
  const auto path = live_path(*job.facts, "stop");
  REQUIRE(path.has_value());
  const auto wires = live_wires(*job.facts, *path);
  CHECK(wires.count("W5") == 1);
  CHECK(wires.count("W6") == 1);
  CHECK(wires.count("W2") == 0);
}

TEST_CASE("a function that nothing carries is none; those that are known can be shown") {
  const Checked job = checked(plain_job());
  CHECK_FALSE(live_path(*job.facts, "charge").has_value());
  const auto known = live_functions(*job.facts);
  for (const char* name : {"left", "right", "tail", "stop", "plate"}) CHECK(std::find(known.begin(), known.end(), name) != known.end());
  CHECK(std::find(known.begin(), known.end(), "all off") == known.end());
}

TEST_CASE("a highlighted sheet keeps every line where it was, live wires as they were, others thin and quiet") {
  const Checked job = checked(plain_job());
  const Style style = workshop();
  const TextMeasure measure;
  Diagnostics diagnostics;
  const Drawing plain = bench_sheet(*job.facts, *job.job.catalogue, style, measure, 1, diagnostics).at(0);
  Drawing shown = plain;
  highlight(shown, job.facts->circuit(), *live_path(*job.facts, "left"), style);
  REQUIRE(shown.items.size() == plain.items.size());
  int live = 0, quiet = 0;
  for (std::size_t i = 0; i < plain.items.size(); ++i) {
    const auto *before = std::get_if<WireRun>(&plain.items[i]), *after = std::get_if<WireRun>(&shown.items[i]);
    if (before == nullptr) continue;
    REQUIRE(after != nullptr);
    CHECK(before->path == after->path);
    if (before->wire == "W5") {
      CHECK(after->core.colour == before->core.colour);
      CHECK(after->core.width == before->core.width);
      ++live;
    }
    if (before->wire == "W6" || before->wire == "W2") {
      CHECK(after->core.colour == ink(style, "rest"));
      CHECK(after->casing.width == 0);
      ++quiet;
    }
  }
  CHECK(live == 1);
  CHECK(quiet == 2);
}

TEST_CASE("the strip has one panel a state, each lamp named in each") {
  const Checked job = checked(plain_job());
  const Style style = workshop();
  const TextMeasure measure;
  Diagnostics diagnostics;
  const Drawing bench = bench_sheet(*job.facts, *job.job.catalogue, style, measure, 1, diagnostics).at(0);
  const auto pages = states_sheet(*job.facts, *job.job.catalogue, style, measure, bench, 3, 2);
  REQUIRE(static_cast<int>(pages.size()) == states_pages(*job.facts, *job.job.catalogue, style, measure));
  std::multiset<std::string> words;
  for (const Drawing& page : pages)
    for (const Item& item : page.items)
      if (const auto* label = std::get_if<Label>(&item)) {
        words.insert(label->text);
        CHECK(to_mm(label->size) * cap_height_em >= 2.5);
      }
  for (const char* title : {"TAIL", "STOP", "LEFT", "RIGHT", "HAZARD", "TAIL + LEFT"}) CHECK(words.count(title) == 1);
  // 2 stop/turn, 2 tail, plate, high stop, reverse: as many of each as there are panels.
  const std::size_t panels = words.count("plate");
  CHECK(panels >= 8);
  CHECK(words.count("LT stop/turn") == panels);
  CHECK(words.count("RT stop/turn") == panels);
  CHECK(pages[0].description.find("left: ") != std::string::npos);
}
