// trace --at: one reading between two terminals, with the instrument attached.
#pragma once

#include "commands/commands.hpp"

namespace towloom {

// Prints the reading of each phase; the exit status.
int print_reading(const Arguments&, const Loaded&, const Scene&);

}  // namespace towloom
