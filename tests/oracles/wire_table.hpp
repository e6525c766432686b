// Wire tables written by hand, and what holds a job's wires against one. Lengths: the runs of the survey, and the trade's
// spare: 0.3 m behind the inlet, 0.25 m at a lamp, 0.075 m at a splice, 0.15 m for a run from pocket to pocket; 0.3 m
// from the inlet to its stud where no run says more.
#pragma once

#include <algorithm>
#include <set>

#include "oracles/matrix.hpp"

namespace towloom::oracle {

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

inline const double inlet = 0.3, lamp = 0.25, splice = 0.075, cross = 0.15, stud_lead = 0.3, stud = inlet + stud_lead;
inline const std::vector<std::string> four = {"tail", "left", "right", "ground"};

// Combined signals on two lamps a side, joined at the left rear: `run` from inlet to the left, `across` to the right.
inline std::vector<Row> four_wires(double run, double across, const std::string& tail, const std::string& left, const std::string& right, const std::string& ground,
                            const std::string& left_end, const std::string& right_end, const std::string& tail_left, const std::string& tail_right) {
  return {{ground, "G-F.1", "WH", stud},
          {left, left_end, "YE", run + inlet + lamp},
          {right, right_end, "GN", run + across + cross + inlet + lamp},
          {tail, "S left rear", "BN", run + inlet + splice},
          {"S left rear", tail_left, "BN", splice + lamp},
          {"S left rear", tail_right, "BN", across + cross + splice + lamp}};
}
inline std::vector<Row> with(std::vector<Row> rows, const std::vector<Row>& more) {
  rows.insert(rows.end(), more.begin(), more.end());
  return rows;
}
inline const double plate_lead = 0.8 + splice;   // from the pocket to the plate lamp, not surveyed
inline const double part_lead = 0.15;   // from part to part at one place: within the 7 in of 33 CFR 183.455 (b)

inline std::string end_name(const Circuit& c, TerminalRef t) {
  const Part& part = c.part(t.part);
  return part.kind == "splice" ? "S " + part.place : c.name(t);
}

inline std::string line(std::string a, std::string b, const std::string& colour, double metres) {
  if (b < a) std::swap(a, b);
  return a + " - " + b + ", " + colour + ", " + format_fixed(metres, 3) + " m";
}

inline void check_table(const Table& t) {
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

}  // namespace towloom::oracle
