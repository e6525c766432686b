// trace --at: one reading between two terminals, with the instrument attached; trace --fault.
#pragma once

#include "commands/commands.hpp"

namespace towloom {

// Prints the reading of each phase; the exit status.
int print_reading(const Arguments&, const Loaded&, const Scene&);

// Puts the fault that is described so into the circuit. False after an error: what is near.
bool put_fault(const std::string& text, Loaded&);

}  // namespace towloom
