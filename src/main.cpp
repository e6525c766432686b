#include <exception>
#include <iostream>

#include "commands/commands.hpp"

int main(int argc, char** argv) {
  try {
    return towloom::run({argv + 1, argv + argc});
  } catch (const std::exception& fault) {
    std::cerr << "towloom: internal fault: " << fault.what()
              << "\n  nothing was written; please report this with the job file\n";
    return towloom::internal;
  }
}
