// Volts and amps of the solution, as rules ask for them.
#pragma once

#include "check/rules.hpp"

namespace towloom {

struct Span { double least = 0, most = 0; };   // over the phases of one scene
Span volts_between(const Points&, const Solved&, TerminalRef plus, TerminalRef minus);
Span amps_of(const Solved&, PartId, int element);   // from the element's a to its b
double mean_amps(const Solved&, PartId, int element);   // weighted by each phase's share of the time
bool is_on(const Scene&, const char* signal);
bool on_the_road(const Scene&);   // towing as meant: the coach's engine runs, the disconnect was worked
// In tow, nobody at the car's pedal, and of the coach's driver this signal alone: "driver.stop".
bool only(const Scene&, const char* driver);
// The row of the survey that this lamp was built from; nullptr for none.
const LampRow* survey_row(const Spec&, const Part& lamp);   // nullptr: none asked for it
const LampRow* survey_row(const Asked&, const LampIntent&);
std::string lamp_name(const Part& lamp);   // "left rear stop-turn"

}  // namespace towloom
