// Strict reading of one YAML map: each key is taken by name; what was never taken is an error with
// "did you mean". Every getter reports a wrong kind or unit itself, with place and example.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/quantity.hpp"
#include "yaml/node.hpp"

namespace towloom {

template <class T>
struct Placed {  // a value and where it was written
  T value{};
  Place place;
};

class Fields {
 public:
  // `what` names the map in messages: "coach", "lamp 'left rear'".
  Fields(const Node& map, std::string what, Diagnostics&);

  bool has(std::string_view key) const;                 // does not take
  const Node* node(std::string_view key);               // takes; nullptr if absent
  const Node* need_node(std::string_view key);          // error if absent
  std::optional<Placed<std::string>> text(std::string_view key);
  Placed<std::string> need_text(std::string_view key);  // error if absent; then empty value
  std::optional<Placed<double>> quantity(std::string_view key, Unit);
  std::optional<Placed<double>> need_quantity(std::string_view key, Unit);
  std::optional<Placed<double>> number(std::string_view key);      // no unit
  std::vector<Placed<std::string>> texts(std::string_view key);    // a list, or one scalar
  // One of `words`; error with did-you-mean otherwise. "off"/"no"/"on"/"yes" arrive as written.
  std::optional<Placed<std::string>> word(std::string_view key, const std::vector<std::string>& words);

  void finish();  // reports keys that nobody took
  Place place() const;
  Place key_place(std::string_view key) const;
  Diagnostics& diagnostics() { return *diagnostics_; }
  const std::string& what() const { return what_; }

 private:
  const Node* map_;
  std::string what_;
  Diagnostics* diagnostics_;
  std::vector<std::string> known_;
};

}  // namespace towloom
