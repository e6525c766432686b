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
  // Volts of every point when `amps` flow into it. `siemens` in the order of the pairs.
  std::vector<double> solve(const std::vector<double>& siemens, std::vector<double> to_reference,
                            std::vector<double> amps) const;

  // The same in two halves, so that what does not change is done once: all points but those marked are removed; when
  // these are known, so are all.
  struct Removed {
    std::vector<double> siemens, to_reference, amps;   // siemens by slot; of the marked points: what is left to solve
    std::vector<double> sum;                           // by removed point
  };
  Removed remove_unmarked(const std::vector<double>& siemens, std::vector<double> to_reference, std::vector<double> amps) const;
  void find_removed(const Removed&, std::vector<double>& volts) const;
  struct Pair {
    int a, b, slot;
  };
  const std::vector<Pair>& left() const { return left_; }   // pairs of marked points, also those that removal made
  std::vector<int> marked() const;                          // points, by rising number

 private:
  Removed start(const std::vector<double>& siemens, std::vector<double> to_reference, std::vector<double> amps) const;
  void remove(std::size_t first, std::size_t end, Removed&) const;
  void put_back(std::size_t first, std::size_t end, const Removed&, std::vector<double>& volts) const;
  struct Neighbour {
    int point, slot;
  };
  struct Step {  // one point removed, with the neighbours that remain
    int point;
    std::vector<Neighbour> neighbours;
    std::vector<int> targets;  // slot of each pair of neighbours, rows of a triangle
  };
  int points_ = 0, slots_ = 0;
  std::vector<int> slot_of_pair_;  // -1: both ends are one point
  std::vector<Step> steps_;
  std::size_t unmarked_ = 0;       // steps before the first marked point
  std::vector<Pair> left_;
};

}  // namespace towloom
