// Sheets as other programs see them: xmllint, rsvg-convert, pdfinfo, pdffonts, pdftotext and qpdf
// judge.
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "drawing/utf8.hpp"
#include "sheet_set.hpp"

using namespace towloom;
using namespace towloom::test;
namespace fs = std::filesystem;

namespace {

struct Ran {
  int status = -1;
  std::string out;
};
Ran run(const std::string& command) {
  Ran ran;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return ran;
  std::array<char, 4096> part{};
  for (size_t n; (n = fread(part.data(), 1, part.size(), pipe)) > 0;)
    ran.out.append(part.data(), n);
  ran.status = pclose(pipe);
  return ran;
}

std::string folder() {
  static const std::string name = [] {
    const fs::path p =
        fs::temp_directory_path() / ("towloom-test-render-" + std::to_string(getpid()));
    fs::create_directories(p);
    return p.string();
  }();
  return name;
}

std::string save(const std::string& name, const std::string& bytes) {
  const std::string path = folder() + "/" + name;
  std::ofstream(path, std::ios::binary) << bytes;
  return path;
}

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

size_t count(const std::string& text, const std::string& piece) {
  size_t n = 0;
  for (size_t at = text.find(piece); at != text.npos; at = text.find(piece, at + 1)) ++n;
  return n;
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
  CHECK(count(objects, "/Title (") ==
        3);  // the sheets; the document's own title is not ASCII: in hex
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
