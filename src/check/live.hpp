// Which wires and parts carry the current of one function: what a sheet shows in full while the rest is quiet.
#pragma once

#include <string>
#include <vector>

#include "check/check.hpp"

namespace towloom {

struct LivePath {
  std::string scene;           // printed name of the scene it was found in: "tail + left"
  std::vector<char> wires, parts;   // by index in the circuit: carries it
  std::vector<char> lamps;     // by lamp intent: lit by it
};
// The paths of all lamps that are lit in a scene, from each source to the lamp and back, both flash phases together.
LivePath live_in_scene(const Facts&, std::size_t scene);
// The path of one lamp, by its intent; empty where it is dark.
LivePath live_of_lamp(const Facts&, std::size_t scene, std::size_t lamp);
// `function` names a scene (left, stop, tail + left), a function of a lamp (plate: in the scene that lights it), or
// the function of a contact (charge: in the first towing scene in which it carries current). Nothing if none of these is so.
std::optional<LivePath> live_path(const Facts&, const std::string& function);
// What live_path() knows on this job, in the order of the scenes.
std::vector<std::string> live_functions(const Facts&);

}  // namespace towloom
