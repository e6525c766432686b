// The circuit with one fault, and with the fuses open that it blew: network by network, each as soon as it is asked for.
#pragma once

#include "solve/alike.hpp"

namespace towloom {

constexpr double little_a = 1e-4;      // moves the light of a lamp of 50 mA by a hundredth
constexpr double untouched_a = 1e-7;   // over all points: a hundredth of what the dark limit of an LED is
// One network of the sound circuit, with the fault in it.
struct Outcome {
  bool known = false, converged = false;
  bool same = false;           // every lamp, relay, input and fuse is on the same side of its limits as without the fault
  bool same_devices = false;
  bool untouched = false;      // nothing flows otherwise than without the fault, by amps that matter to nothing
  bool firm = true;            // no limit is so near that the leaks of a few points decide
  int overloaded = -1;         // index of the first protector that opens; what the lamps show before it does is not asked
  int change = -1;             // of the volts: index in changes_; -1 = too little to be kept
  std::vector<LampLook> lamps; // empty: as without the fault
};

class Variant {
 public:
  // `last`: protectors that carry too much stay closed.
  Variant(Sound&, const std::vector<Change>&, bool last);
  const Outcome& outcome(int network);
  const std::vector<LampLook>& looks(int network);
  // Of all points.
  std::vector<double> volts(int network);
  const Solver& solver() const { return solver_; }
  // Holds of every circuit with the same essence, as far as it is known.
  bool firm() const;
  // The same of a scene that was solved by itself.
  bool firm(const Solved&, const Scene&) const;
  // Of a network in which filaments are held: so little changes that their RMS volts stay, and nothing else is seen.
  bool leaves_alone(const SoundNetwork& held, bool& firm);
  Essence essence() const { return find_essence(sound_, solver_, forces_); }
  const Circuit& devices() const { return forced_ ? *forced_ : sound_.circuit; }

 private:
  struct Known {               // what the fault did to a network that was solved
    std::vector<double> change;      // of the volts, by network point
    std::vector<double> signature;   // of the sound network
  };
  std::vector<double> signature(const SoundNetwork&) const;
  double disturbance(const std::vector<char>& conducting, const Operating&) const;
  bool quiet(const SoundNetwork&, double most, Outcome&);
  std::vector<double> guess(const SoundNetwork&) const;
  std::optional<std::size_t> most_like(const SoundNetwork&) const;
  void solve(const SoundNetwork&, bool rises, Outcome&);
  void keep(const SoundNetwork&, const std::vector<double>& volts, Outcome&);
  bool keeps_ways(const SoundNetwork&, const std::vector<double>& volts, double known_within) const;
  bool judge(const SoundNetwork&, const std::vector<double>& volts, const std::vector<double>& amps, double known_within, Outcome&);

  Sound& sound_;
  const Solver solver_;
  std::vector<ModeForced> forces_;
  std::optional<Circuit> forced_;
  std::vector<int> touched_;   // network points
  const bool last_;
  bool lamp_changed_ = false;  // burnt out: it shows other than it would with the same amps
  std::vector<Outcome> outcomes_;
  std::vector<Known> known_;
  std::vector<double> last_volts_;   // that were solved
  std::vector<double> amps_;      // by branch, of those that are watched
};

}  // namespace towloom
