// The kinds of parts that fragments may name: their terminals, and the figures that a model must give.
#pragma once

#include <string>
#include <vector>

#include "base/quantity.hpp"

namespace towloom {

struct FigureNeed {
  const char* key;             // "pull in"
  Unit unit;
};
struct PartKind {
  const char* kind;            // "relay"
  const char* prefix;          // of its designation: "K"
  std::vector<std::string> terminals;   // empty for modules: their model names them
  const char* model_of;        // models are taken from: diodes, parts, modules; "" = needs none
  std::vector<FigureNeed> figures;      // of a model under parts:
};
const std::vector<PartKind>& part_kinds();
const PartKind* find_kind(const std::string& kind);   // nullptr when there is none

}  // namespace towloom
