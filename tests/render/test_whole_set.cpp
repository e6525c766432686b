// Whole sets as a user draws them, one small and one large, judged by other programs: xmllint, qpdf, poppler, librsvg.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "outside.hpp"

using namespace towloom::test;
namespace fs = std::filesystem;

namespace {

struct Set {
  std::string name;
  double width = 0, height = 0;   // mm, ISO 216, of the paper that the job names
  std::string pdf;
  std::vector<std::string> svg;   // in page order
};

// The SVG files in the order in which draw names them: the order of the pages.
Set drawn(const std::string& name, double width, double height) {
  Set out{name, width, height, folder() + "/" + name + ".pdf", {}};
  const Ran ran = run(TOWLOOM_BINARY " draw specs/jobs/" + name + ".yaml -o " + folder());
  REQUIRE_MESSAGE(ran.status == 0, ran.out);
  std::istringstream rows(ran.out);
  for (std::string row; std::getline(rows, row);)
    if (row.rfind(folder(), 0) == 0 && row.size() > 4 && row.substr(row.size() - 4) == ".svg") out.svg.push_back(row);
  return out;
}
const std::vector<Set>& sets() {
  static const std::vector<Set> all{drawn("plain-hatchback", 297, 210), drawn("large-pickup", 420, 297)};
  return all;
}

struct SvgLabel {
  std::string about, text;        // the first word
  double x = 0, y = 0;            // where it begins, on its base line; mm
};
// Labels that begin where they are measured; those set from the middle or the end are left out.
std::vector<SvgLabel> labels_of(const std::string& svg) {
  static const std::regex label("<text class=\"label\"(?: data-for=\"([^\"]*)\")? y=\"([-0-9.]+)\" font-size=\"[0-9.]+\" fill=\"#[0-9a-f]+\"(?: font-weight=\"600\")?><tspan x=\"([-0-9.]+)\">([^<]*)</tspan>");
  std::vector<SvgLabel> out;
  const std::string text = bytes_of(svg);
  for (auto m = std::sregex_iterator(text.begin(), text.end(), label); m != std::sregex_iterator(); ++m)
    out.push_back({(*m)[1], (*m)[4], std::stod((*m)[3]), std::stod((*m)[2])});
  return out;
}

// The ink of two words on one line must not touch. pdftotext gives the font's height: the middle of it is ink.
std::vector<std::string> overlaps(const std::vector<FoundWord>& words) {
  std::vector<std::string> out;
  const auto ink = [](const FoundWord& w) { return std::pair{w.top + 0.27 * (w.bottom - w.top), w.bottom - 0.24 * (w.bottom - w.top)}; };
  for (size_t i = 0; i < words.size(); ++i)
    for (size_t k = i + 1; k < words.size(); ++k) {
      const auto [top, bottom] = ink(words[i]);
      const auto [other_top, other_bottom] = ink(words[k]);
      if (words[i].left < words[k].right && words[k].left < words[i].right && top < other_bottom && other_top < bottom)
        out.push_back(words[i].text + " and " + words[k].text);
    }
  return out;
}

std::string joined(const std::vector<std::string>& all) {
  std::string out;
  for (const std::string& s : all) out += s + "; ";
  return out;
}

}  // namespace

TEST_CASE("every SVG of a set is well formed, and its ids are unique") {
  for (const Set& set : sets()) {
    REQUIRE(set.svg.size() >= 3);
    for (const std::string& svg : set.svg) {
      const Ran lint = run("xmllint --noout " + svg);
      CHECK_MESSAGE(lint.status == 0, lint.out);
      static const std::regex id(" id=\"([^\"]*)\"");
      const std::string text = bytes_of(svg);
      std::set<std::string> seen;
      for (auto m = std::sregex_iterator(text.begin(), text.end(), id); m != std::sregex_iterator(); ++m) {
        CAPTURE((*m)[1].str());
        CHECK(seen.insert((*m)[1]).second);
      }
    }
  }
}

