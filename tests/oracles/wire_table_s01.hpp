// The wires and parts of survey S01 (plain hatchback, two-way diodes), written by hand from the survey:
// front 1.3 m, sill 3.9 m, cross 1.4 m; plate re-fed on the lamp side of the left tail block.
// Spare lengths (proposed, no standard): inlet 0.3, rear pocket 0.25, splice 0.075, cross 0.15 m at each
// end or stretch; 0.3 m from inlet to the front stud and 0.8 m to the plate lamp, not surveyed.
#pragma once

#include <string>
#include <vector>

namespace towloom::s01 {

struct WireRow {
  std::string from, to;       // coach side first; ends of the white wire in either order
  std::string circuit, colour;
  double length_m;
  std::vector<std::string> runs;
};

// P = plate lamp's feed, S-TAIL = splice at the left rear, S-PLATE = splice on the lamp side of D3.
inline const std::vector<WireRow> fitted = {
    {"J2.1.car", "G-F.1", "ground", "WH", 0.3 + 0.3, {}},
    {"J2.2.car", "S-TAIL", "tail", "BN", 1.3 + 3.9 + 0.3 + 0.075, {"front", "sill"}},
    {"S-TAIL", "D3.A1", "tail", "BN", 0.075 + 0.25, {}},
    {"S-TAIL", "D4.A1", "tail", "BN", 1.4 + 0.15 + 0.075 + 0.25, {"cross"}},
    {"J2.3.car", "D1.A1", "left", "YE", 1.3 + 3.9 + 0.3 + 0.25, {"front", "sill"}},
    {"J2.4.car", "D2.A1", "right", "GN", 1.3 + 3.9 + 1.4 + 0.15 + 0.3 + 0.25, {"front", "sill", "cross"}},
    {"S-PLATE", "P", "tail", "BN", 0.8 + 0.075, {}},
};

// Four-flat: contact 1 ground white, 2 tail brown, 3 left yellow, 4 right green (SAE J1239 as summarised).
struct ContactRow {
  std::string contact, signal, colour;
};
inline const std::vector<ContactRow> contacts = {
    {"1", "ground", "WH"}, {"2", "tail", "BN"}, {"3", "left", "YE"}, {"4", "right", "GN"}};

// Each block: the lamp it feeds and the factory colour that is cut there.
struct BlockRow {
  std::string id, function, factory_colour;
  char side;
  std::string signal, stud;
};
inline const std::vector<BlockRow> blocks = {
    {"D1", "stop-turn", "GY/VT", 'L', "left", "G-RL"},
    {"D2", "stop-turn", "GY/OG", 'R', "right", "G-RR"},
    {"D3", "tail", "PK/BK", 'L', "tail", "G-RL"},
    {"D4", "tail", "PK/BK", 'R', "tail", "G-RR"},
};

// What must light in tow, by lamp function and side; everything else stays dark (survey's `expect`).
struct IntentRow {
  std::string function;
  char side;
  std::string signal;
};
inline const std::vector<IntentRow> intents = {
    {"stop-turn", 'L', "left"}, {"stop-turn", 'R', "right"}, {"tail", 'L', "tail"}, {"tail", 'R', "tail"},
    {"plate", 'C', "tail"},     {"chmsl", 'C', ""},          {"reverse", 'R', ""},
};

}  // namespace towloom::s01
