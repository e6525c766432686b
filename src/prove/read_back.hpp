// What a reader of the pages takes to be joined, from the geometry alone.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "prove/page.hpp"

namespace towloom {

// Names joined into groups.
class Groups {
 public:
  void join(const std::string& a, const std::string& b);
  std::string head(
      const std::string& name) const;  // the same for all of a group; itself if unknown

 private:
  int place(const std::string& name);
  int root(int i) const;
  std::map<std::string, int> index_;
  std::vector<std::string> names_;
  std::vector<int> parent_;
};

struct ReadBack {
  std::map<std::string, std::multiset<std::string>> ends;  // wire id -> terminals its pieces end on
  std::map<std::string, std::multiset<int>> pieces;        // wire id -> piece numbers met
  std::map<std::string, int> piece_count;                  // wire id -> pieces announced
  Groups nets;  // keys: terminal_key, "wire W1", "bar S1", "joins body", "dot 0.3"
};
// All pins of a splice or joint are one terminal, whatever a bar calls them.
std::string terminal_key(const std::string& part, const std::string& kind,
                         const std::string& terminal);
ReadBack read_back(const std::vector<Page>&);

void compare(const ReadBack&, const std::vector<Page>&, const Circuit&, Defects&);

}  // namespace towloom
