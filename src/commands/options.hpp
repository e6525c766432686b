// The command line as one table: what is parsed, and what help, man page and completion say.
#pragma once

#include "commands/commands.hpp"

namespace towloom {

struct Verb {
  const char* name;
  const char* usage;
  const char* says;
  int (*call)(const Arguments&);
  size_t least = 1, most = 1;   // words besides options
};
struct Option {
  const char* name;
  const char* value;            // nullptr: takes none
  const char* says;
  std::string Arguments::*text;
  bool Arguments::*flag;
  const char* bare = nullptr;   // the verb for which it takes no value and sets the flag
};

std::string help_text(const std::vector<Verb>&, const std::vector<Option>&);
// Troff, section 1: towloom --man > towloom.1
std::string man_page(const std::vector<Verb>&, const std::vector<Option>&, const std::string& version);
// For bash: towloom --completion > /usr/share/bash-completion/completions/towloom
std::string completion(const std::vector<Verb>&, const std::vector<Option>&);

}  // namespace towloom
