// Wire tables written by hand: for each survey and each method the joins, the colours and the lengths of the wires that
// carry the lamps' signals and their return. Lengths: the runs of the survey, and the trade's spare: 0.3 m behind the
// inlet, 0.25 m at a lamp, 0.075 m at a splice, 0.15 m for a run from pocket to pocket; 0.3 m from the inlet to its
// stud where no run says more.
#include <algorithm>
#include <set>

#include "oracles/matrix.hpp"

using namespace towloom;

namespace {

struct Row {
  std::string from, to, colour;   // a terminal, or "S left rear": a splice at that place
  double length_m;
};
struct Table {
  const char* job;
  const char* says;            // method, and what the survey measures
  std::vector<std::string> circuits;   // every fitted wire of these stands in the table
  std::vector<Row> rows;
};

const double part_lead = 0.15;   // from part to part at one place: within the 7 in of 33 CFR 183.455 (b)
const double inlet = 0.3, lamp = 0.25, splice = 0.075, cross = 0.15, stud = 0.3 + 0.3;
const std::vector<std::string> four = {"tail", "left", "right", "ground"};

// Combined signals on two lamps a side, joined at the left rear: `run` from inlet to the left, `across` to the right.
std::vector<Row> four_wires(double run, double across, const std::string& tail, const std::string& left, const std::string& right, const std::string& ground,
                            const std::string& left_end, const std::string& right_end, const std::string& tail_left, const std::string& tail_right) {
  return {{ground, "G-F.1", "WH", stud},
          {left, left_end, "YE", run + inlet + lamp},
          {right, right_end, "GN", run + across + cross + inlet + lamp},
          {tail, "S left rear", "BN", run + inlet + splice},
          {"S left rear", tail_left, "BN", splice + lamp},
          {"S left rear", tail_right, "BN", across + cross + splice + lamp}};
}
std::vector<Row> with(std::vector<Row> rows, const std::vector<Row>& more) {
  rows.insert(rows.end(), more.begin(), more.end());
  return rows;
}
const double plate_lead = 0.8 + splice;   // from the pocket to the plate lamp, not surveyed

// Round six: 1 tail, 2 ground, 3 left, 4 right, 6 charge. Blade seven: 1 ground, 2 brake, 3 tail, 4 charge, 5 left,
// 6 right. Flat four: 1 ground, 2 tail, 3 left, 4 right. ISO 11446 and J560 as in their tables.
const Table tables[] = {
    {"small-sedan", "S02, two-way diodes: 1.4, 4.1, 1.5 m", four,
     with(four_wires(5.5, 1.5, "J2.1.car", "J2.3.car", "J2.4.car", "J2.2.car", "D1.A1", "D2.A1", "D3.A1", "D4.A1"),
          {{"S left rear", "E7.feed", "BN", plate_lead}})},
    {"small-sedan", "S02, charge line: 1.1 m, coil fuse at the inlet", {"charge"},
     {{"J2.6.car", "S inlet", "BK", inlet + splice}, {"S inlet", "FU3.1", "BK", splice}, {"S inlet", "D5.A", "BK", 1.1 + splice},
      {"D5.K", "FU2.1", "BK", part_lead}}},
    {"compact-crossover", "S03, strips: 1.5, 4.4, 1.6, 0.7 m", four,
     {{"J2.2.car", "G-F.1", "WH", stud},
      {"J2.3.car", "E6.feed", "YE", 8.2 + cross + inlet + lamp},
      {"J2.4.car", "E8.feed", "GN", 8.2 + cross + inlet + lamp},
      {"J2.1.car", "S tailgate centre", "BN", 7.5 + inlet + splice},
      {"S tailgate centre", "E10.feed", "BN", splice + lamp},
      {"S tailgate centre", "E7.feed", "BN", 0.7 + cross + splice + lamp},
      {"S tailgate centre", "E9.feed", "BN", 0.7 + cross + splice + lamp},
      {"J2.2.car", "S tailgate centre", "WH", 7.5 + inlet + splice},
      {"S tailgate centre", "E10.return", "WH", splice + lamp},
      {"S tailgate centre", "S left of tailgate", "WH", 0.7 + cross + 2 * splice},
      {"S tailgate centre", "S right of tailgate", "WH", 0.7 + cross + 2 * splice},
      {"S left of tailgate", "E6.return", "WH", splice + lamp},
      {"S left of tailgate", "E7.return", "WH", splice + lamp},
      {"S right of tailgate", "E8.return", "WH", splice + lamp},
      {"S right of tailgate", "E9.return", "WH", splice + lamp}}},
    {"medium-wagon", "S04, two-way diodes lamp for lamp: 1.5, 4.7 to the right, 1.6 m",
     {"left", "right", "stop", "left-tail", "right-tail", "fog", "reverse", "ground", "charge-return"},
     {{"J2.3.car", "G-F.1", "WH", stud},
      {"J2.13.car", "G-F.1", "WH/RD", stud},
      {"J2.6.car", "S right rear", "RD", 6.2 + inlet + splice},
      {"S right rear", "D2.A1", "RD", splice + lamp},
      {"S right rear", "D1.A1", "RD", 1.6 + cross + splice + lamp},
      {"J2.1.car", "D3.A1", "YE", 7.8 + cross + inlet + lamp},
      {"J2.4.car", "D4.A1", "GN", 6.2 + inlet + lamp},
      {"J2.7.car", "D5.A1", "BK", 7.8 + cross + inlet + lamp},
      {"J2.5.car", "D6.A1", "BN", 6.2 + inlet + lamp},
      {"J2.2.car", "D7.A1", "BU", 6.2 + inlet + lamp},
      {"J2.8.car", "D8.A1", "PK", 7.8 + cross + inlet + lamp},
      {"S right rear", "E7.feed", "BN", plate_lead}}},
    {"large-pickup", "S06, change-over relays: 1.2, 5.9, 1.9 m", {"tail", "left", "right", "ground", "brake"},
     with(four_wires(7.1, 1.9, "J2.3.car", "J2.5.car", "J2.6.car", "J2.1.car", "K1.87", "K2.87", "K3.87", "K4.87"),
          {{"S left rear", "E5.feed", "BN", plate_lead}, {"J2.2.car", "B1.supply", "BU", 1.2 + inlet}})},
    {"compact-sedan", "S09, converter to separate at the left rear: 1.5, 4.4, 1.6 m", {"tail", "left", "right", "stop", "ground"},
     {{"J2.1.car", "G-F.1", "WH", stud},
      {"J2.5.car", "U1.in_left", "YE", 5.9 + inlet},
      {"J2.6.car", "U1.in_right", "GN", 5.9 + inlet},
      {"U1.out_stop", "S left rear", "RD", splice},
      {"S left rear", "D1.A1", "RD", splice + lamp},
      {"S left rear", "D2.A1", "RD", 1.6 + cross + splice + lamp},
      {"U1.out_left", "D3.A1", "YE", lamp},
      {"U1.out_right", "D4.A1", "GN", 1.6 + cross + lamp},
      {"J2.3.car", "S left rear", "BN", 5.9 + inlet + splice},
      {"S left rear", "D5.A1", "BN", splice + lamp},
      {"S left rear", "D6.A1", "BN", 1.6 + cross + splice + lamp},
      {"S left rear", "E7.feed", "BN", plate_lead}}},
    {"low-coupe", "S11, field-effect: 1.6, 4.1, 1.5 m; brake controller under the seat 1.4 m", {"tail", "left", "right", "ground", "brake"},
     with(four_wires(5.7, 1.5, "J2.3.car", "J2.5.car", "J2.6.car", "J2.1.car", "D1.A1", "D2.A1", "D3.A1", "D4.A1"),
          {{"S left rear", "E5.feed", "BN", plate_lead}, {"J2.2.car", "B1.supply", "BU", 3.0 + inlet},
           {"S left rear", "R1.1", "YE", splice}, {"S right rear", "R2.1", "GN", splice}})},   // bleed resistors at the lamp sides
    {"mended-hatchback", "S12 mended, two-way diodes: 1.4, 4.3, 1.5 m", four,
     with(four_wires(5.7, 1.5, "J2.1.car", "J2.3.car", "J2.4.car", "J2.2.car", "D1.A1", "D2.A1", "D3.A1", "D4.A1"),
          {{"S left rear", "E7.feed", "BN", plate_lead}})},
    {"inherited-hatchback", "S12 as meant, single diodes: 1.4, 4.3, 1.5 m; ground at the inlet",  {"tail", "left", "right"},
     {{"J2.3.car", "D1.A", "YE", 5.7 + inlet + lamp},
      {"J2.4.car", "D2.A", "GN", 7.2 + cross + inlet + lamp},
      {"J2.1.car", "S left rear", "BN", 5.7 + inlet + splice},
      {"S left rear", "D3.A", "BN", splice + lamp},
      {"S left rear", "D4.A", "BN", 1.5 + cross + splice + lamp}}},
    {"delivery-van", "T01, converter to combined at the left grommet: 1.6, 4.6, 1.7 m", {"tail", "left", "right", "stop", "ground"},
     {{"J2.1.car", "G-F.1", "WH", stud},
      {"J2.3.car", "U1.in_left", "YE", 1.6 + inlet},
      {"J2.5.car", "U1.in_right", "GN", 1.6 + inlet},
      {"J2.4.car", "U1.in_stop", "RD", 1.6 + inlet},
      {"U1.out_left", "D1.A1", "YE", 4.6 + lamp},
      {"U1.out_right", "D2.A1", "GN", 6.3 + cross + lamp},
      {"J2.6.car", "S left rear", "BN", 6.2 + inlet + splice},
      {"S left rear", "D3.A1", "BN", splice + lamp},
      {"S left rear", "D4.A1", "BN", 1.7 + cross + splice + lamp},
      {"S left rear", "E5.feed", "BN", plate_lead}}},
    {"city-car", "T02, added bulbs: 1.0, 3.2, 1.2 m", four,
     {{"J2.1.car", "G-F.1", "WH", stud},
      {"J2.3.car", "E5.feed", "YE", 4.2 + inlet + lamp},
      {"J2.4.car", "E7.feed", "GN", 5.4 + cross + inlet + lamp},
      {"J2.2.car", "S left rear", "BN", 4.2 + inlet + splice},
      {"S left rear", "E6.feed", "BN", splice + lamp},
      {"S left rear", "E9.feed", "BN", splice + lamp},
      {"S left rear", "E8.feed", "BN", 1.2 + cross + splice + lamp},
      {"J2.1.car", "S left rear", "WH", 4.2 + inlet + splice},
      {"S left rear", "E5.return", "WH", splice + lamp},
      {"S left rear", "E6.return", "WH", splice + lamp},
      {"S left rear", "E9.return", "WH", splice + lamp},
      {"S left rear", "S right rear", "WH", 1.2 + cross + 2 * splice},
      {"S right rear", "E7.return", "WH", splice + lamp},
      {"S right rear", "E8.return", "WH", splice + lamp}}},
    {"bus-lamp-estate", "T03, removable bar: 7.5, 1.2 m", {"left", "right", "stop", "left-tail", "right-tail"},
     {{"J2.1.car", "E8.feed", "YE", 7.5 + inlet + lamp},
      {"J2.4.car", "E11.feed", "GN", 8.7 + cross + inlet + lamp},
      {"J2.6.car", "S left of bar", "RD", 7.5 + inlet + splice},
      {"S left of bar", "E7.feed", "RD", splice + lamp},
      {"S left of bar", "E10.feed", "RD", 1.2 + cross + splice + lamp},
      {"J2.7.car", "E9.feed", "BK", 7.5 + inlet + lamp},
      {"J2.5.car", "S right of bar", "BN", 8.7 + cross + inlet + splice},
      {"S right of bar", "E12.feed", "BN", splice + lamp},
      {"S right of bar", "E13.feed", "BN", splice + lamp}}},
    {"old-roadster", "T05, battery-fed relays: 1.2, 3.0, 1.2 m", four,
     with(four_wires(4.2, 1.2, "J2.2.car", "J2.3.car", "J2.4.car", "J2.1.car", "K1.86", "K2.86", "K3.86", "K4.86"),
          {{"S left rear", "E5.feed", "BN", plate_lead}})},
    {"led-wagon", "T06, powered module at the left grommet: 1.4, 4.4, 1.5 m", {"tail", "left", "right", "ground"},
     {{"J2.1.car", "G-F.1", "WH", stud},
      {"J2.5.car", "U1.in_left", "YE", 1.4 + inlet},
      {"J2.6.car", "U1.in_right", "GN", 1.4 + inlet},
      {"J2.3.car", "U1.in_tail", "BN", 1.4 + inlet},
      {"U1.out_left", "D1.A1", "YE", 4.4 + lamp},
      {"U1.out_right", "D2.A1", "GN", 5.9 + cross + lamp},
      {"U1.out_tail", "S left rear", "BN", 4.4 + splice},
      {"S left rear", "D3.A1", "BN", splice + lamp},
      {"S left rear", "D4.A1", "BN", 1.5 + cross + splice + lamp},
      {"S left rear", "E5.feed", "BN", plate_lead}}},
};

std::string end_name(const Circuit& c, TerminalRef t) {
  const Part& part = c.part(t.part);
  return part.kind == "splice" ? "S " + part.place : c.name(t);
}

std::string line(std::string a, std::string b, const std::string& colour, double metres) {
  if (b < a) std::swap(a, b);
  return a + " - " + b + ", " + colour + ", " + format_fixed(metres, 3) + " m";
}

}  // namespace

TEST_CASE("the wires of each survey and method are those of the table written by hand") {
  for (const Table& t : tables) {
    CAPTURE(t.says);
    const auto s = oracle::solved_text(oracle::job_text(t.job));
    std::multiset<std::string> by_hand, built;
    for (const Row& r : t.rows) by_hand.insert(line(r.from, r.to, r.colour, r.length_m));
    for (const Wire& w : s.facts->circuit().wires)
      if (w.status == Status::fitted && std::find(t.circuits.begin(), t.circuits.end(), w.circuit) != t.circuits.end())
        built.insert(line(end_name(s.facts->circuit(), w.from), end_name(s.facts->circuit(), w.to), w.colour, w.length_m));
    for (const std::string& row : by_hand) CHECK_MESSAGE(built.count(row) == by_hand.count(row), row);
    for (const std::string& row : built) CHECK_MESSAGE(by_hand.count(row) == built.count(row), row);
  }
}
