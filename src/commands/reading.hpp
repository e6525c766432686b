// trace --at: one reading between two terminals, with the instrument attached; trace --fault.
#pragma once

#include "commands/commands.hpp"

namespace towloom {

// Prints the reading of each phase; the exit status.
int print_reading(const Arguments&, const Loaded&, const Scene&);

// Why a scene cannot be printed: no operating point, or the relays that chatter and the loop they hang in.
void say_no_rest(const Circuit&, const Solved&);
// Puts the fault that is described so into the circuit. False after an error: what is near.
bool put_fault(const std::string& text, Loaded&);

}  // namespace towloom
