// How hot each part gets: power from the solution, temperature by how it is mounted.
#pragma once

#include "solve/solve.hpp"

namespace towloom {

struct PartHeat {
  PartId part;
  int scene = 0;               // the hottest one
  double watts = 0;            // mean over flash and pulse, by their shares of the time
  std::string mounting;        // "on metal", "free air", "in loom"
  double celsius = 0;          // inside: ambient + watts x kelvin per watt
  double in_loom_c = 0;        // the same part wrapped in the loom
  double hottest_c = 0;        // what it bears
  Provenance thermal;
};
// Watts that a part turns into heat in one scene: the sum of volts times amps of its elements. What a source
// inside it gives counts against it, so that a charger's loss is what goes in less what comes out.
double heat_of(const Circuit&, const Points&, PartId, const Solved&);
// Every part whose kind has thermal figures, in its hottest scene.
std::vector<PartHeat> find_heat(const Circuit&, const Catalogue&, const States&, const std::string& mounting, double ambient_c);
// mounting: as the job says, else as its method has it, else on metal.
std::string mounting_of(const Spec&, const Catalogue&);

}  // namespace towloom
