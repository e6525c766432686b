// The worksheets of the plain job against what a teacher would write by hand from survey S01.
#include <doctest/doctest.h>

#include <set>

#include "sheets/worksheet_fixture.hpp"

namespace towloom {
namespace {

using namespace fixture;
using Row = std::vector<std::string>;

const Looks& looks() {
  static const Looks out;
  return out;
}
const Worksheets& plain() {
  static const Worksheets out = worksheets("plain-hatchback", looks());
  return out;
}
const Drawing& page(const std::string& name, std::size_t n = 0) {
  const auto all = plain().of(name);
  REQUIRE(all.size() > n);
  return *all[n];
}
bool has_row(const Drawing& drawing, const Row& row) {
  const auto all = rows(drawing);
  return std::any_of(all.begin(), all.end(), [&](const Row& r) { return std::search(r.begin(), r.end(), row.begin(), row.end()) != r.end(); });
}
int boxes_of(const Drawing& drawing, Rgb colour) {
  int out = 0;
  for (const Item& item : drawing.items)
    if (const auto* decor = std::get_if<Decor>(&item); decor && decor->marks.size() == 1)
      if (const auto* shape = std::get_if<Shape>(&decor->marks[0]); shape && shape->pen.width > 0 && shape->pen.colour == colour && shape->path.size() > 4) ++out;
  return out;
}

}  // namespace

TEST_CASE("worksheets come first in their order, then the keys in the same") {
  std::vector<std::string> order;
  for (const Drawing& p : plain().pages) {
    const std::string name = p.title.substr(0, p.title.find(':'));
    if (order.empty() || order.back() != name) order.push_back(name);
  }
  CHECK(order == std::vector<std::string>{"Worksheets, job S01", "Worksheet A", "Worksheet B", "Worksheet C", "Worksheet E", "Worksheet F", "Worksheet G", "Worksheet D", "Worksheet H", "Worksheet I",
                                          "Key A", "Key B", "Key C", "Key E", "Key F", "Key G", "Key D", "Key H", "Key I"});
  const int pages = static_cast<int>(plain().pages.size());
  for (int p = 0; p < pages; ++p) CHECK(prints(plain().pages[static_cast<std::size_t>(p)], std::to_string(p + 1) + " of " + std::to_string(pages)));
}

// By hand: the yellow wire of contact 3 over D1 to the left lamp, whose return ends at G-RL; body to G-F; white wire home.
TEST_CASE("A lists the parts in the order in which the current meets them") {
  const Drawing& key = page("Key A", 1);
  const std::string all = all_text(key);
  for (const char* way : {"J1 contact 3 – C3 YE – J2 contact 3 – W5 YE – D1 (A1 to K) – GY/VT – left rear stop/turn – BK/WH – G-RL – car body – G-F –",
                          "J1 contact 4 – C4 GN – J2 contact 4 – W6 GN – D2 (A1 to K) – GY/OG – right rear stop/turn – BK/WH – G-RR – car body – G-F –"})
    CHECK_MESSAGE(all.find(way) != std::string::npos, all);
  CHECK(prints(page("Worksheet A"), "stop + left"));   // the state, in the strip
}

TEST_CASE("B leaves out what is to be written, and its key has it") {
  const Drawing &sheet = page("Worksheet B"), &key = page("Key B");
  for (const char* word : {"W1", "W2", "W3", "W4", "W5", "W6", "W7", "C1", "C2", "C3", "C4", "YE", "GN", "BN", "WH", "GY/VT", "GY/OG", "PK/BK", "BK/WH", "G-F", "G-RL", "G-RR", "G-BAT", "5.8"}) {
    CAPTURE(word);
    CHECK(names(key, word));
    CHECK(!names(sheet, word));
  }
  for (const char* word : {"D1", "D2", "D3", "D4", "S1", "S2"}) CHECK(names(sheet, word));   // boxes and joints keep their marks
}

TEST_CASE("C leaves the left side and the lamps of the right") {
  const Drawing &sheet = page("Worksheet C"), &key = page("Key C");
  for (const char* word : {"W4", "W6", "D2", "D4", "GY/OG"}) {
    CAPTURE(word);
    CHECK(names(key, word));
    CHECK(!names(sheet, word));
  }
  for (const char* word : {"W2", "W3", "W5", "W7", "D1", "D3", "GY/VT", "RIGHT"}) CHECK(names(sheet, word));
}

// By hand: with D1's diode on the car's side shorted (A2), what arrives at the left lamp goes on over GY/VT to the turn
// switch, which at rest joins both stop/turn lamps and the stop node. In left both, right stop/turn and high stop, flash
// along (2); in stop the high stop lights (1); in stop + left the high stop flashes (1); in stop + right the steady left
// feeds the right lamp and the high stop (2). Four of the states in which it shows are printed, and two others: 6 cells.
TEST_CASE("E frames what the shorted diode changes") {
  const Drawing &sheet = page("Worksheet E"), &key = page("Key E");
  CHECK(prints(sheet, "diode D1 A2 shorted"));
  CHECK(boxes_of(key, ink(*looks().style, "cut")) == 6);
  CHECK(boxes_of(sheet, ink(*looks().style, "cut")) == 0);
  CHECK(boxes_of(sheet, ink(*looks().style, "quiet")) == 2 * 6 * 7);   // two tables, six states, seven lamps
}

// By hand: 16 AWG is 13.7015 mohm a metre at 20 °C, x (1 + 0.00393 x 10) = 14.24 at 30 °C; 2.4 m of cord at 1.69 A lose
// 14.24 x 2.40 x 1.69 / 1000 = 0.0578 V; a contact of 5 mohm 0.0085 V.
TEST_CASE("F shows its arithmetic line by line, and the learner only what goes into it") {
  const Drawing &sheet = page("Worksheet F"), &key = page("Key F");
  CHECK(has_row(key, {"C2 BN", "16 AWG", "14.24 mΩ/m × 2.40 m × 1.69 A", "0.058 V"}));
  CHECK(has_row(key, {"J2 contact 2", "5.00 mΩ × 1.69 A", "0.008 V"}));
  CHECK(has_row(sheet, {"C2 BN", "16 AWG", "1.31", "2.40 m", "1.69 A"}));
  for (const char* sum : {"0.058", "0.134", "12.23", "14.24 mΩ/m ×"}) CHECK(!prints(sheet, sum));
  CHECK(prints(sheet, "ASTM B258"));   // where the ohms come from
}

TEST_CASE("G mirrors the face, and gives only the mating face to begin with") {
  const Drawing &sheet = page("Worksheet G"), &key = page("Key G");
  std::map<std::string, std::map<Mm100, std::string>> order;
  for (const Item& item : key.items)
    if (const auto* contact = std::get_if<ContactFigure>(&item)) order[contact->view][contact->centre.x] = contact->contact;
  const auto in_row = [&](const char* view) {
    std::string out;
    for (const auto& [x, number] : order[view]) out += number;
    return out;
  };
  CHECK(in_row("mating") == "4321");   // the trailer half of the flat four: its sleeve, ground, at the right
  CHECK(in_row("wire") == "1234");
  for (const Item& item : sheet.items)
    if (const auto* label = std::get_if<Label>(&item); label && !label->decoration && label->at.x > sheet.width / 2 + mm(30) && label->at.y > sheet.height / 5)
      for (const char* word : {"ground", "tail", "left", "right", "WH", "BN", "YE", "GN"}) CHECK_MESSAGE(label->text.find(word) == std::string::npos, label->text);
  CHECK(prints(key, "YOU WIRE THIS SIDE"));
}

TEST_CASE("D hides job and method, and its key names both kinds") {
  const Drawing &sheet = page("Worksheet D"), &key = page("Key D");
  CHECK(!prints(sheet, "Small hatchback"));
  for (const auto& [name, method] : plain().job.catalogue->methods) CHECK(!prints(sheet, method.title));
  CHECK(has_row(key, {"1", "Two-way diodes"}));
  CHECK(all_text(key).find("right rear stop/turn would be flashing, must be dark") != std::string::npos);   // one side wired: the turn switch at rest joins both
}

TEST_CASE("I answers with this car's lamps") {
  CHECK(prints(page("Key I"), "stop/turn, tail, plate"));
  CHECK(!prints(page("Worksheet I"), "stop/turn"));
}

}  // namespace towloom
