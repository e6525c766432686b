// Where on the car a place stands: by the words in its name, for a job gives lengths along the way and no coordinates.
#include <algorithm>
#include <cctype>

#include "sheets/map_plan.hpp"

namespace towloom::map {
namespace {

// How far along the car: drawn to no scale. The first station of which a word stands in the name counts; its words are
// in the language file, key map-at-STATION.
struct Station {
  const char* name;
  double along;
};
constexpr double side_lane = 0.72, tail = 0.95;
constexpr Station stations[] = {{"inlet", 0.03}, {"engine", 0.17}, {"pedals", 0.42}, {"bulkhead", 0.31}, {"seats", 0.55}, {"window", 0.76},
                                {"trunk", 0.83}, {"tail", tail}, {"front", 0.08}, {"middle", 0.48}};

bool has_word(const std::string& text, const std::string& sought) {
  const auto letter = [&](std::size_t i) { return i < text.size() && std::isalpha(static_cast<unsigned char>(text[i])) != 0; };
  for (std::size_t at = text.find(sought); at != std::string::npos; at = text.find(sought, at + 1))
    if ((at == 0 || !letter(at - 1)) && !letter(at + sought.size())) return true;
  return false;
}

bool has_one_of(const std::string& text, const std::string& list) {
  for (std::size_t from = 0; from < list.size();) {
    const std::size_t comma = std::min(list.find(", ", from), list.size());
    if (has_word(text, list.substr(from, comma - from))) return true;
    from = comma + 2;
  }
  return false;
}

double across_of(Side side) { return side == Side::left ? side_lane : side == Side::right ? -side_lane : 0; }

}  // namespace

Standing standing_of(const std::string& place, const Spec& spec, const Style& style) {
  Standing out;
  for (const Station& s : stations) {
    if (!has_one_of(place, word(style, std::string("map-at-") + s.name))) continue;
    out.along = s.along;
    if (std::string(s.name) == "pedals") out.across = across_of(spec.car.drive.value == "right-hand" ? Side::right : Side::left);
    break;
  }
  for (const LampRow& lamp : spec.car.lamps)   // a housing whose name says nothing is at the tail, as surveyed
    if (lamp.unit == place) {
      if (!out.known()) out.along = tail;
      out.across = across_of(lamp.side);
    }
  if (has_word(place, word(style, "left-side"))) out.across = side_lane;
  if (has_word(place, word(style, "right-side"))) out.across = -side_lane;
  return out;
}

}  // namespace towloom::map
