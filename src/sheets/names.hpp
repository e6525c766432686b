// How lamps, contacts, ends of wires and factory wires are named in words: their marks in the circuit stand on no drawing.
#pragma once

#include "circuit/circuit.hpp"
#include "drawing/style.hpp"

namespace towloom {

// A wire that the fitter buys and that has a number on the sheets.
inline bool is_new(const Wire& w) { return w.status == Status::fitted && w.size && w.fixed_ohm < 0 && !w.colour.empty(); }

std::string lamp_place(const Part&, const Style&);       // "left rear stop/turn"
// "left stop/turn", "plate"; its place instead where that is said of another lamp too.
std::string lamp_text(const Circuit&, const Part&, const Style&);
// "J2 LT (3)": moulded letters, number; "J2 contact 3" where nothing is moulded in.
std::string contact_text(const Part&, const Style&);
// "J2 LT (3)", "G-F, front frame stud", "D1 A1, left rear".
std::string end_text(const Circuit&, TerminalRef, const Style&);
// A text with the marks in it that stand on no drawing in words: "E1.feed" as "left rear stop/turn, feed".
std::string in_words(const std::string& text, const Circuit&, const Style&);

}  // namespace towloom
