// Linear equations of a resistor network, solved by removing one point after the other (star to
// mesh). Only sums of positive numbers occur, so that a point held by 1 nS alone is as exact as one
// held by 10 kS; a general elimination loses it.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

namespace towloom {

class Mesh {
 public:
  // Conductances lie between the points of each pair; every point also has one to the reference.
  // Points marked in `last` (none, or one mark a point) are removed behind all others; with them those whose removal
  // would join too many neighbours: these count as marked.
  Mesh(int points, const std::vector<std::pair<int, int>>& pairs, std::vector<char> last = {});
  // One set of equations: what is filled in before, and what removal leaves. Its memory serves again.
  struct Work {
    std::vector<double> siemens, to_reference, amps;   // siemens by slot; amps flow into a point
    std::vector<double> ohm;                           // by removed point, of all its conductances together
  };
  int points() const { return points_; }
  int slots() const { return slots_; }
  int slot(std::size_t pair) const { return slot_of_pair_[pair]; }   // -1: both ends are one point
  // Volts of every point, the reference's 0 V left out.
  void solve(Work&, std::vector<double>& volts) const;
  // The same in two halves, so that what does not change is done once: all points but those marked are removed, and
  // what is left in the work is to be solved; when these are known, so are all.
  void remove_unmarked(Work&) const;
  void find_removed(const Work&, std::vector<double>& volts) const;
  struct Pair {
    int a, b, slot;
  };
  const std::vector<Pair>& left() const { return left_; }   // pairs of marked points, also those that removal made
  std::vector<int> marked() const;                          // points, by rising number

 private:
  void remove(std::size_t first, std::size_t end, Work&) const;
  void put_back(std::size_t first, std::size_t end, const Work&, std::vector<double>& volts) const;
  struct Neighbour {
    int point, slot;
  };
  struct Step {                    // one point removed
    int point;
    std::size_t neighbours, end;   // those that remain, in neighbours_
    std::size_t targets;           // in targets_: slot of each pair of neighbours, rows of a triangle
  };
  int points_ = 0, slots_ = 0;
  std::vector<int> slot_of_pair_;  // -1: both ends are one point
  std::vector<Step> steps_;
  std::vector<Neighbour> neighbours_;
  std::vector<int> targets_;
  std::size_t unmarked_ = 0;       // steps before the first marked point
  std::vector<Pair> left_;
};

}  // namespace towloom
