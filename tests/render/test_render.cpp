// Sheets as other programs see them: xmllint, rsvg-convert, pdfinfo, pdffonts, pdftotext and qpdf
// judge.
#include <clocale>
#include <ctime>

#include "drawing/utf8.hpp"
#include "outside.hpp"
#include "render/links.hpp"
#include "sheet_set.hpp"

using namespace towloom;
using namespace towloom::test;
namespace fs = std::filesystem;

namespace {

std::vector<Drawing> pages() {
  const Style style = workshop();
  const TextMeasure measure;
  return {symbol_sheet(style), colour_sheet(style), framed_sheet(style, measure, "a4", 2)};
}

std::string pdf() {
  std::string error;
  std::string bytes =
      to_pdf(pages(), {"Small hatchback ü", "workshop", "Job 7", "2026-11-24"}, error);
  REQUIRE_MESSAGE(error.empty(), error);
  return bytes;
}

}  // namespace

TEST_CASE("SVG is well formed and is drawn by another program") {
  int i = 0;
  for (const Drawing& page : pages()) {
    const std::string file = save("page" + std::to_string(++i) + ".svg", to_svg(page));
    const Ran lint = run("xmllint --noout " + file);
    CHECK_MESSAGE(lint.status == 0, lint.out);
    const Ran drawn = run("rsvg-convert " + file + " -o " + file + ".png");
    CHECK_MESSAGE(drawn.status == 0, drawn.out);
    CHECK(fs::file_size(file + ".png") > 5000);
  }
}

TEST_CASE("SVG keeps its contract") {
  const auto all = pages();
  const std::string svg = to_svg(all[1]);
  CHECK(svg.find("width=\"279.40mm\" height=\"215.90mm\" viewBox=\"0 0 279.40 215.90\"") !=
        svg.npos);
  CHECK(svg.find("role=\"img\"") != svg.npos);
  CHECK(svg.find("data-sheet=\"colours\" data-job=\"7\"") != svg.npos);
  CHECK(svg.find("transform") == svg.npos);
  CHECK(svg.find("<use") == svg.npos);
  const std::string wire =
      "<g class=\"wire\" id=\"wire-TWH\" data-wire=\"TWH\" data-net=\"N-TWH\" data-from=\"X1.TWH\" "
      "data-to=\"X2.TWH\" data-colour=\"WH/BK\" data-size=\"16 AWG\" data-status=\"new\">";
  REQUIRE(svg.find(wire) != svg.npos);
  const std::string group =
      svg.substr(svg.find(wire), svg.find("</g>", svg.find(wire)) - svg.find(wire));
  CHECK(count(group, "class=\"run\"") == 1);
  CHECK(count(group, "class=\"casing\"") == 1);
  CHECK(count(group, "class=\"tracer\"") == 1);
  CHECK(group.find("class=\"run\" d=\"M 100.00 168.00 H 160.00 V 173.00\"") != group.npos);
  CHECK(svg.find("<circle class=\"junction\" data-net=\"N1\"") != svg.npos);
  CHECK(svg.find("A</tspan> <tspan") !=
        svg.npos);  // a blank between words: copied text stays words
  CHECK(svg.find("&amp;") != svg.npos);
  CHECK(svg.find("\"q\"") == svg.npos);
  const std::string symbols = to_svg(all[0]);
  CHECK(symbols.find("data-job=\"7 &amp; &lt;8&gt;\"") != symbols.npos);
  CHECK(count(symbols, "class=\"body\"") == 2 * workshop().symbols.size());
  CHECK(symbols.find("data-terminal=\"P") != symbols.npos);
}

TEST_CASE("job text cannot add markup; a wire drawn twice on a page has two ids") {
  const Style style = workshop();
  Drawing page;
  page.title = "</title><script>x</script>";
  page.items.emplace_back(text("\x01<b>\xFF</b>", {0, 1000}, style));
  for (int i = 0; i < 2; ++i)
    page.items.emplace_back(wire("W 1\"<", "YE", "new", {{0, 0}, {1000, 0}}, style));
  const std::string svg = to_svg(page);
  const Ran lint = run("xmllint --noout " + save("hostile.svg", svg));
  CHECK_MESSAGE(lint.status == 0, lint.out);
  CHECK(svg.find("<script") == svg.npos);
  CHECK(svg.find("id=\"wire-W_1__\"") != svg.npos);
  CHECK(svg.find("id=\"wire-W_1__-2\"") != svg.npos);
  std::string error;
  const std::string bytes = to_pdf({page}, {"\xFF", "", "", "no date"}, error);
  CHECK(error.empty());
  CHECK(run("qpdf --check " + save("hostile.pdf", bytes)).status == 0);
}