TEST_CASE("the PDF of a set is sound, has the paper's size on every page, and all its fonts inside") {
  for (const Set& set : sets()) {
    const Ran check = run("qpdf --check " + set.pdf);
    CHECK_MESSAGE(check.status == 0, check.out);
    CHECK(check.out.find("WARNING") == check.out.npos);
    const std::string info = run("pdfinfo -l 99 -box " + set.pdf).out;
    CHECK(info.find("Pages:           " + std::to_string(set.svg.size())) != info.npos);
    static const std::regex media("MediaBox: +0.00 +0.00 +([0-9.]+) +([0-9.]+)"), paper("width=\"([0-9.]+)mm\" height=\"([0-9.]+)mm\"");
    size_t page = 0;
    for (auto m = std::sregex_iterator(info.begin(), info.end(), media); m != std::sregex_iterator() && page < set.svg.size(); ++m, ++page) {
      std::smatch said;
      const std::string svg = bytes_of(set.svg[page]);
      REQUIRE(std::regex_search(svg, said, paper));
      CAPTURE(set.svg[page]);
      CHECK(std::abs(std::stod((*m)[1]) - std::stod(said[1]) * 72 / 25.4) <= 0.01);
      CHECK(std::abs(std::stod((*m)[2]) - std::stod(said[2]) * 72 / 25.4) <= 0.01);
      if (page > 0) continue;
      CHECK(std::stod(said[1]) == set.width);    // the bench sheet stands on the job's paper
      CHECK(std::stod(said[2]) == set.height);
    }
    CHECK(page == set.svg.size());
    std::istringstream fonts(run("pdffonts " + set.pdf).out);
    int embedded = 0, row_number = 0;
    for (std::string row; std::getline(fonts, row);) {
      if (++row_number <= 2) continue;   // the table's head
      CAPTURE(row);
      CHECK(row.find("yes yes yes") != row.npos);   // embedded, a subset, with its way back to Unicode
      ++embedded;
    }
    CHECK(embedded >= 2);
  }
}

// Apostrophes as they were meant: each writer has its own name for them.
std::string plain(const std::string& text) { return std::regex_replace(text, std::regex("&(#39|#x27|apos);"), "'"); }

TEST_CASE("a word stands in the PDF where the SVG has it") {
  // Cairo writes advances in whole thousandths of an em: over a line of text that adds up to some hundredths of a millimetre.
  constexpr double rounding = 0.15;
  for (const Set& set : sets()) {
    const auto pages = words_of_pdf(set.pdf);
    REQUIRE(pages.size() == set.svg.size());
    int wires = 0;
    for (size_t p = 0; p < pages.size(); ++p)
      for (const SvgLabel& label : labels_of(set.svg[p])) {
        CAPTURE(set.svg[p] + ": " + label.text);
        const bool there = std::any_of(pages[p].begin(), pages[p].end(), [&](const FoundWord& w) {
          return plain(w.text) == plain(label.text) && std::abs(w.left - label.x) < rounding && label.y > w.top && label.y < w.bottom;
        });
        CHECK(there);
        wires += label.text == label.about && label.about[0] == 'W';
      }
    CHECK(wires >= 5);
  }
}

TEST_CASE("a wire's number leads from its label on the bench sheet to its contact, and back") {
  for (const Set& set : sets()) {
    // poppler's reading of the links: <page number=".."> then <text ..><a href="file.html#PAGE">words</a>
    std::map<std::string, std::map<int, std::set<int>>> leads;   // first word, page, pages it leads to
    std::map<std::string, std::set<int>> named;                  // pages with this word
    int page = 0;
    static const std::regex number("<page number=\"([0-9]+)\""), link("href=\"[^#]*#([0-9]+)\"");
    std::istringstream rows(run("pdftohtml -xml -i -stdout " + set.pdf).out);
    for (std::string row; std::getline(rows, row);) {
      std::smatch m;
      if (std::regex_search(row, m, number)) page = std::stoi(m[1]);
      if (row.rfind("<text", 0) != 0) continue;
      const std::string plain = std::regex_replace(row, std::regex("<[^>]*>"), "");
      std::istringstream words(plain);
      for (std::string word; words >> word;) {
        named[word].insert(page);
        if (std::regex_search(row, m, link)) leads[word][page].insert(std::stoi(m[1]));
      }
    }
    int ways = 0;
    for (const auto& entry : named) {   // by name: a lambda takes no structured binding in C++20
      const std::string& word = entry.first;
      const std::set<int>& pages = entry.second;
      const bool wire = word.size() >= 2 && word[0] == 'W' && std::all_of(word.begin() + 1, word.end(), [](char c) { return c >= '0' && c <= '9'; });
      if (!wire || pages.size() < 2) continue;
      for (const int from : pages) {
        const std::string& svg = set.svg.at(static_cast<size_t>(from) - 1);
        if (svg.find("-bench") == svg.npos && svg.find("-faces") == svg.npos) continue;   // other sheets also name wires in passing
        CAPTURE(set.name + " " + word + " on page " + std::to_string(from));
        REQUIRE(leads[word][from].size() >= 1);
        for (const int to : leads[word][from]) CHECK(pages.count(to) == 1);
        ++ways;
      }
    }
    CHECK(ways >= 6);
  }
}

