// The driver's page: every lamp once, each as survey and method want it.
#include <doctest/doctest.h>

#include <algorithm>

#include "check/fixture.hpp"
#include "layout/style_fixture.hpp"
#include "prove/prove.hpp"
#include "sheets/sheets.hpp"

namespace towloom {
namespace {

std::vector<std::string> texts(const Drawing& page) {
  std::vector<std::string> out;
  for (const Item& item : page.items)
    if (const auto* label = std::get_if<Label>(&item); label && !label->decoration) out.push_back(label->text);
  return out;
}

// By hand from survey S01: seven lamps; reverse and high stop stay dark in tow, the others follow.
TEST_CASE("the driver's page of the plain job shows five lamps that follow and two that stay dark") {
  const fixture::Checked job = fixture::checked(fixture::plain_job());
  const fixture::Looks looks;
  const auto pages = customer_sheet(*job.facts, *job.job.catalogue, looks.look().style, looks.measure, 14, 0);
  REQUIRE(pages.size() == 1);
  CHECK(prove_geometry(pages[0]).empty());
  const auto said = texts(pages[0]);
  const auto count = [&](const std::string& text) { return std::count(said.begin(), said.end(), text); };
  CHECK(count("stop/turn:") == 2);
  CHECK(count("tail:") == 2);
  CHECK(count("plate:") == 1);
  CHECK(count("brake and turn signal") == 2);
  CHECK(count("on with the motorhome's lamps") == 3);
  CHECK(count("stays dark") == 2);
  int full = 0, open = 0;
  for (const Item& item : pages[0].items)
    if (const auto* decor = std::get_if<Decor>(&item); decor && decor->marks.size() == 1)
      if (const auto* disc = std::get_if<Disc>(&decor->marks[0]); disc && disc->pen.width > 0) (disc->filled ? full : open) += 1;
  CHECK(full == 5);
  CHECK(open == 2);
}

}  // namespace
}  // namespace towloom