TEST_CASE("PDF is sound: page sizes, embedded fonts, outline, date of the job") {
  const std::string file = save("all.pdf", pdf());
  const Ran check = run("qpdf --check " + file);
  CHECK_MESSAGE(check.status == 0, check.out);
  const std::string info = run("pdfinfo -l 3 " + file).out;
  CHECK(info.find("Pages:           3") != info.npos);
  CHECK(info.find("Page    1 size:  841.89 x 595.276 pts (A4)") != info.npos);
  CHECK(info.find("Page    2 size:  792 x 612 pts (letter)") != info.npos);
  CHECK(info.find("Small hatchback ü") != info.npos);
  CHECK(run("TZ=UTC pdfinfo " + file).out.find("CreationDate:    Tue Nov 24 00:00:00 2026") !=
        std::string::npos);
  std::istringstream fonts(run("pdffonts " + file).out);
  int embedded = 0;
  for (std::string row; std::getline(fonts, row);) {
    if (row.find("Inter") == row.npos && row.find("DejaVu") == row.npos) continue;
    CHECK(row.find("yes yes yes") != row.npos);
    ++embedded;
  }
  CHECK(embedded >= 2);
  const std::string objects =
      run("qpdf --qdf --object-streams=disable " + file + " - | strings").out;
  CHECK(objects.find("/Outlines") != objects.npos);
  CHECK(objects.find("/Lang (en)") != objects.npos);
  CHECK(objects.find("/PrintScaling /None") != objects.npos);   // ISO 32000-1 table 150: the print dialog does not fit to page
  CHECK(objects.find("/DisplayDocTitle true") != objects.npos);
  // The outline as poppler reads it: the sheets in order, below them the fitted wires.
  const std::string outline = run("pdftohtml -xml -i -stdout " + file).out;
  for (const char* entry : {"<item page=\"1\">1  Symbols</item>", "<item page=\"2\">2  Colours</item>", "<item page=\"3\">3  Bench sheet</item>"})
    CHECK(outline.find(entry) != outline.npos);
}

TEST_CASE("every word of every label is found in the PDF") {
  const std::string found = run("pdftotext " + save("text.pdf", pdf()) + " -").out;
  int words = 0;
  for (const Drawing& page : pages())
    for (const Item& item : page.items) {
      const auto* label = std::get_if<Label>(&item);
      if (label == nullptr) continue;
      for (const Word& w : words_of(label->text)) {
        CAPTURE(w.text);
        CHECK(found.find(w.text) != found.npos);
        ++words;
      }
    }
  CHECK(words > 60);
}

TEST_CASE("without a job's date the PDF bears that of SOURCE_DATE_EPOCH") {
  const std::vector<Drawing> page{symbol_sheet(workshop())};
  const auto date = [&] {
    std::string error;
    const std::string bytes = to_pdf(page, {"x", "", "", ""}, error);
    CHECK(error.empty());
    const std::string info = run("TZ=UTC pdfinfo " + save("epoch.pdf", bytes)).out;
    return info.substr(info.find("CreationDate:"), 45);
  };
  setenv("SOURCE_DATE_EPOCH", "1000000000", 1);   // date -u -d @1000000000
  CHECK(date().find("Sun Sep  9 01:46:40 2001") != std::string::npos);
  setenv("SOURCE_DATE_EPOCH", "tomorrow", 1);
  CHECK(date().find("Thu Jan  1 00:00:00 1970") != std::string::npos);
  unsetenv("SOURCE_DATE_EPOCH");
}

