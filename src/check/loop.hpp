// How relays that find no rest hang on each other's contacts.
#pragma once

#include <string>
#include <vector>

#include "circuit/circuit.hpp"

namespace towloom {

// "K1.86 hangs on K2.87a, K2.86 on K1.87a": each coil with the contact of one of these parts that it is wired to, over
// wires, splices, plugs, fuses and diodes, but not over ground. Empty where no coil reaches such a contact.
std::string coil_loop(const Circuit&, const std::vector<int>& parts);
// "K1, K2 find no rest: K1.86 hangs on K2.87a, K2.86 on K1.87a"; of the parts that chatter in one scene.
std::string chatter_text(const Circuit&, const std::vector<PartId>& parts);

}  // namespace towloom