TEST_CASE("each fitted wire bears its colour's letters, in sight of both its ends") {
  static const std::regex wire("<g class=\"wire\" id=\"[^\"]*\" data-wire=\"([^\"]*)\"[^>]*data-colour=\"([^\"]*)\"[^>]*data-status=\"new\">([^<]*<path[^>]*>)*?[^<]*<path class=\"run\" d=\"M ([-0-9.]+) ([-0-9.]+)([^\"]*)\"");
  static const std::regex text("<text class=\"label\" data-for=\"([^\"]*)\" y=\"([-0-9.]+)\"[^>]*>(.*)</text>"), first("<tspan x=\"([-0-9.]+)\""), step("([HV]) ([-0-9.]+)");
  for (const Set& set : sets())
    for (const std::string& svg : set.svg) {
      if (svg.find("-bench") == svg.npos) continue;
      const std::string all = bytes_of(svg);
      struct Seen { double x, y; std::string words; };
      std::map<std::string, std::vector<Seen>> labels;
      for (auto m = std::sregex_iterator(all.begin(), all.end(), text); m != std::sregex_iterator(); ++m) {
        std::smatch x;
        const std::string inner = (*m)[3];
        if (std::regex_search(inner, x, first)) labels[(*m)[1]].push_back({std::stod(x[1]), std::stod((*m)[2]), " " + std::regex_replace(inner, std::regex("<[^>]*>"), "") + " "});
      }
      int wires = 0;
      for (auto m = std::sregex_iterator(all.begin(), all.end(), wire); m != std::sregex_iterator(); ++m) {
        double x = std::stod((*m)[4]), y = std::stod((*m)[5]);
        std::vector<std::pair<double, double>> ends{{x, y}};
        const std::string rest = (*m)[6];
        for (auto s = std::sregex_iterator(rest.begin(), rest.end(), step); s != std::sregex_iterator(); ++s) ((*s)[1] == "H" ? x : y) = std::stod((*s)[2]);
        ends.emplace_back(x, y);
        const std::string id = (*m)[1], letters = " " + (*m)[2].str() + " ";
        ++wires;
        for (const std::pair<double, double>& end : ends) {
          const double ex = end.first, ey = end.second;
          CAPTURE(svg + " " + id + " at " + std::to_string(ex) + " " + std::to_string(ey));
          const bool there = std::any_of(labels[id].begin(), labels[id].end(), [&](const Seen& l) {
            // A label begins where its first word does: one of 40 mm may reach that much nearer to the end.
            return l.words.find(letters) != l.words.npos && std::hypot(l.x - ex, l.y - ey) <= 70 + 40;
          });
          CHECK(there);
        }
      }
      CHECK(wires >= 3);
    }
}

TEST_CASE("no words overlap, whichever face of the stack librsvg finds") {
  for (const std::string& fonts : {std::string(), fonts_only("/usr/share/fonts/truetype/liberation2")})
    for (const Set& set : sets())
      for (const std::string& svg : set.svg) {
        const std::string file = svg + ".pdf";
        const Ran ran = run(fonts + "rsvg-convert -f pdf " + svg + " -o " + file);
        REQUIRE_MESSAGE(ran.status == 0, ran.out);
        const std::string faces = run("pdffonts " + file).out;
        CHECK(faces.find(fonts.empty() ? "Inter" : "LiberationSans") != faces.npos);
        CHECK((faces.find("Inter") == faces.npos) == !fonts.empty());
        const auto pages = words_of_pdf(file);
        REQUIRE(pages.size() == 1);
        const auto found = overlaps(pages[0]);
        std::smatch said;
        const std::string text = bytes_of(svg);
        REQUIRE(std::regex_search(text, said, std::regex("width=\"([0-9.]+)mm\"")));
        const double page_width = std::stod(said[1]);
        CAPTURE(svg + (fonts.empty() ? "" : " in the other face"));
        CHECK_MESSAGE(found.empty(), joined(found));
        for (const FoundWord& w : pages[0]) {
          CAPTURE(w.text);
          CHECK(w.left >= 20);             // inside the frame of ISO 5457
          CHECK(w.right <= page_width - 10);
        }
      }
}