TEST_CASE("a label leads to the next page that speaks of the same thing, and round again") {
  const Style style = workshop();
  const TextMeasure measure;
  std::vector<Drawing> set(3);
  const auto say = [&](size_t page, const std::string& about, const std::string& names, Point at) {
    Label label = text(about, at, style);
    label.about = about, label.wire = names;
    measure.place(label);
    set[page].items.emplace_back(label);
  };
  say(0, "W1", "", {mm(50), mm(60)});
  say(0, "D1", "", {mm(80), mm(60)});            // named nowhere else: leads nowhere
  say(1, "J1.3", "W1", {mm(70), mm(90)});
  say(2, "W1", "", {mm(30), mm(40)});
  Label row = text("Pin faces", {mm(20), mm(20)}, style);
  row.page = 2;
  measure.place(row);
  set[0].items.emplace_back(row);
  const auto links = find_links(set);
  REQUIRE(links.size() == 4);
  CHECK(links[0].page == 0);
  CHECK(links[0].to_page == 1);
  CHECK(links[0].area.contains({mm(51), mm(59)}));
  CHECK(links[0].to.x == mm(60));                // a centimetre before it
  CHECK(links[1].to_page == 1);                  // the row of the index
  CHECK(links[2].page == 1);
  CHECK(links[2].to_page == 2);
  CHECK(links[3].page == 2);
  CHECK(links[3].to_page == 0);
}

TEST_CASE("a reference leads to the other piece of its wire") {
  const Style style = workshop();
  std::vector<Drawing> set(2);
  for (size_t i = 0; i < 2; ++i) {
    WireRun run = wire("W7", "RD", "new", {{mm(20), mm(50)}, {mm(60), mm(50)}}, style);
    run.piece = static_cast<int>(i) + 1, run.pieces = 2;
    set[i].items.emplace_back(run);
    PartFigure reference = part("R" + std::to_string(i), style.symbol("reference"), i == 0 ? Point{mm(60), mm(50)} : Point{mm(20), mm(50)}, i == 1, style);
    set[i].items.emplace_back(reference);
  }
  const auto links = find_links(set);
  REQUIRE(links.size() == 2);
  CHECK(links[0].to_page == 1);
  CHECK(links[1].to_page == 0);
}

TEST_CASE("the same bytes in any zone and locale") {
  const std::string first = pdf(), first_svg = to_svg(pages()[1]);
  setenv("TZ", "Pacific/Auckland", 1);
  setenv("LC_ALL", "de_DE.UTF-8", 1);
  tzset();
  setlocale(LC_ALL, "");
  CHECK(pdf() == first);
  CHECK(to_svg(pages()[1]) == first_svg);
  setlocale(LC_ALL, "C");
  unsetenv("TZ");
  unsetenv("LC_ALL");
}

TEST_CASE("the frame follows ISO 5457 and leaves room") {
  const Style style = workshop();
  const TextMeasure measure;
  for (const char* paper : {"a4", "letter", "a3"}) {
    Frame clean, faulty;
    const Drawing page = framed_sheet(style, measure, paper, 0, &clean);
    const Drawing bad = framed_sheet(style, measure, paper, 3, &faulty);
    CAPTURE(paper);
    CHECK(clean.outer == Rect{mm(20), mm(10), page.width - mm(30), page.height - mm(20)});
    CHECK(clean.space.h >= mm(160));
    CHECK(faulty.space.y > clean.space.y);
    CHECK(faulty.space.bottom() == clean.space.bottom());
    const std::string svg = to_svg(page), bad_svg = to_svg(bad);
    CHECK(svg.find(">hatchback,</tspan>") != svg.npos);
    CHECK(svg.find("build</tspan>") == svg.npos);
    CHECK(bad_svg.find(">faults:</tspan>") != bad_svg.npos);
    for (const Item& item : bad.items) {
      const auto* label = std::get_if<Label>(&item);
      if (label == nullptr) continue;
      CAPTURE(label->text);
      const Mm100 w = measure.width(label->text, label->size, label->weight);
      CHECK(label->decoration);
      CHECK(label->size * cap_height_em >= 250);
      CHECK(label->room.x >= clean.outer.x);
      CHECK(label->at.y < clean.outer.bottom());
      if (label->anchor == Anchor::start) CHECK(label->at.x + w <= clean.outer.right());
      CHECK_FALSE(label->room.overlaps(faulty.space));
    }
  }
}
