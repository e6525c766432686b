// Wire list, cut list and proof: what is printed against tables written by hand.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <set>

#include "check/fixture.hpp"
#include "layout/style_fixture.hpp"
#include "prove/prove.hpp"
#include "sheets/table.hpp"

namespace towloom {
namespace {

using Rows = std::vector<std::vector<std::string>>;

// Texts of a page line by line, each from left to right.
Rows lines_of(const Drawing& page) {
  std::map<Mm100, std::map<Mm100, std::string>> lines;
  for (const Item& item : page.items)
    if (const auto* label = std::get_if<Label>(&item); label && !label->decoration) lines[label->at.y][label->room.x] = label->text;
  Rows out;
  for (const auto& [y, line] : lines) {
    out.emplace_back();
    for (const auto& [x, text] : line) out.back().push_back(text);
  }
  return out;
}

bool printed(const Rows& rows, const std::vector<std::string>& start) {
  return std::any_of(rows.begin(), rows.end(), [&](const auto& row) {
    return row.size() >= start.size() && std::equal(start.begin(), start.end(), row.begin());
  });
}

// By hand from survey S01: 1.3 m front, 3.9 m sill, 1.4 m cross; loops 0.3 m at the inlet, 0.25 m at a pocket, 0.075 m at a
// splice, 0.15 m over the cross run; 0.3 m to the front stud and 0.8 m to the plate lamp. Up to the next tenth.
TEST_CASE("the wire list prints the plain job's wires as a fitter would have written them") {
  const fixture::Checked job = fixture::checked(fixture::plain_job());
  const fixture::Looks looks;
  const auto pages = wires_sheet(*job.facts, *job.job.catalogue, looks.look().style, looks.measure, 0, 0);
  REQUIRE(!pages.empty());
  const Rows rows = lines_of(pages[0]);
  CHECK(printed(rows, {"W1", "GND", "WH", "16 AWG", "0.6 m", "G-F, front frame stud", "J2 contact 1"}));
  CHECK(printed(rows, {"W2", "TAIL", "BN", "16 AWG", "5.6 m", "J2 contact 2", "S1, left rear", "front, sill"}));
  CHECK(printed(rows, {"W3", "TAIL", "BN", "16 AWG", "0.4 m", "S1, left rear", "D3 A1, left rear"}));
  CHECK(printed(rows, {"W4", "TAIL", "BN", "16 AWG", "1.9 m", "S1, left rear", "D4 A1, right rear", "cross"}));
  CHECK(printed(rows, {"W5", "LT", "YE", "16 AWG", "5.8 m", "J2 contact 3", "D1 A1, left rear", "front, sill"}));
  CHECK(printed(rows, {"W6", "RT", "GN", "16 AWG", "7.3 m", "J2 contact 4", "D2 A1, right rear", "front, sill, cross"}));
  CHECK(printed(rows, {"W7", "TAIL", "BN", "16 AWG", "0.9 m", "S2, left rear", "plate"}));
  // Four brown pieces: 5.6 + 0.4 + 1.9 + 0.9 m.
  const bool brown = std::any_of(rows.begin(), rows.end(), [](const auto& r) { return std::count(r.begin(), r.end(), "8.8 m") == 1 && std::count(r.begin(), r.end(), "BN") == 1; });
  CHECK(brown);
}

TEST_CASE("a wrong lamp stands in a red frame on the proof, a right one does not") {
  const fixture::Looks looks;
  const Rgb red = ink(looks.look().style, "cut");
  const auto red_frames = [&](const fixture::Checked& job) {
    int out = 0;
    for (const Drawing& page : proof_sheet(*job.facts, *job.job.catalogue, looks.look().style, looks.measure, 0, 0))
      for (const Item& item : page.items)
        if (const auto* decor = std::get_if<Decor>(&item); decor && decor->marks.size() == 1)
          if (const auto* shape = std::get_if<Shape>(&decor->marks[0]); shape && shape->pen.width > 0 && shape->pen.colour == red) ++out;
    return out;
  };
  CHECK(red_frames(fixture::checked(fixture::plain_job())) == 0);
  // Left and right changed over at the inlet: wrong in left, right, stop + left, stop + right and the same with the
  // tail lamps on: 8 states, both lamps in each.
  const fixture::Checked crossed = fixture::spoilt([](Circuit& c) {
    Wire *left = nullptr, *right = nullptr;
    for (Wire& w : c.wires) {
      if (w.id == "W5") left = &w;
      if (w.id == "W6") right = &w;
    }
    REQUIRE(left != nullptr);
    REQUIRE(right != nullptr);
    std::swap(left->from, right->from);
  });
  CHECK(red_frames(crossed) == 16);
}

TEST_CASE("a table longer than a page goes on with its heads, and no row is lost") {
  const fixture::Checked job = fixture::checked(fixture::plain_job());
  const fixture::Looks looks;
  SheetTable table{"Long", {{"number"}, {"text", Anchor::start, true}}, {}};
  for (int i = 0; i < 120; ++i) table.rows.push_back({{{"row " + std::to_string(i)}, {"words that say little, again and again and again, until the line is full and a second one must begin below it"}}});
  const Drawing blank = table_blank(*job.facts, looks.look().style, "long", "Long", "rows");
  const auto pages = table_pages({{table}}, blank, {}, *job.facts, *job.job.catalogue, looks.look().style, looks.measure, 2, 3);
  CHECK(pages.size() > 3);
  std::multiset<std::string> seen;
  for (const Drawing& page : pages) {
    CHECK(prove_geometry(page).empty());
    const Rows rows = lines_of(page);
    CHECK(printed(rows, {"number", "text"}));
    for (const auto& row : rows)
      if (row[0].rfind("row ", 0) == 0) seen.insert(row[0]);
  }
  CHECK(seen.size() == 120);
  CHECK(std::set<std::string>(seen.begin(), seen.end()).size() == 120);
}

}  // namespace
}  // namespace towloom
