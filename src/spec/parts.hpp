// Shared by the files of this room: compound texts as fitters write them, and bounds on values.
#pragma once

#include <string>
#include <vector>

#include "spec/job.hpp"

namespace towloom {

// Bounds that only catch slips of the pen; common practice, no source.
constexpr double longest_m = 100;     // a coach's own loop can reach 30 m out and back
constexpr double highest_v = 32;      // rating of a blade fuse; 24 V systems read below it
constexpr double most_a = 200;        // beyond any tow wiring
constexpr double most_w = 300;        // beyond any lamp
constexpr double most_duty = 0.99;    // more is as good as steady
constexpr double most_ohm = 10e6;     // a meter's own resistance: more is open
constexpr double coldest_c = -40, hottest_c = 125;

// A quantity above zero and not above `most`, or an error at its place.
std::optional<PlacedNumber> bounded(Fields&, std::string_view key, Unit, double most);
std::vector<std::string> split(std::string_view text, std::string_view between);
std::string trimmed(std::string_view text);

bool is_iso_date(const std::string&);   // 2026-11-24, and a day that exists
std::vector<AsFoundRow> read_as_found(const Node&, Diagnostics&);
std::vector<MeasuredRow> read_measured(const Node&, Diagnostics&);
std::optional<Outlet> read_outlet(Fields&, const std::string& key, Diagnostics&);
// "GY/VT 0.75 mm2": colour letters, then the size if known.
SizedColour read_colour(const PlacedText&, Diagnostics&);
Car read_car(const Node&, Diagnostics&);
// `added`: lamps fitted for towing, which hang on no factory wire.
std::vector<LampRow> read_lamps(const Node&, bool added, Diagnostics&);
Coach read_coach(const Node&, Diagnostics&);
// found: of one outlet; `plug` as in FoundContact.
std::vector<FoundContact> read_found(Fields&, int plug, Diagnostics&);
Cord read_cord(const Node&, Diagnostics&);
// Outlet, cord and inlet of each; what a plug does not say it takes from the main one. Its found rows go to the coach.
std::vector<SecondPlug> read_second_plugs(const Node&, const Cord& main, std::vector<FoundContact>& found, Diagnostics&);
WireRules read_wire(const Node&, Diagnostics&);
Limits read_limits(const Node&, Diagnostics&);
// "left tail" of "with left tail", or nothing.
std::optional<std::string> behind(const std::string& text, const std::string& words);
// What the job's rows say of each other: nodes, housings, grounds, places.
void check_references(const Spec&, Diagnostics&);

}  // namespace towloom
