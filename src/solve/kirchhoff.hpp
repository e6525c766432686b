// Kirchhoff's sums of a network at given volts, and the linear equations of Newton's next step.
#pragma once

#include "solve/newton.hpp"

namespace towloom {

// The sums at one set of volts. Points are counted as in the network; one more behind them is the reference.
template <class Sum>
struct Picture {
  std::vector<double> amps, siemens;   // by bent branch
  // By point: what is missing into it. A branch's current is the same number at both its ends; summed
  // with more digits it cancels in a floating piece, which its leak of 1 nS alone must hold.
  std::vector<Sum> into;
  double content = 0;                  // co-content of all branches
};

// A network taken apart: straight lines, whose conductances are put together once, and bent ones. Open branches are in
// neither. It may be set again and again: its memory serves again. Volts have an entry more than there are points, the
// last 0: the reference.
class Kirchhoff {
 public:
  void set(const Network&, const Mesh&);   // both must outlive what is asked for
  // Of what a reduction left: straight lines by slot of the mesh and from each point to the reference, amps forced into
  // each point, and bent branches.
  struct Left {
    std::vector<double> siemens, to_reference, forced_a;
  };
  struct Line {
    int a, b, slot;                        // points, -1 = the reference; slot of the mesh, -1 where it has none
  };
  void set(const Left&, const std::vector<Line>& pairs, const std::vector<Line>& bent, const std::vector<const Curve*>&, const Mesh&);
  std::size_t points() const { return points_; }
  template <class Sum>
  void look(const std::vector<double>& volts, Picture<Sum>&) const;
  template <class Sum>
  void newton_step(const Picture<Sum>& at, std::vector<double>& step);
  // Kirchhoff's law holds as far as the volts' last digit lets it be seen.
  template <class Sum>
  bool balanced(const std::vector<double>& volts, const Picture<Sum>& at) const;
  // The first share of a step at which an LED or a limit comes to its next straight piece, and a little beyond: there
  // the slope jumps, and a search that halves creeps up to the bend for ever. 1 = none does.
  double first_bend(const std::vector<double>& volts, const std::vector<double>& step) const;
  std::vector<double> amps(const std::vector<double>& volts) const;   // by branch of the network

 private:
  struct Straight {
    std::size_t a, b;   // points
    double siemens, emf;
  };
  struct Bent {
    std::size_t a, b;
    int slot;           // of the mesh; -1: an end is the reference
    const Curve* curve;
  };
  const Network* network_ = nullptr;
  const Mesh* mesh_ = nullptr;
  std::size_t points_ = 0;
  std::vector<Straight> straight_;
  std::vector<Bent> bent_;
  std::vector<double> siemens_, to_reference_;   // of the straight ones; by slot, by point
  std::vector<double> own_, forced_;   // by point: siemens to the reference beside `straight_`, amps into it
  Mesh::Work work_;
};

// The volts of a network that is set, as find_operating_point() finds them but ended as soon as it is enough, which may be
// at the start, or a step is as short as `near_enough`, V. They stand until the next call in this thread.
using NetworkSetter = std::function<void(Kirchhoff&)>;
const std::vector<double>& find_nearly(const NetworkSetter&, const std::vector<double>& start, double near_enough, const Enough&, Nearly& says);

}  // namespace towloom
